import type fc from 'fast-check';
import { edgeJobs } from '../support/edge-jobs.js';
import { apartJobs, squareJobs, togetherJobs } from '../support/random-half-blind.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';

/** The kinds of random jobs that are cut and closed on paper. A new one is one line. */
export const kinds: Readonly<Record<string, fc.Arbitrary<string>>> = {
  'through-dovetail': throughDovetailJobs,
  box: boxJobs,
  'half-blind-together': togetherJobs,
  'half-blind-apart': apartJobs,
  'half-blind-square': squareJobs,
  edge: edgeJobs,
};
