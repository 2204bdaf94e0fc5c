import { cross, distance, point } from './point.js';
import {
  bulgeOf,
  extentsOfSegment,
  lengthOf,
  line,
  reversedSegment,
  segmentFromBulge,
  sweepOf,
} from './segment.js';
import { SAME_POINT } from './tolerance.js';
import type { Extents, Outline, Path, Point, Region, Segment } from './types.js';

/** Outlines and regions: how they are made and what they measure. Counter-clockwise outside, clockwise for holes. */

/** A vertex in the DXF manner: the bulge of the segment that starts here, 0 or left out for a line. */
export interface BulgeVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

export const outline = (segments: readonly Segment[]): Outline => ({ closed: true, segments });

/**
 * Outline of segments whose ends may miss each other by rounding: each is made to end exactly where the next
 * one starts. A gap of one digit is enough to let a ray through and turn the inside out.
 */
export const closedOutline = (segments: readonly Segment[]): Outline =>
  outline(
    segments.map((segment, i) => {
      const next = segments[(i + 1) % segments.length];
      return next === undefined || next.from === segment.to ? segment : { ...segment, to: next.from };
    }),
  );

/** Straight-sided outline through the points, in their order; the last is joined to the first. */
export const polygon = (points: readonly Point[]): Outline =>
  outline(points.map((from, i) => line(from, points[(i + 1) % points.length] ?? from)));

/** Closed outline from vertices with bulges, in their order. */
export const outlineFromBulges = (vertices: readonly BulgeVertex[]): Outline => {
  const points = vertices.map(({ x, y }) => point(x, y));
  return outline(
    points.map((from, i) =>
      segmentFromBulge(from, points[(i + 1) % points.length] ?? from, vertices[i]?.bulge ?? 0),
    ),
  );
};

/** The vertices of an outline with the bulge of the segment that starts at each. */
export const bulgesOf = (one: Outline): readonly Required<BulgeVertex>[] =>
  one.segments.map((segment) => ({ x: segment.from.x, y: segment.from.y, bulge: bulgeOf(segment) }));

/** Upright rectangle, counter-clockwise from its lower left corner. */
export const rectangle = (minX: number, minY: number, maxX: number, maxY: number): Outline =>
  polygon([point(minX, minY), point(maxX, minY), point(maxX, maxY), point(minX, maxY)]);

/** Upright rectangle with quarter circles at its corners; the radius is cut to half the shorter side. */
export function roundedRectangle(
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
  radius: number,
): Outline {
  const r = Math.min(radius, (maxX - minX) / 2, (maxY - minY) / 2);
  if (r <= 0) return rectangle(minX, minY, maxX, maxY);
  const quarter = Math.tan(Math.PI / 8);
  const vertices: readonly BulgeVertex[] = [
    { x: minX + r, y: minY },
    { x: maxX - r, y: minY, bulge: quarter },
    { x: maxX, y: minY + r },
    { x: maxX, y: maxY - r, bulge: quarter },
    { x: maxX - r, y: maxY },
    { x: minX + r, y: maxY, bulge: quarter },
    { x: minX, y: maxY - r },
    { x: minX, y: minY + r, bulge: quarter },
  ];
  const whole = outlineFromBulges(vertices);
  return closedOutline(whole.segments.filter((one) => distance(one.from, one.to) > SAME_POINT));
}

/** A circle as two half arcs, counter-clockwise from its rightmost point. */
export const circle = (center: Point, radius: number): Outline => {
  const right = point(center.x + radius, center.y);
  const left = point(center.x - radius, center.y);
  return outline([
    { kind: 'arc', from: right, to: left, center, radius, ccw: true },
    { kind: 'arc', from: left, to: right, center, radius, ccw: true },
  ]);
};

/**
 * Enclosed area, mm², negative for a clockwise outline, exact for arcs: the polygon of chords by the
 * trapezium formula about the first vertex, plus r² (φ − sin φ) / 2 for each arc of sweep φ.
 */
export function area(one: Outline): number {
  const origin = one.segments[0]?.from ?? point(0, 0);
  let twice = 0;
  for (const segment of one.segments) {
    twice +=
      (segment.from.x - origin.x) * (segment.to.y - origin.y) -
      (segment.from.y - origin.y) * (segment.to.x - origin.x);
    if (segment.kind === 'arc') {
      const sweep = sweepOf(segment);
      twice += segment.radius * segment.radius * (sweep - Math.sin(sweep));
    }
  }
  return twice / 2;
}

/** Area of a region, mm²: holes subtract. */
export const areaOfRegion = (region: Region): number => region.reduce((sum, one) => sum + area(one), 0);

/** Length all around (or along a path), mm. */
export const perimeter = (one: Outline | Path): number =>
  one.segments.reduce((sum, segment) => sum + lengthOf(segment), 0);

export const perimeterOfRegion = (region: Region): number =>
  region.reduce((sum, one) => sum + perimeter(one), 0);

const nothing: Extents = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };

/** Smallest upright rectangle around the segments of all; infinite and inside out when there are none. */
export function extents(...all: readonly (Outline | Path)[]): Extents {
  let [minX, minY, maxX, maxY] = [nothing.minX, nothing.minY, nothing.maxX, nothing.maxY];
  for (const { segments } of all) {
    for (const segment of segments) {
      const one = extentsOfSegment(segment);
      if (one.minX < minX) minX = one.minX;
      if (one.minY < minY) minY = one.minY;
      if (one.maxX > maxX) maxX = one.maxX;
      if (one.maxY > maxY) maxY = one.maxY;
    }
  }
  return { minX, minY, maxX, maxY };
}

export const isCounterClockwise = (one: Outline): boolean => area(one) > 0;

/** The same points run through the other way. */
export function reversed<T extends Outline | Path>(one: T): T {
  return { ...one, segments: one.segments.map(reversedSegment).reverse() };
}

/** true when p lies inside the region; within rounding of the boundary either answer may come. */
export function containsPoint(region: Region, p: Point): boolean {
  let winding = 0;
  for (const one of region) for (const segment of one.segments) winding += windingOf(segment, p);
  return winding !== 0;
}

/**
 * What a segment adds to the winding number of its outline about p: the chord's crossing of the ray toward
 * +x, and one turn for an arc that has p between itself and its chord. A point on the chord is put to the
 * same side by both parts, so the sum is right there too.
 */
export function windingOf(segment: Segment, p: Point): number {
  const { from, to } = segment;
  const side = cross({ x: to.x - from.x, y: to.y - from.y }, { x: p.x - from.x, y: p.y - from.y });
  const upward = from.y <= p.y && to.y > p.y;
  const downward = to.y <= p.y && from.y > p.y;
  let winding = 0;
  if (upward && side > 0) winding = 1;
  else if (downward && side < 0) winding = -1;
  if (segment.kind === 'arc') {
    const onRight = side < 0 || (side === 0 && (to.y > from.y || (to.y === from.y && from.x > to.x)));
    if (onRight === segment.ccw && distance(p, segment.center) < segment.radius)
      winding += segment.ccw ? 1 : -1;
  }
  return winding;
}
