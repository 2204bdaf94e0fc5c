import type { Say } from '../say.js';

/** Sentences about paper: what a printer's sheet leaves for a drawing. Lengths in mm. */
export const paperWording = {
  'paper-small': (
    d: { width: number; height: number; margin: number; roomX: number; roomY: number; least: number },
    say: Say,
  ) =>
    `paper of ${say.length(d.width)} by ${say.length(d.height)} with margins of ${say.length(d.margin)} leaves ${say.length(Math.max(0, d.roomX))} by ${say.length(Math.max(0, d.roomY))} for the drawing beside title and scale bars, under the ${say.length(d.least)} that is worth joining; a5 or larger with a margin of 10 mm would do`,
};
