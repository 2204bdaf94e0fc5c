import type { Hold, Words } from '../contract.js';

/** Ways to hold a board that several families share. */

/** On end, its outside face toward the operator. */
export const ON_END: Hold = { posture: 'on end', face: 'outside', shows: 'toward you' };

/** What is done to ends that cross, once the glue is dry. */
export const FLUSH_ENDS: Words = ['Plane or sand the ends flush where they stand proud.'];
