import { area, circle, closedOutline, perimeter, reversed } from '../outline.js';
import { between, cross, distance, dot, minus, norm, plus, times } from '../point.js';
import { arc, bulgeOf, lengthOf, line, segmentFromBulge, sweepOf } from '../segment.js';
import { FULL_TURN, NEARLY_PARALLEL, SAME_POINT, SHORTEST } from '../tolerance.js';
import type { Arc, Line, Outline, Point, Region, Segment } from '../types.js';

/**
 * The same region with segments and outlines narrower than `shortest` (mm) left out, lines that run on as
 * one line and arcs that run on round one center as one arc. Each segment ends exactly where the next starts.
 */
export const tidyRegion = (region: Region, shortest = SHORTEST): Region =>
  region.flatMap((one) => tidy(one, shortest) ?? []);

/** One outline tidied, or undefined when nothing wider than `shortest` is left of it. */
export function tidy(one: Outline, shortest = SHORTEST): Outline | undefined {
  const merged = withoutJoints(withoutShort(one.segments, shortest));
  const whole = wholeCircle(merged, shortest) ?? closedOutline(merged);
  if (whole.segments.length < 2) return undefined;
  return Math.abs(area(whole)) <= (shortest / 2) * perimeter(whole) ? undefined : whole;
}

/**
 * Drops short segments and joins what stood before and after them. Starts at the longest one, which stays.
 * A run of short segments is dropped only as far as it leads nowhere: a curve of many short chords remains.
 */
function withoutShort(segments: readonly Segment[], shortest: number): readonly Segment[] {
  const lengths = segments.map(lengthOf);
  if (lengths.every((length) => length > shortest)) return segments;
  const start = lengths.indexOf(Math.max(...lengths));
  const kept: Segment[] = [];
  for (let i = 0; i < segments.length; i++) {
    const at = (start + i) % segments.length;
    const segment = segments[at];
    if (segment === undefined) continue;
    const last = kept.pop();
    if (last === undefined) kept.push(segment);
    else if ((lengths[at] ?? 0) > shortest) kept.push(...joinedPair(last, segment));
    else if (distance(last.to, segment.to) > shortest) kept.push(last, line(last.to, segment.to));
    else kept.push(last);
  }
  const last = kept.at(-1);
  const first = kept[0];
  if (kept.length < 2 || last === undefined || first === undefined || last.to === first.from) return kept;
  const ends = joinedPair(last, first);
  const inner = kept.slice(1, -1);
  const [one, other] = ends;
  return one !== undefined && other !== undefined ? [other, ...inner, one] : [...ends, ...inner];
}

/**
 * Two segments brought together over a small gap. Lines keep their direction: two lines meet where they
 * cross, an arc follows a line. Arcs round nearly one center become one arc.
 */
function joinedPair(a: Segment, b: Segment): readonly Segment[] {
  const gap = distance(a.to, b.from);
  if (gap === 0) return [a, b];
  if (a.kind === 'arc' && b.kind === 'arc' && runOn(a, b, 2 * gap + SAME_POINT)) return [mergedArc(a, b)];
  const at = meetingPoint(a, b, gap);
  return [endingAt(a, at), startingAt(b, at)];
}

function meetingPoint(a: Segment, b: Segment, gap: number): Point {
  if (a.kind === 'line' && b.kind === 'line') return crossing(a, b, gap) ?? between(a.to, b.from, 0.5);
  if (a.kind === 'line') return a.to;
  if (b.kind === 'line') return b.from;
  return between(a.to, b.from, 0.5);
}

/** Where the lines' carriers cross, if that is near the gap. */
function crossing(a: Line, b: Line, gap: number): Point | undefined {
  const u = minus(a.to, a.from);
  const v = minus(b.to, b.from);
  const denominator = cross(u, v);
  if (Math.abs(denominator) < NEARLY_PARALLEL * norm(u) * norm(v)) return undefined;
  const at = plus(a.from, times(u, cross(minus(b.from, a.from), v) / denominator));
  return distance(at, a.to) <= gap / NEARLY_PARALLEL ? at : undefined;
}

