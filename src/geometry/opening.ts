import { difference } from './boolean.js';
import { offsetRegion } from './offset.js';
import { tidyRegion } from './tidy.js';
import { EXACT_FIT, SLIVER } from './tolerance.js';
import type { Region } from './types.js';

/**
 * What a round bit of radius r (mm) can clear of a region without leaving it: the region opened by a disc
 * (Serra 1982), that is eroded and then dilated by r. A slot exactly as wide as the bit is cleared; to hold
 * its center line both steps stop EXACT_FIT short, so rounded corners have a radius of r − EXACT_FIT.
 */
export function openedRegion(region: Region, radius: number): Region {
  const step = radius - EXACT_FIT;
  if (step <= 0) return tidyRegion(region);
  return tidyRegion(offsetRegion(offsetRegion(region, -step), step), SLIVER);
}

/**
 * What the bit cannot reach: the region without openedRegion(region, r). Corners leave a small three-sided
 * piece each, parts narrower than the bit stay whole. Pieces thinner than SLIVER are no loss and left out.
 */
export const unreachable = (region: Region, radius: number): Region =>
  tidyRegion(difference(tidyRegion(region), openedRegion(region, radius)), SLIVER);
