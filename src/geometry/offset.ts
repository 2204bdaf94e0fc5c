import { intersect } from './intersect.js';
import { outline } from './outline.js';
import { minus, plus, times, turn, turnedRight, unit } from './point.js';
import { type Arrangement, arrange, coincident, type Fragment } from './regions/arrangement.js';
import { withoutSharedEdges } from './regions/boolean.js';
import { type BoxTree, boxTree } from './regions/box-tree.js';
import { stitch } from './regions/stitch.js';
import { tidyRegion } from './regions/tidy.js';
import { distanceToSegment, extentsOfSegment, lengthOf, line, pointAt, tangentAt } from './segment.js';
import { CUSP, KEPT_DISTANCE, SAME_POINT, SLIVER } from './tolerance.js';
import type { Arc, Outline, Point, Region, Segment } from './types.js';

/**
 * Minkowski sum of a region with a disc (distance > 0), or its erosion by one (distance < 0): outlines move
 * outward, or inward, by |distance| mm; corners on the far side become true arcs; outlines merge, split and
 * vanish as they must, all of them together. The result is tidy and its inside lies left of its outlines.
 *
 * The region must be one: counter-clockwise outside, clockwise holes, none crossing; touching is allowed.
 *
 * Method: every segment is moved sideways and every corner that opens gets an arc; all are cut where they
 * meet; a piece is kept when its middle is at least |distance| − KEPT_DISTANCE from every segment of the
 * region; pieces that lie on one another in opposite directions (a gap that closes exactly, a part that
 * shrinks to a line) cancel; the rest is stitched together.
 */
export function offsetRegion(region: Region, distance: number): Region {
  const tidied = tidyRegion(region);
  if (Math.abs(distance) <= SAME_POINT) return tidied;
  // Ends that may be out by SAME_POINT say little of a millionth's direction: where that opens the outline, such
  // segments go, too.
  const moved = offsetOf(tidied, distance) ?? offsetOf(tidyRegion(region, SLIVER), distance);
  if (moved) return moved;
  throw new Error(`offset by ${distance} left an open chain`);
}

/** undefined where an end is left loose. */
function offsetOf(tidied: Region, distance: number): Region | undefined {
  const regular = sharesEdges(tidied) ? withoutSharedEdges(tidied) : tidied;
  const source = regular.flatMap((one) => one.segments);
  if (source.length === 0) return [];
  const near = boxTree(source.map(extentsOfSegment));
  const raw = regular.flatMap((one) => rawOffset(one, distance));
  for (const tolerance of [SAME_POINT, SAME_POINT / 8, SAME_POINT * 8]) {
    const arrangement = arrange(raw, tolerance);
    const kept = boundary(arrangement, source, near, distance, tolerance);
    const { loops, loose } = stitch(kept, arrangement.nodes, longestStub(distance));
    if (loose <= longestStub(distance)) return tidyRegion(loops.map(outline));
  }
  return undefined;
}

function boundary(
  { pieces }: Arrangement,
  source: readonly Segment[],
  near: BoxTree,
  distance: number,
  tolerance: number,
): readonly Fragment[] {
  const least = Math.abs(distance) - KEPT_DISTANCE;
  const kept = pieces.filter((piece) => !isWithin(pointAt(piece.segment, 0.5), least, source, near));
  return coincident(kept, tolerance).flatMap(({ forward, backward }) => {
    if (forward.length > backward.length) return forward.slice(0, 1);
    return forward.length < backward.length ? backward.slice(0, 1) : [];
  });
}

function isWithin(p: Point, least: number, source: readonly Segment[], near: BoxTree): boolean {
  return near.search(p.x - least, p.y - least, p.x + least, p.y + least, (i) => {
    const segment = source[i];
    return segment !== undefined && distanceToSegment(p, segment) < least;
  });
}

/** An edge between two parts is no boundary: nothing is at a distance from it. */
function sharesEdges(region: Region): boolean {
  const segments = region.flatMap((one) => one.segments);
  const tree = boxTree(segments.map(extentsOfSegment));
  return segments.some((a, i) => {
    const { minX, minY, maxX, maxY } = extentsOfSegment(a);
    return tree.search(minX, minY, maxX, maxY, (j) => {
      const b = segments[j];
      return j > i && b?.kind === a.kind && intersect(a, b).kind === 'overlapping';
    });
  });
}

/**
 * At a corner that turns the other way by a small angle φ the moved segments cross and run on as stubs of
 * length s = |d| φ / 2, inside by s φ / 2. Those with s φ / 2 < KEPT_DISTANCE are kept, so s < √(|d| KEPT_DISTANCE);
 * four times that allows for arcs.
 */
const longestStub = (distance: number): number =>
  4 * Math.sqrt(Math.abs(distance) * KEPT_DISTANCE) + SAME_POINT;

/** The segments of an outline moved to their right by the distance, and arcs round the corners that open. */
function rawOffset(one: Outline, distance: number): readonly Segment[] {
  return one.segments.flatMap((segment, i) => {
    const next = one.segments[(i + 1) % one.segments.length] ?? segment;
    return [...movedSideways(segment, distance), ...joinAround(segment, next, distance)];
  });
}

/** Nothing when an arc's radius is used up: every point of its image is nearer than the distance. */
function movedSideways(segment: Segment, distance: number): readonly Segment[] {
  if (segment.kind === 'line') {
    if (segment.from.x === segment.to.x && segment.from.y === segment.to.y) return [];
    const shift = times(turnedRight(tangentAt(segment, 0)), distance);
    return [line(plus(segment.from, shift), plus(segment.to, shift))];
  }
  const radius = segment.radius + (segment.ccw ? distance : -distance);
  if (radius <= SAME_POINT) return [];
  const { center, ccw } = segment;
  const out = (p: Point): Point => plus(center, times(unit(minus(p, center)), radius));
  return [{ kind: 'arc', from: out(segment.from), to: out(segment.to), center, radius, ccw }];
}

function joinAround(before: Segment, after: Segment, distance: number): readonly Segment[] {
  const incoming = tangentAt(before, 1);
  const outgoing = tangentAt(after, 0);
  const angle = cornerTurn(before, after, turn(incoming, outgoing));
  const radius = Math.abs(distance);
  if (angle * distance <= 0 || Math.abs(angle) * radius <= SAME_POINT) return [];
  const center = after.from;
  const join: Arc = {
    kind: 'arc',
    from: plus(center, times(turnedRight(incoming), distance)),
    to: plus(center, times(turnedRight(outgoing), distance)),
    center,
    radius,
    ccw: angle > 0,
  };
  return [join];
}

/** At a cusp the tangents do not tell left from right; points a little way off on both sides do. */
function cornerTurn(before: Segment, after: Segment, angle: number): number {
  if (Math.abs(angle) < Math.PI - CUSP) return angle;
  const reach = Math.min(lengthOf(before), lengthOf(after)) / 4;
  const back = minus(pointAt(before, 1 - reach / lengthOf(before)), before.to);
  const ahead = minus(pointAt(after, reach / lengthOf(after)), after.from);
  // The inside lies counter-clockwise of `ahead`: a thin part, where `back` soon follows, is a left turn.
  return turn(ahead, back) > 0 ? Math.abs(angle) : -Math.abs(angle);
}
