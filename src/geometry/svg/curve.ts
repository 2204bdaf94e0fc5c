import { cross, dot, minus, norm, plus, times, unit } from '../point.js';
import type { Line, Point } from '../types.js';

/**
 * Curves as SVG paths draw them, before they are fitted with arcs: mm, y up, parameters t from 0 to 1.
 * A quadratic Bézier is a cubic one with its degree raised, which changes nothing but the number of points.
 */
export type Curve = Line | Cubic | Elliptic;

/** A cubic Bézier from `from` to `to`, pulled by two control points. */
export interface Cubic {
  readonly kind: 'cubic';
  readonly from: Point;
  readonly control1: Point;
  readonly control2: Point;
  readonly to: Point;
}

/**
 * Part of an ellipse: center + u cos φ + v sin φ, where φ runs from `start` through `sweep` (radians, of either
 * sign). u and v are conjugate half diameters, so any affine image of an ellipse is one of these.
 */
export interface Elliptic {
  readonly kind: 'elliptic';
  readonly center: Point;
  readonly u: Point;
  readonly v: Point;
  readonly start: number;
  readonly sweep: number;
  /** The ends as written; the formula gives them but for rounding. */
  readonly from: Point;
  readonly to: Point;
}

/** [a, b, c, d, e, f] as in SVG: x' = a x + c y + e, y' = b x + d y + f. */
export type Affine = readonly [number, number, number, number, number, number];

export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

export const transformedPoint = (p: Point, [a, b, c, d, e, f]: Affine): Point => ({
  x: a * p.x + c * p.y + e,
  y: b * p.x + d * p.y + f,
});

/** The affine image of a curve, exact for each kind. */
export function movedCurve(curve: Curve, affine: Affine): Curve {
  const from = transformedPoint(curve.from, affine);
  const to = transformedPoint(curve.to, affine);
  if (curve.kind === 'line') return { kind: 'line', from, to };
  if (curve.kind === 'cubic') {
    const control1 = transformedPoint(curve.control1, affine);
    return { kind: 'cubic', from, control1, control2: transformedPoint(curve.control2, affine), to };
  }
  const [a, b, c, d] = affine;
  const direction = (p: Point): Point => transformedPoint(p, [a, b, c, d, 0, 0]);
  const center = transformedPoint(curve.center, affine);
  return { ...curve, from, to, center, u: direction(curve.u), v: direction(curve.v) };
}

/** The point at t and its first three derivatives by t. */
export interface Jet {
  readonly at: Point;
  readonly velocity: Point;
  readonly acceleration: Point;
  readonly jerk: Point;
}

export function jetOf(curve: Curve, t: number): Jet {
  if (curve.kind === 'line') return jetOfLine(curve, t);
  return curve.kind === 'cubic' ? jetOfCubic(curve, t) : jetOfElliptic(curve, t);
}

/** Signed curvature, 1/mm: (v × a) / |v|³, positive where the curve turns left. Infinite where it stands still. */
export function curvatureOf({ velocity, acceleration }: Jet): number {
  const speed = norm(velocity);
  const bend = cross(velocity, acceleration);
  return bend === 0 ? 0 : bend / (speed * speed * speed);
}

/**
 * A number with the sign of the curvature's derivative: κ' = (v × j) |v|² − 3 (v × a)(v · a), over |v|⁵.
 * Zero where the curve bends most or least.
 */
export function bendGrowth({ velocity, acceleration, jerk }: Jet): number {
  const square = dot(velocity, velocity);
  return cross(velocity, jerk) * square - 3 * cross(velocity, acceleration) * dot(velocity, acceleration);
}

/**
 * Direction of travel at t, length 1. Where the curve stands still (a control point on its end, a cusp) it is
 * the direction from which (`side` −1) or into which (`side` 1) the curve goes.
 */
export function directionOf(curve: Curve, t: number, side: -1 | 1): Point {
  const { velocity, acceleration, jerk } = jetOf(curve, t);
  const size = norm(velocity) + norm(acceleration) + norm(jerk);
  if (norm(velocity) > STANDSTILL * size) return unit(velocity);
  if (norm(acceleration) > STANDSTILL * size) return unit(times(acceleration, side));
  return unit(jerk);
}

/** A velocity this small beside the other derivatives is rounding. */
const STANDSTILL = 1e-9;

function jetOfLine({ from, to }: Line, t: number): Jet {
  const velocity = minus(to, from);
  const none = { x: 0, y: 0 };
  return { at: plus(from, times(velocity, t)), velocity, acceleration: none, jerk: none };
}

/** By de Casteljau's construction, which keeps its digits near the ends. */
function jetOfCubic({ from, control1, control2, to }: Cubic, t: number): Jet {
  const mix = (a: Point, b: Point): Point => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
  const [a, b, c] = [mix(from, control1), mix(control1, control2), mix(control2, to)];
  const [d, e] = [mix(a, b), mix(b, c)];
  const second = (p: Point, q: Point, r: Point): Point => ({
    x: p.x - 2 * q.x + r.x,
    y: p.y - 2 * q.y + r.y,
  });
  const [first, last] = [second(from, control1, control2), second(control1, control2, to)];
  return {
    at: mix(d, e),
    velocity: times(minus(e, d), 3),
    acceleration: times(second(a, b, c), 6),
    jerk: times(minus(last, first), 6),
  };
}

function jetOfElliptic({ center, u, v, start, sweep }: Elliptic, t: number): Jet {
  const angle = start + sweep * t;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const out = plus(times(u, cos), times(v, sin));
  const along = minus(times(v, cos), times(u, sin));
  return {
    at: plus(center, out),
    velocity: times(along, sweep),
    acceleration: times(out, -sweep * sweep),
    jerk: times(along, -sweep * sweep * sweep),
  };
}
