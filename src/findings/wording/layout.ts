import type { Say } from '../say.js';

/** Sentences about the layout of a joint across the board. Lengths in mm. */
export const layoutWording = {
  'span-narrow': (d: { part: string; width: number; least: number; because: string }, say: Say) =>
    `a ${d.part} of ${say.length(d.width)} is under ${say.length(d.least)}: ${d.because}`,
};
