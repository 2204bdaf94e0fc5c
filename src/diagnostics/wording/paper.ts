import type { Formatter } from '../formatter.js';

/** Sentences about paper: what a printer's sheet leaves for a drawing. Lengths in mm. */
export const paperWording = {
  'paper-small': (
    d: { width: number; height: number; margin: number; roomX: number; roomY: number; least: number },
    fmt: Formatter,
  ) =>
    `paper of ${fmt.length(d.width)} by ${fmt.length(d.height)} with margins of ${fmt.length(d.margin)} leaves ${fmt.length(Math.max(0, d.roomX))} by ${fmt.length(Math.max(0, d.roomY))} for the drawing beside title and scale bars, under the ${fmt.length(d.least)} that is worth joining; a5 or larger with a margin of 10 mm would do`,
  'bar-unknown': (d: { measured: number; nominal: number; bars: readonly number[] }, fmt: Formatter) =>
    `${fmt.length(d.measured)} is no scale bar within 5 %: the nearest is ${fmt.length(d.nominal)}, and pages of halfpin have bars of ${d.bars.join(', ')} mm; print at 100 %, measure from outer edge to outer edge of the end ticks, and give mm or a unit, such as 149.6 or 5.89 in`,
  'bar-far-off': (d: { measured: number; nominal: number }, fmt: Formatter) =>
    `a bar of ${fmt.length(d.nominal)} came out at ${fmt.length(d.measured)}, which is more than printers are usually out; look for "fit to page" or "scale to fit" in the print dialogue, print again at 100 % and measure again`,
  'factor-range': (d: { factor: number; before: number; least: number; most: number }) =>
    `the factor would be ${d.factor} (${d.before} before), and it has to lie from ${d.least} to ${d.most}; set both factors to 1, print a plain page at 100 % and measure again`,
  'factors-at-page': (d: { x: number; y: number }) =>
    `the shop has the factors x ${d.x}, y ${d.y}; say --page plain if the bars you measured are on a page made without them, --page corrected if it was made with them, as the pages of make are (its foot says "Made for a printer with the factors")`,
  'shop-elsewhere': (d: { path: string }) => `this job takes its shop from ${d.path}; give that file instead`,
  'printer-no-shop': (_: object) =>
    'this job has no shop to hold the factors; give a shop file, or begin one with the line "units: mm"',
};
