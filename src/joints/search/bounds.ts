import type { Bound, TailBounds } from '../../layout/types.js';

/** Bounds that every joint of tails and pins has, however it is cut. */

/** Wood thinner than this at the narrow end of a pin or tail is likely to break, mm. Common practice, no source. */
const MIN_WOOD = 3;

/** What the wood allows where walls lean by `lean`, mm, between their narrow end and the baseline. */
export function woodBounds(lean: number): TailBounds {
  const because = 'its narrow end would be too thin to stand';
  return {
    leastPin: { width: 2 * lean + MIN_WOOD, because },
    leastEndPin: { width: lean + MIN_WOOD, because },
    leastTail: { width: MIN_WOOD, because: 'a tail that thin breaks' },
  };
}

/** The bound that asks for most. */
export function widest(first: Bound, ...others: readonly Bound[]): Bound {
  const all = [first, ...others];
  const most = all.reduce((greatest, one) => (one.width > greatest.width ? one : greatest));
  const roomy = Math.max(...all.map((one) => one.roomy ?? one.width));
  return roomy > most.width ? { ...most, roomy } : most;
}
