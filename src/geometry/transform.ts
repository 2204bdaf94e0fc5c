import { reversed } from './outline.js';
import type { Outline, Path, Point, Region, Segment } from './types.js';

/** Moving outlines, paths and regions. Mirroring turns outlines round, so outside stays counter-clockwise. */

type Shape = Outline | Path | Region;

/** Moved by (dx, dy). */
export const translate = <T extends Shape>(shape: T, dx: number, dy: number): T =>
  mapped(shape, (p) => ({ x: p.x + dx, y: p.y + dy }), 1, false);

/** Turned by an angle, radians, counter-clockwise about a center. */
export function rotate<T extends Shape>(shape: T, angle: number, about: Point = { x: 0, y: 0 }): T {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const turned = (p: Point): Point => ({
    x: about.x + (p.x - about.x) * cos - (p.y - about.y) * sin,
    y: about.y + (p.x - about.x) * sin + (p.y - about.y) * cos,
  });
  return mapped(shape, turned, 1, false);
}

/** Mirrored left to right: x becomes c − x, so the mirror stands at c / 2. Paths keep their direction. */
export const mirrorX = <T extends Shape>(shape: T, c = 0): T =>
  mapped(shape, (p) => ({ x: c - p.x, y: p.y }), 1, true);

/** Mirrored top to bottom: y becomes c − y. Paths keep their direction. */
export const mirrorY = <T extends Shape>(shape: T, c = 0): T =>
  mapped(shape, (p) => ({ x: p.x, y: c - p.y }), 1, true);

/** Scaled about the origin; the factor is above 0. */
export const scale = <T extends Shape>(shape: T, factor: number): T =>
  mapped(shape, (p) => ({ x: p.x * factor, y: p.y * factor }), factor, false);

/** Scaled and turned about the origin, then moved to `at`: the three at once, for lettering by the thousand strokes. */
export function placed<T extends Shape>(shape: T, factor: number, angle: number, at: Point): T {
  const cos = factor * Math.cos(angle);
  const sin = factor * Math.sin(angle);
  const move = (p: Point): Point => ({ x: at.x + p.x * cos - p.y * sin, y: at.y + p.x * sin + p.y * cos });
  return mapped(shape, move, factor, false);
}

type PointMap = (p: Point) => Point;

function mapped<T extends Shape>(shape: T, move: PointMap, factor: number, mirrored: boolean): T {
  const one = <C extends Outline | Path>(chain: C): C => {
    const moved = { ...chain, segments: movedChain(chain.segments, move, factor, mirrored) };
    return mirrored && chain.closed ? reversed(moved) : moved;
  };
  // A region is an array of outlines; T says which of the two the caller gave.
  return (Array.isArray(shape) ? shape.map(one) : one(shape as Outline | Path)) as T;
}

function movedChain(
  segments: readonly Segment[],
  move: PointMap,
  factor: number,
  mirrored: boolean,
): Segment[] {
  return segments.map((segment) => {
    const from = move(segment.from);
    const to = move(segment.to);
    if (segment.kind === 'line') return { kind: 'line', from, to };
    return {
      kind: 'arc',
      from,
      to,
      center: move(segment.center),
      radius: segment.radius * factor,
      ccw: mirrored ? !segment.ccw : segment.ccw,
    };
  });
}
