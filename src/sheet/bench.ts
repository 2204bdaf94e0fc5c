import { extents } from '../geometry/outline.js';
import type { Cut } from '../joints/family.js';
import type { PlateSide } from '../template/plate.js';

/** What stands around the work under one plate, in template coordinates, mm. */
export interface Bench {
  /** Behind the work, where the bit comes out; absent where the work has no back to break out of. */
  readonly backing?: Band;
  /** What carries the plate, behind the backing. */
  readonly fence: Band;
}

/** A strip along the whole plate, from the operator away. */
export interface Band {
  readonly from: number;
  readonly to: number;
}

/** Backing is at least this much thicker than the work, mm: common practice, no source. */
export const BACKING_MORE = 25.4 / 4;

/** Wood that stays behind the deepest reach of the bit in the backing, mm. */
const BACKING_LEFT = 3;

/** A board is on end when its outline under the plate has its back face on the fence line and lies before it. */
export function isOnEnd(cut: Cut, index: number): boolean {
  const stock = cut.stock[index];
  return stock !== undefined && extents(stock.outline).maxY < 1e-6 && !isFlat(cut);
}

/** An edge joint's boards lie flat with the line before the fence. */
function isFlat(cut: Cut): boolean {
  return cut.stock.every(({ outline }) => extents(outline).minY >= -1e-6);
}

export function benchOf(plate: PlateSide): Bench {
  const { cut, box, spineFrom } = plate;
  const work = extents(...cut.stock.map(({ outline }) => outline));
  // A board that lies flat runs on under the plate, and what stands before it has that board for a backing.
  if (work.maxY > 1e-6) return { fence: { from: box.maxY, to: box.maxY } };
  const thickness = -work.minY;
  const reach = spineFrom - (cut.bushing.outside - cut.bit.diameter) / 2 + BACKING_LEFT;
  const to = Math.max(thickness + BACKING_MORE, reach);
  return {
    backing: { from: 0, to },
    fence: { from: to, to: Math.max(box.maxY, to + 20) },
  };
}
