import type { Say } from '../say.js';

/** Sentences about the plate: openings, fingers, size. Lengths in mm. */
export const templateWording = {
  'finger-thin': (
    d: { template: string; width: number; least: number; from: number; to: number },
    say: Say,
  ) =>
    `${d.template}: a finger is ${say.length(d.width)} wide at its tip, ${say.length(d.from)} to ${say.length(d.to)} from the reference edge; the sheet holds down to ${say.length(d.least)}: a smaller bushing or a shorter template.nose makes it wider, stronger sheet lets it be thin`,
  'plate-in-parts': (d: { template: string; parts: number }) =>
    `${d.template} would fall into ${d.parts} parts; widen the spans or lengthen template.spine`,
  'bit-cannot-reach': (d: { template: string; bit: string; area: number; x: number; y: number }, say: Say) =>
    `${d.template}: ${d.bit} cannot reach ${d.area.toFixed(2)} mm² of the waste near ${say.length(d.x)} from the reference edge, ${say.length(Math.abs(d.y))} from the fence; a smaller bit reaches it`,
  'plate-over-sheet': (
    d: { template: string; width: number; height: number; sheetWidth: number; sheetHeight: number },
    say: Say,
  ) =>
    `${d.template} is ${say.length(d.width)} by ${say.length(d.height)} and the sheet is ${say.length(d.sheetWidth)} by ${say.length(d.sheetHeight)}; lessen template.margin or template.spine, or take a larger sheet`,
  'letters-missing': (d: { text: string; letters: string }) =>
    `the lettering has no ${d.letters} (in "${d.text}"); a small box stands in its place`,
};
