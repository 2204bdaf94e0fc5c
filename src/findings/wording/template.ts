import type { Say } from '../say.js';

/** Sentences about the plate. Lengths in mm. */
export const templateWording = {
  'template-placeholder': (d: { part: string; width: number; least: number; because: string }, say: Say) =>
    `a ${d.part} of ${say.length(d.width)} is under ${say.length(d.least)}: ${d.because}`,
};
