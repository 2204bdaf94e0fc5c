import { expect, test } from 'vitest';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { linesOf } from '../../src/drawing/drawing.js';
import type { StyleName } from '../../src/drawing/styles.js';
import { areaOfRegion, extents } from '../../src/geometry/outline.js';
import { area } from '../../src/verify/cut/polygons.js';
import { testCutDrawing } from '../../src/verify/picture.js';
import { pictureWriter } from '../../src/writers/picture.js';
import { cutBox } from '../support/hand-testcut.js';

const cut = cutBox({ boundaries: [0, 12, 24, 36, 48], bit: 8, bushing: 12, one: 10, two: 9, slack: 0.2 });
const drawing = testCutDrawing(cut, 'A box: corner', formatterFor('mm'));
const inStyle = (style: StyleName) => drawing.items.filter((item) => item.style === style);

test('nothing of it is done to a sheet, and no colour of a shop is in it', () => {
  for (const { layer, style } of drawing.items) {
    expect(layer).toBe('REF');
    expect(style).toBeDefined();
  }
  const written = ['#123456', '#FEDCBA'].map((one) =>
    pictureWriter.write(drawing, {
      colours: { ENGRAVE: one, SCORE: one, CUT: one, REF: one, STOCK: one },
    }),
  );
  expect(written[0]).toBe(written[1]);
});

test('the levels from above are the polygons that were measured, at 1:1', () => {
  const drawn = inStyle('gap').flatMap((item) => (item.kind === 'area' ? [areaOfRegion(item.region)] : []));
  // From above, each level's gaps stand whole, with their own area.
  for (const { gaps } of cut.sections) {
    expect(drawn.some((one) => Math.abs(one - area(gaps)) < 1e-6)).toBe(true);
  }
});

test('an enlargement ends at its frame', () => {
  const frames = inStyle('frame')
    .flatMap(linesOf)
    .map((one) => extents(one));
  const enlarged = frames.find(({ minX, maxX }) => maxX - minX > 30);
  expect(enlarged).toBeDefined();
  if (!enlarged) return;
  const within = drawing.items
    .filter(({ kind }) => kind === 'area')
    .flatMap(linesOf)
    .map((one) => extents(one))
    .filter(({ minY, maxY }) => minY < enlarged.maxY - 1e-6 && maxY > enlarged.minY + 1e-6);
  expect(within.length).toBeGreaterThan(1);
  for (const { minX, maxX, minY, maxY } of within) {
    expect(minX).toBeGreaterThanOrEqual(enlarged.minX - 0.01);
    expect(maxX).toBeLessThanOrEqual(enlarged.maxX + 0.01);
    expect(minY).toBeGreaterThanOrEqual(enlarged.minY - 0.01);
    expect(maxY).toBeLessThanOrEqual(enlarged.maxY + 0.01);
  }
});
