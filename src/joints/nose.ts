/** How far template fingers run on past the operator's face of the board, toward the operator. */

/** A nose of this length guides the bushing in comfortably, mm. */
const WANTED_NOSE = 10;

/** With less than this the bushing finds its way in badly, mm. */
export const LEAST_NOSE = 4;

/** A finger this many times the least width is not spoken of. */
export const EASY_FINGER = 1.25;

/**
 * The longest nose up to the wanted one that leaves the finger tips an easy width, mm; never under the least.
 * `tipWidth` gives the narrowest finger's tip for a nose; it shrinks, or stays, as the nose grows.
 */
export function chooseNose(tipWidth: (nose: number) => number, leastFinger: number): number {
  const candidates = [WANTED_NOSE, 9, 8, 7, 6, 5, LEAST_NOSE];
  return candidates.find((nose) => tipWidth(nose) >= EASY_FINGER * leastFinger) ?? LEAST_NOSE;
}
