import { expect, test } from 'vitest';
import {
  area,
  dilate,
  type Polygons,
  perimeter,
  rectangle,
  union,
} from '../../../src/verify/cut/polygons.js';
import { BUSHING_EASE } from '../../../src/verify/cut/route.js';
import { atBench } from '../../../src/verify/solid/kernel.js';
import { FACET, sweptBody } from '../../../src/verify/solid/swept.js';

/**
 * What a bit sweeps, against Steiner's formula for parallel bodies of a convex set (J. Steiner, 1840; in any text on
 * convex geometry): area(K ⊕ disc(r)) = A + P·r + π·r². With r = a − k·u from the tip to the height h the volume is
 * A·h + P·∫r du + π·∫r² du.
 */

const swept = (centres: Polygons, diameter: number, degrees: number, top: number) =>
  atBench((bench) => {
    const cutter = { diameter, angle: (degrees * Math.PI) / 180 };
    const body = sweptBody(bench, centres, cutter, top);
    return { volume: body.volume(), surface: body.surfaceArea(), genus: body.genus(), parts: partsOf(body) };
  });

function partsOf(body: { decompose: () => readonly { delete: () => void }[] }): number {
  const parts = body.decompose();
  for (const part of parts) part.delete();
  return parts.length;
}

const square = rectangle({ minX: 0, minY: 0, maxX: 30, maxY: 12 });
/** As narrow as what a slot of its bit's own width leaves for the bit's middle. */
const line = rectangle({ minX: -BUSHING_EASE, minY: 0, maxX: BUSHING_EASE, maxY: 40 });
const triangle = [
  { x: 0, y: 0 },
  { x: 25, y: 3 },
  { x: 8, y: 19 },
];

test.each([
  ['a straight bit round a rectangle', square, 9.525, 0, 15],
  ['a dovetail bit round a rectangle', square, 12.7, 8, 19],
  ['a dovetail bit along a slot as wide as itself', line, 12.7, 14, 12],
  ['a steep bit that runs out to a point below the top', triangle, 12, 45, 9],
])('%s: volume by Steiner’s formula, one body without a hole', async (_, ring, diameter, degrees, top) => {
  const a = diameter / 2 - BUSHING_EASE;
  const k = Math.tan((degrees * Math.PI) / 180);
  const h = k > 0 ? Math.min(top, a / k) : top;
  const sumOfR = a * h - (k * h * h) / 2;
  const sumOfR2 = a * a * h - a * k * h * h + (k * k * h * h * h) / 3;
  const exact = area([ring]) * top + perimeter([ring]) * sumOfR + Math.PI * sumOfR2;
  const { volume, genus, parts } = await swept([ring], diameter, degrees, top);
  expect({ genus, parts }).toEqual({ genus: 0, parts: 1 });
  // Facets lie inside of the round by FACET at most, 2/3 of it in the mean; walls are a hair too long.
  const less = 2 * Math.PI * sumOfR * FACET;
  expect(volume).toBeGreaterThan(exact - less);
  expect(volume).toBeLessThan(exact * (1 + 1e-5));
});

test('where walls run into each other, round the tip of a finger, it has the areas of the slices', async () => {
  // A region with a bay: the bit goes round a finger that is 10 wide, with a radius of 5 at its tip.
  const finger = dilate([rectangle({ minX: 24.9, minY: 20, maxX: 25.1, maxY: 60 })], 5);
  const { difference } = await import('../../../src/verify/cut/polygons.js');
  const region = difference([rectangle({ minX: 0, minY: 0, maxX: 50, maxY: 40 })], finger);
  // Radius 4.9 of the bit: what is left is 0.2 wide at the tip level, and wider above.
  const [diameter, degrees, top] = [9.8, 8, 12];
  const k = Math.tan((degrees * Math.PI) / 180);
  const slice = (u: number): number => area(union(dilate(region, diameter / 2 - BUSHING_EASE - u * k)));
  const steps = 24;
  const weights = Array.from({ length: steps + 1 }, (_, i) =>
    i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2,
  );
  const sliced = weights.reduce((sum, w, i) => sum + (w * slice((top * i) / steps) * top) / steps / 3, 0);
  const { volume } = await swept(region, diameter, degrees, top);
  expect(Math.abs(volume / sliced - 1)).toBeLessThan(1e-4);
});

test('a bushing that goes nowhere sweeps nothing', async () => {
  expect((await swept([], 12, 8, 10)).volume).toBe(0);
});
