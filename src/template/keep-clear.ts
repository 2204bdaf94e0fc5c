import { joinedIntervals } from '../drawing/drawing.js';
import type { Interval, KeepClear } from '../drawing/model.js';
import { extents, rectangle } from '../geometry/outline.js';
import { difference, intersection } from '../geometry/regions/boolean.js';
import type { Plate, PlateSide } from './plate.js';

/** A seam keeps this far from the wall of a finger, mm: what scissors stray, and the kerf of a plate's file. */
const SEAM_CLEAR = 1.5;

/**
 * Where a seam between the printed pages of a plate would cut a finger: along x the fingers themselves and the
 * inner walls of the arms at both ends, along y the length of the fingers.
 */
export function keepClearOf(plate: Plate): KeepClear {
  const sides = plate.sides.map((side) => sideStretches(side, plate));
  return {
    x: joinedIntervals(sides.flatMap(({ x }) => x)),
    y: joinedIntervals(sides.flatMap(({ y }) => y)),
  };
}

function sideStretches(
  { cut, outline, box, spineFrom, turned }: PlateSide,
  { holes }: Plate,
): { readonly x: readonly Interval[]; readonly y: readonly Interval[] } {
  // Holes stand in the plate's own coordinates; on a turned edge they are the screws of the spine alone.
  const solid = turned ? [outline] : difference([outline], holes);
  // Above the rounds of their roots: in a slot as wide as its bushing these would meet in its middle.
  const roots = spineFrom - cut.bushing.outside / 2;
  const comb = rectangle(box.minX - 1, box.minY - 1, box.maxX + 1, roots);
  const arms = { low: extents(outline).minX, high: extents(outline).maxX };
  const parts = intersection(solid, [comb]).map((one) => extents(one));
  const back = (one: Interval, size: number | undefined): Interval =>
    size === undefined ? one : { from: size - one.to, to: size - one.from };
  const x = parts.flatMap(({ minX, maxX }): readonly Interval[] => {
    const [low, high] = [minX <= arms.low + SEAM_CLEAR, maxX >= arms.high - SEAM_CLEAR];
    if (low && high) return [];
    return [{ from: (low ? maxX : minX) - SEAM_CLEAR, to: (high ? minX : maxX) + SEAM_CLEAR }];
  });
  const y = { from: box.minY - SEAM_CLEAR, to: spineFrom + SEAM_CLEAR };
  return { x: x.map((one) => back(one, turned?.x)), y: [back(y, turned?.y)] };
}
