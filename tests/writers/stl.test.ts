import { expect, test } from 'vitest';
import { solidOf } from '../../src/writers/solids/solid.js';
import { stlWriter } from '../../src/writers/solids/stl.js';
import { plate } from '../drawing/fixture.js';
import { readStl } from './solid-read.js';

const solid = solidOf(plate, { thickness: 6 });
if (!solid) throw new Error('the plate has a solid');
const bytes = stlWriter.write({ title: plate.title, solid });

test('the head says the unit, does not begin with the word of the textual kind, and is plain ASCII', () => {
  const { head } = readStl(bytes);
  expect(head).toMatch(/^Unit: mm\. Specimen cabinet: tray-corner/);
  expect(head).toMatch(/^[ -~]{80}$/);
});

test('normals have length 1 and point out of the triangle that they stand with', () => {
  const { normals, triangles } = readStl(bytes);
  for (const [i, [a, b, c]] of triangles.entries()) {
    const u = b.map((value, k) => value - (a[k] ?? 0));
    const v = c.map((value, k) => value - (a[k] ?? 0));
    const [ux = 0, uy = 0, uz = 0] = u;
    const [vx = 0, vy = 0, vz = 0] = v;
    const n = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const size = Math.hypot(...n);
    const along = n.reduce((sum, value, k) => sum + (value / size) * (normals[i]?.[k] ?? 0), 0);
    expect(along).toBeGreaterThan(0.999);
    expect(Math.hypot(...(normals[i] ?? []))).toBeCloseTo(1, 6);
  }
});

test('the same solid gives the same bytes', () => {
  expect(stlWriter.write({ title: plate.title, solid })).toEqual(bytes);
});
