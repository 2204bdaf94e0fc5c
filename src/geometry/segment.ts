import { between, distance, dot, minus, plus, times, turnedLeft, turnedRight, unit } from './point.js';
import type { Arc, Extents, Line, Point, Segment } from './types.js';

/**
 * One line or arc. Parameters t run from 0 at `from` to 1 at `to`, evenly along the length.
 */

export const line = (from: Point, to: Point): Line => ({ kind: 'line', from, to });

/** Arc around a center; its radius is taken from `from`. */
export const arc = (from: Point, to: Point, center: Point, ccw: boolean): Arc => ({
  kind: 'arc',
  from,
  to,
  center,
  radius: distance(from, center),
  ccw,
});

/**
 * Segment from a DXF bulge: tan(included angle / 4), positive counter-clockwise, 1 a half circle, 0 a line.
 * Center = middle of the chord + left normal × chord (1 − b²) / 4b.
 */
export function segmentFromBulge(from: Point, to: Point, bulge: number): Segment {
  if (bulge === 0) return line(from, to);
  const chord = minus(to, from);
  const center = plus(between(from, to, 0.5), times(turnedLeft(chord), (1 - bulge * bulge) / (4 * bulge)));
  const radius = (distance(from, to) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return { kind: 'arc', from, to, center, radius, ccw: bulge > 0 };
}

/** DXF bulge of a segment: tan(included angle / 4), negative clockwise; 0 for a line. */
export const bulgeOf = (segment: Segment): number =>
  segment.kind === 'line' ? 0 : Math.tan(sweepOf(segment) / 4);

/** Angle that an arc turns through, radians: 0 to 2π counter-clockwise, 0 to −2π clockwise. */
export function sweepOf(one: Arc): number {
  const { from, to, center } = one;
  const [ax, ay] = [from.x - center.x, from.y - center.y];
  const [bx, by] = [to.x - center.x, to.y - center.y];
  const angle = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  if (one.ccw) return angle < 0 ? angle + 2 * Math.PI : angle;
  return angle > 0 ? angle - 2 * Math.PI : angle;
}

export const lengthOf = (segment: Segment): number =>
  segment.kind === 'line' ? distance(segment.from, segment.to) : segment.radius * Math.abs(sweepOf(segment));

export function pointAt(segment: Segment, t: number): Point {
  if (segment.kind === 'line') return between(segment.from, segment.to, t);
  if (t === 0) return segment.from;
  if (t === 1) return segment.to;
  const angle = sweepOf(segment) * t;
  const a = minus(segment.from, segment.center);
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return {
    x: segment.center.x + a.x * cos - a.y * sin,
    y: segment.center.y + a.x * sin + a.y * cos,
  };
}

/** Direction of travel, length 1, at t. */
export function tangentAt(segment: Segment, t: number): Point {
  if (segment.kind === 'line') return unit(minus(segment.to, segment.from));
  const radial = unit(minus(pointAt(segment, t), segment.center));
  return segment.ccw ? turnedLeft(radial) : turnedRight(radial);
}

export const reversedSegment = (segment: Segment): Segment =>
  segment.kind === 'line'
    ? line(segment.to, segment.from)
    : { ...segment, from: segment.to, to: segment.from, ccw: !segment.ccw };

/** The two parts before and after t, 0 < t < 1. */
export function split(segment: Segment, t: number): readonly [Segment, Segment] {
  const at = pointAt(segment, t);
  return [
    { ...segment, to: at },
    { ...segment, from: at },
  ];
}

/** Distance from a point to the nearest point of the segment, ends included. */
export function distanceToSegment(p: Point, segment: Segment): number {
  return segment.kind === 'line' ? distanceToLine(p, segment) : distanceToArc(p, segment);
}

/** The nearest point's parameter. */
export function parameterOf(segment: Segment, p: Point): number {
  if (segment.kind === 'line') {
    const along = minus(segment.to, segment.from);
    const square = dot(along, along);
    if (square === 0) return 0;
    return Math.min(1, Math.max(0, dot(minus(p, segment.from), along) / square));
  }
  if (!facesArc(segment, p)) return distance(p, segment.from) <= distance(p, segment.to) ? 0 : 1;
  const part = sweepOf({ ...segment, to: p });
  return Math.min(1, Math.max(0, part / sweepOf(segment)));
}

/** true when the ray from the arc's center through p meets the arc. */
export function facesArc(one: Arc, p: Point): boolean {
  const first = one.ccw ? one.from : one.to;
  const last = one.ccw ? one.to : one.from;
  const ax = first.x - one.center.x;
  const ay = first.y - one.center.y;
  const bx = last.x - one.center.x;
  const by = last.y - one.center.y;
  const px = p.x - one.center.x;
  const py = p.y - one.center.y;
  const afterFirst = ax * py - ay * px;
  const beforeLast = px * by - py * bx;
  const atMostHalf = ax * by - ay * bx >= 0;
  return atMostHalf ? afterFirst >= 0 && beforeLast >= 0 : afterFirst >= 0 || beforeLast >= 0;
}

export function extentsOfSegment(segment: Segment): Extents {
  const { from, to } = segment;
  let minX = Math.min(from.x, to.x);
  let minY = Math.min(from.y, to.y);
  let maxX = Math.max(from.x, to.x);
  let maxY = Math.max(from.y, to.y);
  if (segment.kind === 'arc') {
    const { center, radius } = segment;
    if (facesArc(segment, { x: center.x + radius, y: center.y })) maxX = Math.max(maxX, center.x + radius);
    if (facesArc(segment, { x: center.x - radius, y: center.y })) minX = Math.min(minX, center.x - radius);
    if (facesArc(segment, { x: center.x, y: center.y + radius })) maxY = Math.max(maxY, center.y + radius);
    if (facesArc(segment, { x: center.x, y: center.y - radius })) minY = Math.min(minY, center.y - radius);
  }
  return { minX, minY, maxX, maxY };
}

function distanceToLine(p: Point, one: Line): number {
  const ax = one.to.x - one.from.x;
  const ay = one.to.y - one.from.y;
  const px = p.x - one.from.x;
  const py = p.y - one.from.y;
  const square = ax * ax + ay * ay;
  const along = ax * px + ay * py;
  if (along <= 0 || square === 0) return Math.sqrt(px * px + py * py);
  if (along >= square) return distance(p, one.to);
  // By the cross product, not by the foot: no cancellation when p lies near the line.
  return Math.abs(ax * py - ay * px) / Math.sqrt(square);
}

function distanceToArc(p: Point, one: Arc): number {
  if (facesArc(one, p)) return Math.abs(distance(p, one.center) - one.radius);
  return Math.min(distance(p, one.from), distance(p, one.to));
}
