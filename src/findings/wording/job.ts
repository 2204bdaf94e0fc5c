import type { Say } from '../say.js';

/** Sentences about the job and shop files. Lengths in mm. */
export const jobWording = {
  'job-placeholder': (d: { part: string; width: number; least: number; because: string }, say: Say) =>
    `a ${d.part} of ${say.length(d.width)} is under ${say.length(d.least)}: ${d.because}`,
};
