import { pointAt, sweepOf } from './segment.js';
import type { Outline, Path, Point, Region, Segment } from './types.js';

/**
 * Points along an outline or path whose chords stay within `tolerance` (mm, above 0) of its arcs. All points
 * lie on the curve. The first point of an outline is not repeated at the end; a path ends with its last point.
 */
export function flatten(one: Outline | Path, tolerance: number): readonly Point[] {
  const points = one.segments.flatMap((segment) => startsOfChords(segment, tolerance));
  const last = one.segments.at(-1);
  return one.closed || last === undefined ? points : [...points, last.to];
}

export const flattenRegion = (region: Region, tolerance: number): readonly (readonly Point[])[] =>
  region.map((one) => flatten(one, tolerance));

function startsOfChords(segment: Segment, tolerance: number): Point[] {
  if (segment.kind === 'line') return [segment.from];
  const count = chordCount(segment.radius, Math.abs(sweepOf(segment)), tolerance);
  return Array.from({ length: count }, (_, i) => pointAt(segment, i / count));
}

/** A chord over an angle α bows away from its arc by r (1 − cos α/2) = 2 r sin² α/4. */
function chordCount(radius: number, sweep: number, tolerance: number): number {
  const widest = 4 * Math.asin(Math.sqrt(Math.min(0.5, tolerance / (2 * radius))));
  return Math.max(1, Math.ceil(sweep / widest));
}
