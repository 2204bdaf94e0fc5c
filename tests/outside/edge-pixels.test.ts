import { describe, expect } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { svgWriter } from '../../src/writers/svg.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { colours } from '../drawing/fixture.js';
import { readSample } from '../support/jobs.js';
import { type Field, farther, nearest } from './distance-field.js';
import { type Pixels, pixelsOfPng } from './svg-pixels.js';

/**
 * Both templates of an edge, drawn by librsvg (rsvg-convert) and routed pixel by pixel: a place is free for the
 * bushing's middle when no pixel of the plate is nearer than its radius, and cut when a free place is nearer than
 * the bit's. What is left is held against the line as librsvg draws the very path of the sample's file.
 */

/** Pixels to a millimetre, and what a contour of whole pixels may be off by. */
const FINE = 12;
const OFF = 1.5 / FINE;

/** The part of the board that is looked at, mm from the reference edge: one wave and a half. */
const [LEFT, RIGHT] = [60, 132];
const HIGH = 30;

/** The sample's line, samples/edge-shell-edging.svg: 96 by 40 units on 48 by 20 mm, its middle at y = 20 units. */
const WAVE = 'M 0 0 C 12 0 16 -14 28 -14 C 38 -14 41 -7 48 0 S 58 14 68 14 C 80 14 84 0 96 0';
const [UNIT, LENGTH, HALF_HEIGHT, TRIM] = [0.5, 48, 7, 3];

/** Bit and bushing of the sample, mm. */
const [BIT, BUSHING, SLACK] = [9.525, 11.1125, 0.1016];

const rsvg = firstAtHand(['rsvg-convert'], '--version');

/** An SVG of the part that is looked at, y up from the blank's straight edge, with room round it. */
const SPACE = 14;
function pictured(program: string, body: string): Pixels {
  const [width, height] = [RIGHT - LEFT + 2 * SPACE, HIGH + 2 * SPACE];
  const box = `${LEFT - SPACE} ${-(HIGH + SPACE)} ${width} ${height}`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width * FINE}" height="${height * FINE}" viewBox="${box}">${body}</svg>`;
  return pixelsOfPng(output(program, ['--format', 'png'], svg));
}

/** The plate as written, filled. */
function plateBody(svg: string): string {
  const cut = /<g id="CUT"[^>]*>([\s\S]*?)<\/g>/.exec(svg)?.[1] ?? '';
  const outlines = [...cut.matchAll(/ d="([^"]*)"/g)].map(([, d = '']) => d);
  return `<path d="${outlines.join(' ')}" fill="#000" fill-rule="evenodd"/>`;
}

/** Everything below the line, as the board's side has it: board one's y is the drawing's, board two's runs against it. */
function wasteBody(side: 'one' | 'two'): string {
  const turned = side === 'one' ? 1 : -1;
  const copies = [0, 1, 2, 3, 4].map((i) => {
    const closed = `${WAVE} V ${turned * 100} H 0 Z`;
    return `<path transform="translate(${i * LENGTH} ${-(TRIM + HALF_HEIGHT)}) scale(${UNIT} ${turned * UNIT})" d="${closed}" fill="#000"/>`;
  });
  // Copies meet without a seam.
  return `<g shape-rendering="crispEdges">${copies.join('')}</g>`;
}

const dark = (picture: Pixels): Field => ({
  width: picture.width,
  height: picture.height,
  at: (column, row) => picture.at(column, row) < 128,
});

describe('routed pixel by pixel', () => {
  testWith(
    'rsvg-convert',
    rsvg,
    'each board of the drawer edging is left with its side of the line',
    (program) => {
      const [outcome] = solveJob(readSample('edge-drawer-edging.yaml'));
      const templates = outcome?.made?.templates ?? [];
      expect(templates).toHaveLength(2);
      for (const [i, side] of (['one', 'two'] as const).entries()) {
        const template = templates[i];
        if (!template) continue;
        const written = String(svgWriter.write(template.drawing, { colours }));
        const plate = dark(pictured(program, plateBody(written)));
        const centres = farther(nearest(plate), (BUSHING / 2) * FINE);
        const uncut = farther(nearest(centres), (BIT / 2) * FINE);
        const own = astray(uncut, dark(pictured(program, wasteBody(side))));
        expect(own.worst).toBeLessThan(OFF + SLACK / 4);
        expect(Math.min(own.left, own.cut)).toBeGreaterThan(50_000);
        // The other board's line is another one: a picture that is turned over wrongly shows.
        const other = side === 'one' ? 'two' : 'one';
        expect(astray(uncut, dark(pictured(program, wasteBody(other)))).worst).toBeGreaterThan(2);
      }
    },
  );
});

/** How far the wood that is left lies in the waste at most, or waste that is cut in the wood, mm; pixels of each. */
function astray(uncut: Field, waste: Field) {
  const toWaste = nearest(waste);
  const toWood = nearest(farther(toWaste, 0.5));
  let [worst, left, cut] = [0, 0, 0];
  for (let row = SPACE * FINE; row < (SPACE + HIGH) * FINE; row++) {
    for (let column = SPACE * FINE; column < (SPACE + RIGHT - LEFT) * FINE; column++) {
      const isLeft = uncut.at(column, row);
      if (isLeft) left += 1;
      else cut += 1;
      worst = Math.max(worst, (isLeft ? toWood : toWaste).at(column, row) / FINE);
    }
  }
  return { worst, left, cut };
}
