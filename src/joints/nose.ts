import type { Bit, Bushing } from '../input/types.js';

/** How far template fingers run on past the operator's face of the board, toward the operator. */

/** A nose of this length guides the bushing in comfortably, mm. */
const WANTED_NOSE = 10;

/** With less than this the bushing finds its way in badly, mm. */
const MIN_NOSE = 4;

/** Plate left beside wood where the bit reaches past its bushing, mm: more than a bushing's play. Common practice, no source. */
const BESIDE_WOOD = 1;

/** How far the bit reaches past the bushing's outside, to each side; below 0 where it stays within, mm. */
export function overhang(bit: Bit, bushing: Bushing): number {
  return (bit.diameter - bushing.outside) / 2;
}

/** The shortest nose unless asked otherwise, mm: a bushing that runs along it from outside keeps the bit off the board. */
export function leastNose(bit: Bit, bushing: Bushing): number {
  return Math.max(MIN_NOSE, overhang(bit, bushing) + BESIDE_WOOD);
}

/** The nose where its length does not matter to the fingers, mm. */
export function defaultNose(bit: Bit, bushing: Bushing): number {
  return Math.max(WANTED_NOSE, leastNose(bit, bushing));
}

/** A finger this many times the least width is not spoken of. */
export const EASY_FINGER = 1.25;

/**
 * The longest nose up to the wanted one that leaves the finger tips an easy width, mm; never under the least for
 * its bit and bushing. `tipWidth` gives the narrowest finger's tip for a nose; it shrinks, or stays, as the nose grows.
 */
export function chooseNose(
  tipWidth: (nose: number) => number,
  leastFinger: number,
  bit: Bit,
  bushing: Bushing,
): number {
  const least = leastNose(bit, bushing);
  const candidates = [WANTED_NOSE, 9, 8, 7, 6, 5].filter((nose) => nose > least);
  return candidates.find((nose) => tipWidth(nose) >= EASY_FINGER * leastFinger) ?? least;
}
