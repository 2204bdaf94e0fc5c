import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { families } from '../../src/joints/list.js';
import { root } from './jobs.js';

/** Jobs with something wrong in each, and the codes that say so. */

const starter = (kind: string) => families.find((family) => family.kind === kind)?.starter ?? '';
const through = starter('through-dovetail');
const halfBlind = starter('half-blind-dovetail');
const box = starter('box');
const sample = (name: string) => readFileSync(join(root, 'samples', name), 'utf8');
export const others = { './shop.yaml': sample('shop.yaml'), 'shop.yaml': sample('shop.yaml') };

/** A job with one thing wrong, the code that says so, and how many ways out there are at least. */
export interface Problem {
  readonly code: string;
  readonly text: string;
  readonly ways: number;
}

const layoutThrough = 'layout: { spacing: even, tails: 3 }';
const layoutBox = 'layout: { spacing: even, finger: 1/2 }';
const layoutDrawer = 'layout: { spacing: even }';

export const problems: readonly Problem[] = [
  { code: 'span-narrow', text: through.replace('tails: 3', 'tails: 6, pin: 1/2, end-pin: 1/4'), ways: 1 },
  { code: 'span-narrow', text: through.replace(layoutThrough, 'layout: { tails: 3, pin: 1/4 }'), ways: 1 },
  {
    code: 'span-narrow',
    text: through.replace(layoutThrough, 'layout: { tails: 3, end-pin: 0.1 }'),
    ways: 1,
  },
  {
    code: 'span-narrow',
    text: through.replace(
      layoutThrough,
      'layout: { spacing: list, spans: [1/4, 3/4, 3/8, 3/4, 3/8, 3/4, 1/4] }',
    ),
    ways: 1,
  },
  {
    code: 'spans-sum',
    text: through.replace(
      layoutThrough,
      'layout: { spacing: list, spans: [3/8, 5/8, 1/2, 3/4, 1/2, 5/8, 3/8] }',
    ),
    ways: 2,
  },
  { code: 'tails-no-room', text: through.replace('tails: 3', 'tails: 3, pin: 2'), ways: 1 },
  { code: 'pin-over-pitch', text: through.replace(layoutThrough, 'layout: { pitch: 1, pin: 7/8 }'), ways: 1 },
  { code: 'span-narrow', text: box.replace(layoutBox, 'layout: { fingers: 15 }'), ways: 1 },
  { code: 'finger-not-as-wanted', text: box.replace('width: 3-1/2', 'width: 3.4'), ways: 1 },
  { code: 'length-unclear', text: through.replace('width: 3-1/2', 'width: 3-1-2'), ways: 1 },
  { code: 'length-unclear', text: through.replace('width: 3-1/2', 'width: 2-12/8'), ways: 1 },
  {
    code: 'tool-unknown',
    text: through.replace('bushing: seven-sixteenths', 'bushing: seven-sixteenth'),
    ways: 1,
  },
  {
    code: 'bit-wrong-kind',
    text: through.replace('tails: half-8, pins', 'tails: straight-38, pins'),
    ways: 1,
  },
  { code: 'key-unknown', text: through.replace('bushing: seven', 'bushng: seven'), ways: 1 },
  { code: 'value-unlisted', text: through.replace('spacing: even', 'spacing: evn'), ways: 1 },
  { code: 'field-of-spacing', text: through.replace('tails: 3', 'tails: 3, ratio: 1.2'), ways: 1 },
  { code: 'slope-twice', text: through.replace('bushing: seven', 'slope: 1:8\n    bushing: seven'), ways: 1 },
  {
    code: 'spacing-even-only',
    text: halfBlind.replace(layoutDrawer, 'layout: { spacing: graduated }'),
    ways: 2,
  },
  {
    code: 'square-tails-together',
    text: halfBlind.replace('method: together', 'method: together\n    tails-inside: square'),
    ways: 2,
  },
  {
    code: 'square-tails-thin-side',
    text: halfBlind
      .replace('method: together', 'method: apart\n    tails-inside: square')
      .replace('tails: { thickness: 1/2 }', 'tails: { thickness: 7/32 }'),
    ways: 1,
  },
  { code: 'lap-thin', text: halfBlind.replace('depth: 3/8', 'depth: 11/16'), ways: 1 },
  {
    code: 'groove-outside-tails',
    text: through.replace('tails: 3', 'tails: 3, groove: { from: 0.2, width: 1/4 }'),
    ways: 1,
  },
  {
    code: 'groove-off-board',
    text: through.replace('tails: 3', 'tails: 3, groove: { from: 4, width: 1/4 }'),
    ways: 1,
  },
  {
    code: 'other-tools-would-do',
    text: sample('small-tray.yaml')
      .replace('spacing: varied, tails: 3, seed: 7, spread: 0.3', 'tails: 5, pin: 1/2')
      .replace('bushing: seven-sixteenths', 'bushing: five-eighths'),
    ways: 1,
  },
  { code: 'every-second-would-do', text: sample('refused-label-holder.yaml'), ways: 1 },
];

