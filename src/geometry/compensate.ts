import { offsetRegion } from './offset.js';
import { bitCentres } from './opening.js';
import { tidyRegion } from './regions/tidy.js';
import { EXACT_FIT, SLIVER } from './tolerance.js';
import type { Region } from './types.js';

/**
 * The opening T that guides a cutter through the waste R: the bit's center may be anywhere in R eroded by the
 * cutter radius r, and the guide round it, concentric, needs that place plus its own radius B / 2.
 *
 *     T = (R ⊖ disc(r)) ⊕ disc(B / 2)
 *
 * So T is R, its corners rounded to what the bit can reach, moved by δ = B/2 − r, which may be negative. All in
 * mm. A slot exactly as wide as the bit is legal: both steps stop EXACT_FIT short, which leaves straight sides
 * exact and makes rounded corners EXACT_FIT tighter. Nothing comes back where the bit does not fit at all.
 */
export function bushingOpening(waste: Region, cutterRadius: number, bushingRadius: number): Region {
  return tidyRegion(offsetRegion(bitCentres(waste, cutterRadius), bushingRadius - EXACT_FIT), SLIVER);
}

/**
 * What a guide of radius B / 2 kept inside an opening lets a cutter of radius r clear, at one level:
 *
 *     cut = (T ⊖ disc(B / 2)) ⊕ disc(r)
 */
export const cutBy = (opening: Region, bushingRadius: number, cutterRadius: number): Region =>
  bushingOpening(opening, bushingRadius, cutterRadius);
