import { intersect } from './intersect.js';
import { closedOutline } from './outline.js';
import { cross, distance, dot, minus, plus, times, turn, turnedLeft, unit } from './point.js';
import { lengthOf, line, parameterOf, pointAt, tangentAt } from './segment.js';
import { SAME_POINT, SMOOTH } from './tolerance.js';
import type { Arc, Outline, Point, Segment } from './types.js';

/** The radius wanted at a corner, mm; 0 leaves it sharp. */
export type RadiusAt = (corner: Point, turnsLeft: boolean) => number;

/**
 * The outline with its corners replaced by arcs tangent to both sides. `radiusAt` is asked for every corner;
 * `turnsLeft` says that the outline turns counter-clockwise there (an outside corner of a region).
 *
 * A corner may use up half of a segment whose other end is to be rounded too, else all of it. Between two
 * lines a radius that does not fit is reduced to one that does. Beside an arc a radius that does not fit
 * leaves the corner as it is, as does a cusp. Smooth joints are no corners.
 */
export function roundCorners(one: Outline, radiusAt: RadiusAt): Outline {
  const corners = one.segments.map((after, i) => {
    const before = one.segments.at(i - 1) ?? after;
    const angle = turn(tangentAt(before, 1), tangentAt(after, 0));
    const smooth = Math.abs(angle) < SMOOTH || Math.abs(angle) > Math.PI - SMOOTH;
    return { before, after, angle, radius: smooth ? 0 : Math.max(0, radiusAt(after.from, angle > 0)) };
  });
  const fillets = corners.map((corner, i) => {
    if (corner.radius <= SAME_POINT) return undefined;
    const shareBefore = (corners.at(i - 1)?.radius ?? 0) > SAME_POINT ? 0.5 : 1;
    const shareAfter = (corners[(i + 1) % corners.length]?.radius ?? 0) > SAME_POINT ? 0.5 : 1;
    return filletAt(corner, shareBefore, shareAfter);
  });
  return closedOutline(
    one.segments.flatMap((segment, i) => {
      const start = fillets[i];
      const end = fillets[(i + 1) % fillets.length];
      const from = start?.to ?? segment.from;
      const to = end?.from ?? segment.to;
      const rest: readonly Segment[] = distance(from, to) <= SAME_POINT ? [] : [{ ...segment, from, to }];
      return start === undefined ? rest : [start, ...rest];
    }),
  );
}

interface FilletCorner {
  readonly before: Segment;
  readonly after: Segment;
  readonly angle: number;
  readonly radius: number;
}

function filletAt(corner: FilletCorner, shareBefore: number, shareAfter: number): Arc | undefined {
  return corner.before.kind === 'line' && corner.after.kind === 'line'
    ? betweenLines(corner, shareBefore, shareAfter)
    : besideArc(corner, shareBefore, shareAfter);
}

/** The tangent points lie r tan(φ / 2) from the corner, φ the turn. */
function betweenLines(
  { before, after, angle, radius }: FilletCorner,
  shareBefore: number,
  shareAfter: number,
): Arc {
  const perRadius = Math.tan(Math.abs(angle) / 2);
  const room = Math.min(lengthOf(before) * shareBefore, lengthOf(after) * shareAfter);
  const fitting = Math.min(radius, room / perRadius);
  const incoming = tangentAt(before, 1);
  const from = minus(after.from, times(incoming, fitting * perRadius));
  const to = plus(after.from, times(tangentAt(after, 0), fitting * perRadius));
  const center = plus(from, times(turnedLeft(incoming), Math.sign(angle) * fitting));
  return { kind: 'arc', from, to, center, radius: fitting, ccw: angle > 0 };
}

/** The center is where both carriers, moved toward the turn by r, meet nearest the corner. */
function besideArc(
  { before, after, angle, radius }: FilletCorner,
  shareBefore: number,
  shareAfter: number,
): Arc | undefined {
  const side = Math.sign(angle) * radius;
  const a = movedCarrier(before, side, radius);
  const b = movedCarrier(after, side, radius);
  if (a.length === 0 || b.length === 0) return undefined;
  const centers = a.flatMap((one) =>
    b.flatMap((other) => {
      const met = intersect(one, other);
      if (met.kind === 'points') return met.at;
      return met.kind === 'tangent' ? [met.at] : [];
    }),
  );
  const center = nearestPoint(centers, after.from);
  if (center === undefined) return undefined;
  const from = foot(center, before);
  const to = foot(center, after);
  const onBefore = parameterOf(before, from);
  const onAfter = parameterOf(after, to);
  const touches =
    Math.abs(distance(center, from) - radius) <= SAME_POINT &&
    Math.abs(distance(center, to) - radius) <= SAME_POINT;
  // A foot beyond the end of its segment is put to that end by parameterOf.
  const onBoth =
    distance(pointAt(before, onBefore), from) <= SAME_POINT &&
    distance(pointAt(after, onAfter), to) <= SAME_POINT;
  const fits = onBoth && onBefore < 1 && onBefore >= 1 - shareBefore && onAfter > 0 && onAfter <= shareAfter;
  const facing = (p: Point, t: Point): boolean => cross(t, minus(center, p)) * side > 0;
  const sideways = facing(from, tangentAt(before, onBefore)) && facing(to, tangentAt(after, onAfter));
  return touches && fits && sideways ? { kind: 'arc', from, to, center, radius, ccw: angle > 0 } : undefined;
}

/** The whole line (as far as it may matter) or the whole circle that a segment lies on, moved to its left. */
function movedCarrier(segment: Segment, side: number, radius: number): readonly Segment[] {
  if (segment.kind === 'line') {
    const along = tangentAt(segment, 0);
    const shift = times(turnedLeft(along), side);
    const reach = times(along, 4 * radius + lengthOf(segment));
    return [line(plus(minus(segment.from, reach), shift), plus(plus(segment.to, reach), shift))];
  }
  const moved = segment.radius - (segment.ccw ? side : -side);
  if (moved <= SAME_POINT) return [];
  const { center } = segment;
  const right = { x: center.x + moved, y: center.y };
  const left = { x: center.x - moved, y: center.y };
  return [
    { kind: 'arc', from: right, to: left, center, radius: moved, ccw: true },
    { kind: 'arc', from: left, to: right, center, radius: moved, ccw: true },
  ];
}

/** The point of the segment's carrier nearest to p. */
function foot(p: Point, segment: Segment): Point {
  if (segment.kind === 'line') {
    const along = tangentAt(segment, 0);
    return plus(segment.from, times(along, dot(minus(p, segment.from), along)));
  }
  return plus(segment.center, times(unit(minus(p, segment.center)), segment.radius));
}

function nearestPoint(points: readonly Point[], to: Point): Point | undefined {
  return points.reduce<Point | undefined>(
    (best, one) => (best === undefined || distance(one, to) < distance(best, to) ? one : best),
    undefined,
  );
}
