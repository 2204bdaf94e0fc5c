import { lengthOf, split } from '../../geometry/segment.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Outline, Point, Segment } from '../../geometry/types.js';

/** A closed path by the length along it, mm from its start, going round as often as asked. */
export interface Contour {
  readonly outline: Outline;
  readonly length: number;
}

export const contour = (outline: Outline): Contour => ({
  outline,
  length: outline.segments.reduce((sum, one) => sum + lengthOf(one), 0),
});

/** The pieces from one length to a larger one; lengths beyond the end go round again. */
export function stretch({ outline, length }: Contour, from: number, to: number): readonly Segment[] {
  const pieces: Segment[] = [];
  const turns = Math.floor(from / length);
  for (let start = turns * length; start < to; ) {
    for (const segment of outline.segments) {
      const end = start + lengthOf(segment);
      const piece = part(segment, (from - start) / (end - start), (to - start) / (end - start));
      if (piece && lengthOf(piece) > SAME_POINT) pieces.push(piece);
      start = end;
      if (start >= to) break;
    }
  }
  return pieces;
}

/** The point at a length. */
export function pointAlong(one: Contour, at: number): Point {
  const [first] = stretch(one, at, at + Math.min(1, one.length / 2));
  return first?.from ?? one.outline.segments[0]?.from ?? { x: 0, y: 0 };
}

function part(segment: Segment, from: number, to: number): Segment | undefined {
  if (to <= 0 || from >= 1) return undefined;
  const [, rest] = from > 0 ? split(segment, from) : [segment, segment];
  if (to >= 1) return rest;
  const [head] = split(rest, from > 0 ? (to - from) / (1 - from) : to);
  return head;
}
