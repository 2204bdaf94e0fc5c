import { between, cross, distance, dot, minus, norm, plus, times, turnedLeft } from './point.js';
import { distanceToSegment, facesArc } from './segment.js';
import { SAME_POINT } from './tolerance.js';
import type { Arc, Line, Point, Segment } from './types.js';

/**
 * Where two segments meet. Ends count; a segment reaches `tolerance` beyond its ends, so a corner that
 * rounding opened is still found. `tangent`: they touch, and lie within the tolerance of each other at
 * that point, without a crossing that can be told from rounding. `overlapping`: they share a stretch;
 * `ends` are the two ends of it, or the four of two stretches (two arcs of more than a half turn).
 */
export type Intersection =
  | { readonly kind: 'none' }
  | { readonly kind: 'tangent'; readonly at: Point }
  | { readonly kind: 'points'; readonly at: readonly Point[] }
  | { readonly kind: 'overlapping'; readonly ends: readonly Point[] };

export function intersect(a: Segment, b: Segment, tolerance = SAME_POINT): Intersection {
  if (a.kind === 'line') {
    return b.kind === 'line' ? lineLine(a, b, tolerance) : lineArc(a, b, tolerance);
  }
  return b.kind === 'line' ? lineArc(b, a, tolerance) : arcArc(a, b, tolerance);
}

const none: Intersection = { kind: 'none' };

/**
 * a.from + t·u = b.from + s·v, so t = (w × v) / (u × v) with w = b.from − a.from. Lines of which one lies
 * within the tolerance of the other's carrier all along share a stretch or nothing; that test comes first,
 * because the quotient is worthless there.
 */
function lineLine(a: Line, b: Line, tolerance: number): Intersection {
  const u = minus(a.to, a.from);
  const v = minus(b.to, b.from);
  const lengthA = norm(u);
  const lengthB = norm(v);
  if (lengthA === 0 || lengthB === 0) return none;
  const w = minus(b.from, a.from);
  const longA = lengthA >= lengthB;
  const off1 = longA ? cross(u, w) / lengthA : cross(w, v) / lengthB;
  const off2 = longA ? cross(u, minus(b.to, a.from)) / lengthA : cross(minus(b.from, a.to), v) / lengthB;
  if (Math.abs(off1) <= tolerance && Math.abs(off2) <= tolerance) return sharedEnd(a, b, tolerance);
  const denominator = cross(u, v);
  if (denominator === 0) return none;
  const t = cross(w, v) / denominator;
  const s = cross(w, u) / denominator;
  const slackA = tolerance / lengthA;
  const slackB = tolerance / lengthB;
  if (t < -slackA || t > 1 + slackA || s < -slackB || s > 1 + slackB) return none;
  // Taken along the shorter one: the same share of a shorter line is a smaller error.
  return { kind: 'points', at: [longA ? between(b.from, b.to, s) : between(a.from, a.to, t)] };
}

/**
 * The foot of the center on the line ± √((r − h)(r + h)), h the center's distance from the line. The
 * product form keeps its digits where r² − h² loses them. |h − r| within the tolerance is tangent.
 */
function lineArc(a: Line, b: Arc, tolerance: number): Intersection {
  const u = minus(a.to, a.from);
  const length = norm(u);
  if (length === 0) return none;
  const along = times(u, 1 / length);
  const fromCenter = minus(a.from, b.center);
  const h = cross(along, fromCenter);
  const foot = plus(b.center, times(turnedLeft(along), h));
  const apart = Math.abs(h) - b.radius;
  if (apart > tolerance) return none;
  if (apart >= -tolerance && onBoth(foot, a, b, tolerance)) return { kind: 'tangent', at: foot };
  if (apart >= 0) return none;
  const half = Math.sqrt(-apart * (b.radius + Math.abs(h)));
  return points(
    [plus(foot, times(along, -half)), plus(foot, times(along, half))].filter((p) =>
      onBoth(p, a, b, tolerance),
    ),
  );
}

/**
 * On the line of centers at x = (D² + r₁² − r₂²) / 2D from the first, ± √(r₁² − x²) beside it, D the distance
 * of the centers. x is written as (D + (r₁ − r₂)(r₁ + r₂) / D) / 2 for its digits. Tangent when the circles
 * miss or cross each other by no more than the tolerance.
 */
function arcArc(a: Arc, b: Arc, tolerance: number): Intersection {
  const between12 = minus(b.center, a.center);
  const d = norm(between12);
  const difference = a.radius - b.radius;
  if (d + Math.abs(difference) <= tolerance) return sharedEnd(a, b, tolerance);
  const outer = d - (a.radius + b.radius);
  const inner = Math.abs(difference) - d;
  if (outer > tolerance || inner > tolerance) return none;
  const along = times(between12, 1 / d);
  if (outer >= -tolerance || inner >= -tolerance) {
    const outward = outer >= -tolerance || difference > 0 ? 1 : -1;
    const at = plus(a.center, times(along, outward * a.radius));
    if (onBoth(at, a, b, tolerance)) return { kind: 'tangent', at };
    if (outer >= 0 || inner >= 0) return none;
  }
  const x = (d + (difference * (a.radius + b.radius)) / d) / 2;
  const half = Math.sqrt(Math.max(0, (a.radius - x) * (a.radius + x)));
  const foot = plus(a.center, times(along, x));
  const side = times(turnedLeft(along), half);
  return points([minus(foot, side), plus(foot, side)].filter((p) => onBoth(p, a, b, tolerance)));
}

function points(at: readonly Point[]): Intersection {
  return at.length === 0 ? none : { kind: 'points', at };
}

function onBoth(p: Point, a: Segment, b: Segment, tolerance: number): boolean {
  return reaches(a, p, tolerance) && reaches(b, p, tolerance);
}

/** p is known to lie on the carrier of the segment; does it lie between the ends? */
function reaches(segment: Segment, p: Point, tolerance: number): boolean {
  if (distance(p, segment.from) <= tolerance || distance(p, segment.to) <= tolerance) return true;
  if (segment.kind === 'arc') return facesArc(segment, p);
  const u = minus(segment.to, segment.from);
  return dot(minus(p, segment.from), u) >= 0 && dot(minus(p, segment.to), u) <= 0;
}

/** What two segments on one carrier have in common: the ends of each that lie on the other. */
function sharedEnd(a: Segment, b: Segment, tolerance: number): Intersection {
  const ends: Point[] = [];
  const add = (p: Point, other: Segment): void => {
    if (distanceToSegment(p, other) > tolerance) return;
    if (ends.every((one) => distance(one, p) > tolerance)) ends.push(p);
  };
  add(a.from, b);
  add(a.to, b);
  add(b.from, a);
  add(b.to, a);
  if (ends.length < 2) return points(ends);
  return onlyTouching(a, b, ends, tolerance) ? points(ends) : { kind: 'overlapping', ends };
}

/** Two arcs that make up a circle touch at both ends and share no stretch between them. */
function onlyTouching(a: Segment, b: Segment, ends: readonly Point[], tolerance: number): boolean {
  if (a.kind !== 'arc' || b.kind !== 'arc' || ends.length !== 2) return false;
  const sameWay = a.ccw === b.ccw;
  const start = sameWay ? b.from : b.to;
  const end = sameWay ? b.to : b.from;
  return distance(a.to, start) <= tolerance && distance(a.from, end) <= tolerance;
}
