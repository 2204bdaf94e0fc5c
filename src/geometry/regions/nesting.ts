import { area, containsPoint, extents, isCounterClockwise, reversed } from '../outline.js';
import { pointAt } from '../segment.js';
import type { Extents, Outline, Region } from '../types.js';

/** Which outlines lie in which: outlines as a drawing has them, of either direction and in any order, none crossing. */

export interface Nested {
  /** Counter-clockwise where material begins (depth even), clockwise where it ends. */
  readonly outline: Outline;
  /** How many outlines lie around it: 0 for an outer one, 1 for a hole, 2 for an island in a hole. */
  readonly depth: number;
  /** Index of the outline next around it. */
  readonly parent?: number;
}

/** Each outline with its depth, in the order given. */
export function nested(outlines: readonly Outline[]): readonly Nested[] {
  const known = outlines.map((one) => ({
    region: [isCounterClockwise(one) ? one : reversed(one)],
    size: Math.abs(area(one)),
    box: extents(one),
  }));
  return known.map(({ region, size, box }, i) => {
    const around = known
      .map((other, index) => ({ ...other, index }))
      .filter(({ index, size: larger, box: wider, region: outer }) => {
        if (index === i || larger < size || (larger === size && index > i)) return false;
        return boxHolds(wider, box) && liesIn(region[0], outer);
      });
    const parent = around.reduce<(typeof around)[number] | undefined>(
      (near, one) => (near === undefined || one.size < near.size ? one : near),
      undefined,
    )?.index;
    const [outline = outlines[i] ?? { closed: true, segments: [] }] = region;
    return {
      outline: around.length % 2 === 0 ? outline : reversed(outline),
      depth: around.length,
      ...(parent === undefined ? {} : { parent }),
    };
  });
}

/** The region that closed outlines bound, by how they are nested. */
export const regionOf = (outlines: readonly Outline[]): Region =>
  nested(outlines).map(({ outline }) => outline);

const boxHolds = (outer: Extents, inner: Extents): boolean =>
  outer.minX <= inner.minX &&
  outer.minY <= inner.minY &&
  outer.maxX >= inner.maxX &&
  outer.maxY >= inner.maxY;

/** By the middles of its pieces, most of which are off the other's boundary even where the two touch. */
function liesIn(inner: Outline | undefined, outer: Region): boolean {
  if (inner === undefined) return false;
  const within = inner.segments.filter((segment) => containsPoint(outer, pointAt(segment, 0.5)));
  return within.length * 2 > inner.segments.length;
}