const endingAt = (one: Segment, to: Point): Segment =>
  one.to === to ? one : segmentFromBulge(one.from, to, bulgeOf(one));

const startingAt = (one: Segment, from: Point): Segment =>
  one.from === from ? one : segmentFromBulge(from, one.to, bulgeOf(one));

/** Merges neighbours that run on in one line or round one center. */
function withoutJoints(segments: readonly Segment[]): readonly Segment[] {
  const kept: Segment[] = [];
  for (const segment of segments) {
    const last = kept.pop();
    if (last === undefined) kept.push(segment);
    else kept.push(...(merged(last, segment) ?? [last, segment]));
  }
  while (kept.length > 2) {
    const last = kept.at(-1);
    const first = kept[0];
    const both = last && first && merged(last, first);
    if (both === undefined) break;
    kept.pop();
    kept.splice(0, 1, ...both);
  }
  return kept;
}

function merged(a: Segment, b: Segment): readonly [Segment] | undefined {
  if (a.kind === 'line' && b.kind === 'line') {
    return collinear(a, b) ? [line(a.from, b.to)] : undefined;
  }
  if (a.kind === 'arc' && b.kind === 'arc' && runOn(a, b, SAME_POINT)) return [mergedArc(a, b)];
  return undefined;
}

function collinear(a: Line, b: Line): boolean {
  const u = minus(b.to, a.from);
  const length = norm(u);
  if (length === 0 || dot(minus(a.to, a.from), minus(b.to, b.from)) <= 0) return false;
  return Math.abs(cross(u, minus(a.to, a.from))) <= SAME_POINT * length;
}

/** Same center and radius within the tolerance, same way round, and together less than a full turn. */
function runOn(a: Arc, b: Arc, tolerance: number): boolean {
  return (
    a.ccw === b.ccw &&
    distance(a.center, b.center) <= tolerance &&
    Math.abs(a.radius - b.radius) <= tolerance &&
    Math.abs(sweepOf(a) + sweepOf(b)) < 2 * Math.PI - FULL_TURN
  );
}

/** Through the two outer ends with the sweeps added: the bulge form, exact up to a half turn and good to 1.9 π. */
function mergedArc(a: Arc, b: Arc): Segment {
  if (a.center.x === b.center.x && a.center.y === b.center.y) return { ...a, to: b.to };
  const sweep = sweepOf(a) + sweepOf(b);
  if (Math.abs(sweep) < 1.9 * Math.PI) return segmentFromBulge(a.from, b.to, Math.tan(sweep / 4));
  return arc(a.from, b.to, between(a.center, b.center, 0.5), a.ccw);
}

/** A full circle, in whatever arcs it came, as two half arcs from its rightmost point. */
function wholeCircle(segments: readonly Segment[], shortest: number): Outline | undefined {
  const first = segments[0];
  if (first?.kind !== 'arc') return undefined;
  const arcs = segments.filter((one): one is Arc => one.kind === 'arc');
  if (arcs.length !== segments.length) return undefined;
  const tolerance = 2 * shortest + SAME_POINT;
  const one = (other: Arc): boolean =>
    distance(first.center, other.center) <= tolerance && Math.abs(first.radius - other.radius) <= tolerance;
  const sweep = arcs.reduce((sum, other) => sum + sweepOf(other), 0);
  if (!arcs.every(one) || Math.abs(Math.abs(sweep) - 2 * Math.PI) > FULL_TURN) return undefined;
  const share = 1 / arcs.length;
  const center = arcs.reduce(
    (sum, { center: c }) => plus(sum, times(minus(c, first.center), share)),
    first.center,
  );
  const radius = arcs.reduce((sum, other) => sum + (other.radius - first.radius) * share, first.radius);
  const round = circle(center, radius);
  return sweep > 0 ? round : reversed(round);
}
