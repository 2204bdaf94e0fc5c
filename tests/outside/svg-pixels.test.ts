import { describe, expect } from 'vitest';
import { svgWriter } from '../../src/writers/svg.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { colours, plate, slots } from '../drawing/fixture.js';
import { type Pixels, pixelsOfPng } from './svg-pixels.js';

/**
 * SVG drawn by a renderer (librsvg's rsvg-convert, Debian: librsvg2-bin) and measured in pixels at 600 dpi.
 * The inch is 25.4 mm (NBS Circular 572, addendum, 1959), and so SVG's (CSS Values 3).
 */

const DPI = 600;
const pixel = 25.4 / DPI;

/** Where the extents of the fixture begin: its least x and its greatest y. */
const [left, top] = [-12.5, 40];

const rsvg = firstAtHand(['rsvg-convert'], '--version');

const drawn = (program: string, layersKept: readonly string[]): Pixels => {
  const items = plate.items.filter(({ layer }) => layersKept.includes(layer));
  const svg = String(svgWriter.write({ ...plate, items }, { colours: { ...colours, CUT: '#000000' } }));
  return pixelsOfPng(
    output(program, ['--dpi-x', String(DPI), '--dpi-y', String(DPI), '--format', 'png'], svg),
  );
};

/** Middles of the dark runs along a row, weighted by darkness, in mm of the drawing. */
function edgesAlong(picture: Pixels, y: number): readonly number[] {
  const row = Math.round((top - y) / pixel);
  const edges: number[] = [];
  let [weight, moment] = [0, 0];
  for (let column = 0; column <= picture.width; column++) {
    const dark = column < picture.width ? 255 - picture.at(column, row) : 0;
    if (dark > 8) {
      weight += dark;
      moment += dark * (column + 0.5);
    } else if (weight > 0) {
      edges.push(left + (moment / weight) * pixel);
      [weight, moment] = [0, 0];
    }
  }
  return edges;
}

describe('drawn at 600 dpi', () => {
  testWith('rsvg-convert', rsvg, 'the page is as large as the plate, to a pixel', (program) => {
    const picture = drawn(program, ['CUT']);
    expect(Math.abs(picture.width - 92.5 / pixel)).toBeLessThanOrEqual(1);
    expect(Math.abs(picture.height - 60 / pixel)).toBeLessThanOrEqual(1);
  });

  testWith('rsvg-convert', rsvg, 'slots are where and as wide as they were drawn, to a pixel', (program) => {
    // A row through both slots, under their rounded roots, clear of the board's edges.
    const edges = edgesAlong(drawn(program, ['CUT']), -11);
    expect(edges).toHaveLength(6);
    slots.forEach(({ from, to }, i) => {
      const [a = Number.NaN, b = Number.NaN] = edges.slice(1 + 2 * i, 3 + 2 * i);
      expect(Math.abs(b - a - (to - from))).toBeLessThan(pixel);
      expect(Math.abs(a - from)).toBeLessThan(pixel);
      expect(Math.abs(b - to)).toBeLessThan(pixel);
    });
  });

  testWith('rsvg-convert', rsvg, 'the hole is round, and at the upper left where it was put', (program) => {
    const picture = drawn(program, ['CUT']);
    // Through the center and half a radius above it.
    for (const [y, half] of [
      [31, 2.25],
      [32.125, 2.25 * Math.cos(Math.PI / 6)],
    ] as const) {
      const [, a = Number.NaN, b = Number.NaN] = edgesAlong(picture, y);
      expect(Math.abs((a + b) / 2 + 4)).toBeLessThan(pixel);
      expect(Math.abs((b - a) / 2 - half)).toBeLessThan(pixel);
    }
  });
});
