import type { Extents, Point } from './types.js';

/** Vectors and points in the plane: mm, y up. */

export const point = (x: number, y: number): Point => ({ x, y });

export const plus = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });

export const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });

export const times = (a: Point, factor: number): Point => ({ x: a.x * factor, y: a.y * factor });

export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;

/** z of the cross product: positive when b lies counter-clockwise (left) of a. */
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;

export const norm = (a: Point): number => Math.sqrt(a.x * a.x + a.y * a.y);

export function distance(a: Point, b: Point): number {
  const x = b.x - a.x;
  const y = b.y - a.y;
  return Math.sqrt(x * x + y * y);
}

/** Vector of length 1 in the direction of a; a must not be zero. */
export function unit(a: Point): Point {
  const size = norm(a);
  return { x: a.x / size, y: a.y / size };
}

/** a turned a quarter turn counter-clockwise. */
export const turnedLeft = (a: Point): Point => ({ x: -a.y, y: a.x });

/** a turned a quarter turn clockwise. */
export const turnedRight = (a: Point): Point => ({ x: a.y, y: -a.x });

/** The point a share t of the way from a to b. */
export const between = (a: Point, b: Point, t: number): Point => ({
  x: a.x + (b.x - a.x) * t,
  y: a.y + (b.y - a.y) * t,
});

/** Angle from a to b in radians, −π to π, positive counter-clockwise. */
export const turn = (a: Point, b: Point): number => Math.atan2(cross(a, b), dot(a, b));

/** Smallest upright rectangle around both. */
export const joinedExtents = (a: Extents, b: Extents): Extents => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});
