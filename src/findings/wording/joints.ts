import type { Say } from '../say.js';

/** Sentences about the joint families: boards, bits and bushings. Lengths in mm. */
export const jointWording = {
  'joint-placeholder': (d: { part: string; width: number; least: number; because: string }, say: Say) =>
    `a ${d.part} of ${say.length(d.width)} is under ${say.length(d.least)}: ${d.because}`,
};
