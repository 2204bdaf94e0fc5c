import { closed, open, text } from '../../src/drawing/drawing.js';
import type { Drawing, Layer } from '../../src/drawing/model.js';
import { circle, outlineFromBulges, reversed } from '../../src/geometry/outline.js';
import { line } from '../../src/geometry/segment.js';
import type { Outline } from '../../src/geometry/types.js';

/** The colours of Okabe and Ito, as halfpin sets them unless told otherwise. */
export const colours: Readonly<Record<Layer, string>> = {
  CUT: '#D55E00',
  SCORE: '#0072B2',
  ENGRAVE: '#000000',
  REF: '#009E73',
  STOCK: '#E69F00',
};

/** Where the slots of the comb are, mm: two of different width, their roots half circles, open at the bottom. */
export const slots = [
  { from: 10, to: 21.1125, depth: 30 },
  { from: 40, to: 56.5, depth: 22 },
] as const;

/** A comb with no symmetry at all: slots of two widths, one slanted side, one large and one small rounded corner. */
export const comb: Outline = outlineFromBulges([
  { x: -12.5, y: -20 },
  ...slots.flatMap(({ from, to, depth }) => [
    { x: from, y: -20 },
    { x: from, y: -20 + depth - (to - from) / 2, bulge: -1 },
    { x: to, y: -20 + depth - (to - from) / 2 },
    { x: to, y: -20 },
  ]),
  { x: 80, y: -20 },
  { x: 72, y: 30, bulge: Math.tan(Math.PI / 8) },
  { x: 62, y: 40 },
  { x: -9.5, y: 40, bulge: Math.tan(Math.PI / 8) },
  { x: -12.5, y: 37 },
]);

export const screwHole = reversed(circle({ x: -4, y: 31 }, 2.25));

/** Every kind of item on every layer; left and right, top and bottom differ on each. */
export const plate: Drawing = {
  title: 'Specimen cabinet: tray-corner, finger template, tails',
  notes: ['Nominal sizes: no kerf or cutter compensation.', 'Bit 8° & bushing <7/16 in>.'],
  items: [
    closed('CUT', comb),
    closed('CUT', screwHole),
    closed(
      'STOCK',
      outlineFromBulges([
        { x: 0, y: -15 },
        { x: 64, y: -15 },
        { x: 64, y: 0 },
        { x: 0, y: 0 },
      ]),
    ),
    open('SCORE', { closed: false, segments: [line({ x: 0, y: 0 }, { x: 64, y: 0.5 })] }),
    open('REF', { closed: false, segments: [line({ x: 5, y: 5 }, { x: 5, y: 36 })] }, true),
    text('ENGRAVE', 'Face 8° →', { x: 6, y: 30 }, 4),
    text('ENGRAVE', 'edge', { x: 66, y: 4 }, 3, { angle: Math.PI / 2 }),
  ],
};

/** Small enough to read as a file: a round-cornered tab with a hole, one score, one letter. */
export const small: Drawing = {
  title: 'A tab',
  notes: ['Nominal.'],
  items: [
    closed(
      'CUT',
      outlineFromBulges([
        { x: -1, y: 0 },
        { x: 20, y: 0 },
        { x: 20, y: 8, bulge: 1 },
        { x: 10, y: 8 },
        { x: -1, y: 3 },
      ]),
    ),
    closed('CUT', circle({ x: 15, y: 8 }, 1.5)),
    open('SCORE', { closed: false, segments: [line({ x: 0, y: 1 }, { x: 18, y: 2 })] }),
    text('ENGRAVE', 'h', { x: 2, y: 1 }, 3),
  ],
};
