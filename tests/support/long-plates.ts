import type { Job } from '../../src/input/types.js';
import { solveOnly } from './jobs.js';
import { makeFiles } from './made.js';

/** Jobs whose plates are longer than a bed, and the files that they are written as. */

const shop = {
  bits: {
    tails: { kind: 'dovetail', diameter: 12.7, angle: 8, height: 20 },
    steep: { kind: 'dovetail', diameter: 12.7, angle: 14, height: 12.7 },
    straight: { kind: 'straight', diameter: 8, height: 25 },
  },
  bushings: {
    eleven: { outside: 11, bore: 10 },
    nine: { outside: 9, bore: 8 },
    wide: { outside: 12.7, bore: 10 },
  },
  plate: { material: 'plywood', thickness: 9, 'least-finger': 3 },
};

/** A job of one joint, `long`, and a laser of this bed; `more` is added to the shop, `plate` to its plate. */
export const longJob = (
  joint: Readonly<Record<string, unknown>>,
  bed: readonly [number, number],
  { plate = {}, ...more }: Readonly<Record<string, object>> = {},
): string =>
  JSON.stringify({
    units: 'mm',
    shop: { ...shop, laser: { kerf: 0.15, bed }, ...more, plate: { ...shop.plate, ...plate } },
    joints: { long: joint },
  });

const board = { thickness: 12 };
export const through = (width: number, layout: object, template: object = {}) => ({
  kind: 'through-dovetail',
  width,
  layout,
  template,
  boards: { tails: board, pins: board },
  cutters: { tails: 'tails', pins: 'straight' },
  bushing: 'eleven',
  fit: { slack: 0 },
});
export const box = (width: number, finger: number) => ({
  kind: 'box',
  width,
  layout: { spacing: 'even', finger },
  boards: { one: board, two: board },
  cutter: 'straight',
  bushing: 'eleven',
  fit: { slack: 0 },
});
export const together = (width: number) => ({
  kind: 'half-blind-dovetail',
  method: 'together',
  width,
  layout: { spacing: 'even' },
  boards: { tails: board, pins: { thickness: 19 } },
  cutter: 'steep',
  bushing: 'wide',
  fit: { slack: 0 },
});

/** The joint of a job with one, and its finger templates as DXF files by their plain names. */
export async function partsIn(job: Job) {
  const outcome = solveOnly(job);
  const files = await makeFiles(job, [outcome], { only: ['finger'], as: ['dxf'] });
  const written = files.map(({ path, content }) => ({
    name: path.split('/').at(-1) ?? path,
    text: String(content),
  }));
  return { outcome, written, templates: outcome.made?.templates ?? [], report: outcome.made?.report };
}