const shop = `units: in
shop:
  bits:
    half-14: { kind: dovetail, diameter: 1/2, angle: 14, height: 1/2, shank: 1/4 }
    quarter-8: { kind: dovetail, diameter: 1/4, angle: 8, height: 1/2, shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 1, shank: 1/4 }
    straight-14: { kind: straight, diameter: 1/4, height: 1, shank: 1/4 }
  bushings:
    five-sixteenths: { outside: 5/16, bore: 17/64, barrel: 5/32 }
    half: { outside: 1/2, bore: 13/32, barrel: 5/32 }
    five-eighths: { outside: 5/8, bore: 17/32, barrel: 5/32 }
    one: { outside: 1, bore: 25/32, barrel: 3/4 }
  plate: { material: mdf, thickness: 1/2, least-finger: 3/16 }
joints:
  joint:
    fit: { slack: 0.004 }
`;
export const drawer = (
  more: string,
  side = '1/2',
  front = '3/4',
  cutter = 'half-14',
  bushing = 'five-eighths',
) =>
  `${shop}    kind: half-blind-dovetail
    boards: { tails: { thickness: ${side} }, pins: { thickness: ${front} } }
    cutter: ${cutter}
    bushing: ${bushing}
    ${more}
`;
const throughOf = (more: string, bushing = 'half') => `${shop}    kind: through-dovetail
    boards: { tails: { thickness: 3/8 }, pins: { thickness: 3/8 } }
    cutters: { tails: half-14, pins: straight-38 }
    bushing: ${bushing}
    ${more}
`;
const boxOf = (more: string) => `${shop}    kind: box
    boards: { one: { thickness: 3/8 }, two: { thickness: 3/8 } }
    cutter: straight-38
    bushing: five-eighths
    ${more}
`;

/** Under a thin plate a dovetail bit runs in the barrel where it is still wide. */
export const inBore = drawer('width: 5', '1/2', '3/8', 'half-14', 'half')
  .replace('bore: 13/32', 'bore: 9/32')
  .replace('thickness: 1/2, least', 'thickness: 1/4, least');

/** Refused jobs with the codes that they are expected to be answered by. */
export const refusedLayouts: readonly (readonly [text: string, codes: readonly string[]])[] = [
  [drawer('width: 5\n    layout: { tails: 9 }'), ['tails-over-bushing', 'blank-would-do']],
  [drawer('width: 24\n    layout: { pitch: 3 }'), ['apart-would-do', 'blank-would-do']],
  [drawer('width: 5\n    layout: { pitch: 1/2 }'), ['pitch-under-bit', 'blank-would-do']],
  [drawer('width: 5', '3/16'), ['pitch-none-for-side', 'apart-would-do']],
  [drawer('width: 0.5'), ['pitch-none-for-board']],
  [inBore, ['cutter-in-bore']],
  [drawer('width: 5', '1/2', '3/4', 'half-14', 'one'), ['barrel-long']],
  [
    drawer('width: 5\n    method: apart', '1/2', '3/4', 'half-14', 'one').replace(
      'barrel: 3/4',
      'barrel: 1/4',
    ),
    ['bushing-over-tail', 'square-would-do'],
  ],
  [drawer('width: 5\n    depth: 11/16'), ['blank-would-do']],
  [drawer('width: 5\n    layout: { tails: 3, end-pin: 2 }'), ['blank-would-do']],
  [throughOf('width: 3\n    layout: { tails: 6 }'), ['tails-no-room', 'blank-would-do']],
  [throughOf('width: 5\n    layout: { tails: 3, pin: 1/4 }'), ['span-narrow', 'blank-would-do']],
  [throughOf('width: 0.7'), ['tails-no-room']],
  [boxOf('width: 3\n    layout: { fingers: 7 }'), ['span-narrow', 'every-second-would-do']],
  [boxOf('width: 3\n    layout: { finger: 1/4 }'), ['span-narrow', 'blank-would-do']],
  [boxOf('width: 0.7'), ['span-narrow']],
];
