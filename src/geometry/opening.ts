import { offsetRegion } from './offset.js';
import { difference } from './regions/boolean.js';
import { tidyRegion } from './regions/tidy.js';
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
  return tidyRegion(offsetRegion(bitCentres(region, radius), step), SLIVER);
}

/**
 * Where the middle of a bit of radius r may be: the region eroded by r, EXACT_FIT short of it. A cut is asked both
 * for the opening that guides its bushing and for what its bit cannot reach, so the last answer for a region is kept.
 */
export function bitCentres(region: Region, radius: number): Region {
  const known = lastCentres.get(region);
  if (known?.radius === radius) return known.centres;
  const centres = offsetRegion(region, EXACT_FIT - radius);
  lastCentres.set(region, { radius, centres });
  return centres;
}

const lastCentres = new WeakMap<Region, { readonly radius: number; readonly centres: Region }>();

/**
 * What the bit cannot reach: the region without openedRegion(region, r). Corners leave a small three-sided
 * piece each, parts narrower than the bit stay whole. Pieces thinner than SLIVER are no loss and left out.
 */
export const unreachable = (region: Region, radius: number): Region =>
  tidyRegion(difference(tidyRegion(region), openedRegion(region, radius)), SLIVER);
