import { intersect } from '../intersect.js';
import { offsetRegion } from '../offset.js';
import { area, outline, perimeter, reversed } from '../outline.js';
import { distance, minus, plus, times, turn } from '../point.js';
import { bulgeOf, lengthOf, line, pointAt, segmentFromBulge, sweepOf, tangentAt } from '../segment.js';
import { SAME_POINT, SHORTEST_CUT } from '../tolerance.js';
import type { Arc, Outline, Point, Region, Segment } from '../types.js';

/**
 * Outlines as a machine should get them: no piece shorter than SHORTEST_CUT, at which a controller stutters and which
 * some readers drop, so that the outline comes open. The pieces beside a short one run on until they meet, where they
 * meet near it (a corner, or a curve that goes on), or else meet in its middle. An outline of no width (a hole, or
 * a gap, as wide as what mills it) gets as much as its round ends need, 0.0065 mm, for no width is no path.
 */
export const withoutShortPieces = (region: Region): Region =>
  region.flatMap((one) => (isThin(one) ? widened(one) : [settled(one)]));

/** How far a piece may run on to meet the next, mm. */
const REACH = 2 * SHORTEST_CUT;

function settled(one: Outline): Outline {
  const segments = [...one.segments];
  // From the shortest up: a run of short pieces becomes fewer longer ones, and no more of them go than must.
  for (let at = shortestOf(segments); at >= 0 && segments.length > 2; at = shortestOf(segments)) {
    const before = (at + segments.length - 1) % segments.length;
    const after = (at + 1) % segments.length;
    const [a, short, b] = [segments[before], segments[at], segments[after]];
    if (!a || !short || !b) break;
    const meet = meetingPoint(a, b, pointAt(short, 0.5));
    segments[before] = endingAt(a, meet);
    segments[after] = startingAt(b, meet);
    segments.splice(at, 1);
  }
  return segments.length === one.segments.length ? one : outline(segments);
}

/** The shortest of the pieces that are too short; −1 when there are none. */
function shortestOf(segments: readonly Segment[]): number {
  const lengths = segments.map(lengthOf);
  const least = Math.min(...lengths);
  return least < SHORTEST_CUT ? lengths.indexOf(least) : -1;
}

function meetingPoint(a: Segment, b: Segment, middle: Point): Point {
  const found = intersect(aboutEnd(a, 1), aboutEnd(b, 0));
  const places = found.kind === 'points' ? found.at : found.kind === 'tangent' ? [found.at] : [];
  const near = places.filter((p) => distance(p, middle) < REACH && isAhead(a, b, p));
  const [first = middle, ...rest] = near;
  return rest.reduce((best, p) => (distance(p, middle) < distance(best, middle) ? p : best), first);
}

/** A stretch of a segment's line or circle on both sides of its end (1) or its start (0). */
function aboutEnd(segment: Segment, end: 0 | 1): Segment {
  const p = end === 1 ? segment.to : segment.from;
  if (segment.kind === 'line') {
    const step = times(tangentAt(segment, 0), REACH);
    return line(minus(p, step), plus(p, step));
  }
  const angle = Math.min(REACH / segment.radius, 1);
  const turned = (by: number): Point => {
    const [x, y] = [p.x - segment.center.x, p.y - segment.center.y];
    const [cos, sin] = [Math.cos(by), Math.sin(by)];
    return { x: segment.center.x + x * cos - y * sin, y: segment.center.y + x * sin + y * cos };
  };
  const sign = segment.ccw ? 1 : -1;
  return { ...segment, from: turned(-sign * angle), to: turned(sign * angle) };
}

/** Whether pieces that end and start there still run the way they did. */
const isAhead = (a: Segment, b: Segment, p: Point): boolean =>
  distance(a.from, p) > SHORTEST_CUT / 2 &&
  distance(b.to, p) > SHORTEST_CUT / 2 &&
  Math.abs(turn(minus(a.to, a.from), minus(p, a.from))) < 1 &&
  Math.abs(turn(minus(b.to, b.from), minus(b.to, p))) < 1;

function endingAt(one: Segment, to: Point): Segment {
  if (one.kind === 'line') return line(one.from, to);
  return isOn(one, to) ? { ...one, to } : arcFrom(one.from, tangentAt(one, 0), to, one);
}

function startingAt(one: Segment, from: Point): Segment {
  if (one.kind === 'line') return line(from, one.to);
  if (isOn(one, from)) return { ...one, from };
  const back = arcFrom(one.to, times(tangentAt(one, 1), -1), from, one);
  return back.kind === 'line' ? line(from, one.to) : { ...back, from, to: one.to, ccw: !back.ccw };
}

const isOn = (one: Arc, p: Point): boolean => Math.abs(distance(one.center, p) - one.radius) < SAME_POINT;

/** The arc that leaves a point in a direction and comes to another; far round, one that turns as far as it did. */
function arcFrom(from: Point, along: Point, to: Point, was: Arc): Segment {
  if (Math.abs(sweepOf(was)) > Math.PI) {
    const bulge = from === was.from ? bulgeOf(was) : -bulgeOf(was);
    return segmentFromBulge(from, to, bulge);
  }
  const half = turn(along, minus(to, from));
  return segmentFromBulge(from, to, Math.abs(half) < 1e-9 ? 0 : Math.tan(half / 2));
}

/** Half turns of this radius, mm, are just long enough. */
const MIN_RADIUS = (1.02 * SHORTEST_CUT) / Math.PI;

const isThin = (one: Outline): boolean => Math.abs(area(one)) < MIN_RADIUS * (perimeter(one) / 2);

/** Moved out all round; a hole stays one. */
function widened(one: Outline): Region {
  const isHole = area(one) < 0;
  const wide = offsetRegion([isHole ? reversed(one) : one], MIN_RADIUS).map(settled);
  return isHole ? wide.map((each) => reversed(each)) : wide;
}
