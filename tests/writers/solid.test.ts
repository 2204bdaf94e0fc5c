import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { closed } from '../../src/drawing/drawing.js';
import type { Drawing } from '../../src/drawing/model.js';
import {
  areaOfRegion,
  circle,
  perimeter,
  perimeterOfRegion,
  rectangle,
  reversed,
} from '../../src/geometry/outline.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { distanceToSegment } from '../../src/geometry/segment.js';
import { extruded, solidOf } from '../../src/writers/solids/solid.js';
import { stlWriter } from '../../src/writers/solids/stl.js';
import { comb, plate, screwHole } from '../drawing/fixture.js';
import { judgedByManifold, readStl, unmatchedEdges, volumeOf } from './solid-read.js';

const thickness = 12.7;
const drawing = (...outlines: Parameters<typeof regionOf>[0]): Drawing => ({
  title: 'A plate',
  notes: [],
  items: outlines.map((one) => closed('CUT', one)),
});
const region = regionOf([comb, screwHole]);

const surfaceOf = (of: Drawing, options: { ease?: number; holeGrowth?: number } = {}) => {
  const solid = solidOf(of, { thickness, ...options });
  if (!solid) throw new Error('the drawing has a solid');
  return readStl(stlWriter.write({ title: of.title, solid }));
};

/** Area between chords and arcs: (2/3) · 0.005 mm along all of the outline at most; the grid of 1e-4 mm adds its half. */
const areaSlack = (length: number): number => length * (0.005 * (2 / 3) + 1e-4);

describe('the solid of a plate', () => {
  test('is closed: each edge is run once each way', () => {
    expect(unmatchedEdges(surfaceOf(plate))).toEqual([]);
  });

  test('has the volume area × thickness', () => {
    const volume = volumeOf(surfaceOf(plate));
    const slack = areaSlack(perimeterOfRegion(region)) * thickness;
    expect(Math.abs(volume - areaOfRegion(region) * thickness)).toBeLessThan(slack);
  });

  test('stands on z = 0, its top at the thickness, every vertex on the outline, every chord within 0.01 mm', () => {
    const segments = region.flatMap((one) => one.segments);
    const away = (x: number, y: number): number =>
      Math.min(...segments.map((one) => distanceToSegment({ x, y }, one)));
    for (const corners of surfaceOf(plate).triangles) {
      for (const [i, [x, y, z]] of corners.entries()) {
        expect([0, Math.fround(thickness)]).toContain(z);
        expect(away(x, y)).toBeLessThan(2e-4);
        const [nextX, nextY, nextZ] = corners[(i + 1) % 3] ?? [x, y, z];
        const up = nextZ - z;
        // Edges of the walls along the outline; those across faces and walls leave it as they must.
        const wall = corners.some((one) => one[2] !== z) && up === 0;
        if (wall) expect(away((x + nextX) / 2, (y + nextY) / 2)).toBeLessThan(0.01);
      }
    }
  });

  test('is one body with one hole to the library manifold, of the same volume', async () => {
    const surface = surfaceOf(plate);
    const judged = await judgedByManifold(surface);
    expect(judged).toMatchObject({ status: 'NoError', genus: 1, parts: 1 });
    expect(Math.abs(judged.volume / volumeOf(surface) - 1)).toBeLessThan(1e-6);
  });

  test('has an eased foot: a ring as high as the ease, smaller by half its square times the length of the outline', async () => {
    const ease = 0.4;
    const surface = surfaceOf(plate, { ease });
    expect(unmatchedEdges(surface)).toEqual([]);
    expect((await judgedByManifold(surface)).status).toBe('NoError');
    const removed = volumeOf(surfaceOf(plate)) - volumeOf(surface);
    // Guldin: the triangle ease²/2 along the outline; corners add or take less than ease³ each.
    const along = (ease * ease * perimeterOfRegion(region)) / 2;
    expect(Math.abs(removed - along)).toBeLessThan(24 * ease ** 3);
    const heights = new Set(surface.triangles.flat().map(([, , z]) => z));
    expect(heights).toEqual(new Set([0, Math.fround(ease), Math.fround(thickness)]));
    // Nothing reaches beyond the plate: the foot is inside.
    const xs = surface.triangles.flat().flatMap(([x, , z]) => (z === 0 ? [x] : []));
    expect(Math.min(...xs)).toBeCloseTo(-12.5 + ease, 3);
  });

  test('is none where the foot would use up a part: twice the ease is more than a finger', () => {
    const finger = drawing(rectangle(0, 0, 1, 30));
    expect(solidOf(finger, { thickness, ease: 0.4 })).toBeDefined();
    expect(solidOf(finger, { thickness, ease: 0.6 })).toBeUndefined();
    const nearHole = drawing(rectangle(0, 0, 20, 20), circle({ x: 4, y: 10 }, 3.5));
    expect(solidOf(nearHole, { thickness, ease: 0.2 })).toBeDefined();
    expect(solidOf(nearHole, { thickness, ease: 0.3 })).toBeUndefined();
  });

  test('has wider holes when asked, and nothing else is changed', () => {
    const growth = 0.2;
    const grown = volumeOf(surfaceOf(plate, { holeGrowth: growth }));
    // π (r + g/2)² − π r² with r = 2.25.
    const wider = Math.PI * ((2.25 + growth / 2) ** 2 - 2.25 ** 2) * thickness;
    expect(Math.abs(volumeOf(surfaceOf(plate)) - grown - wider)).toBeLessThan(
      areaSlack(perimeter(screwHole)) * thickness,
    );
  });

  test('is there for holes that lie in line with each other and with corners, in any number and of any direction', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 1, max: 4 }),
        fc.constantFrom(1, 12.7, 25.4 / 7),
        fc.array(fc.constantFrom('none', 'round', 'square', 'turned'), { minLength: 24, maxLength: 24 }),
        async (columns, rows, unit, kinds) => {
          const holes = Array.from({ length: columns * rows }, (_, i) => {
            const x = unit * (1 + 3 * (i % columns));
            const y = unit * (1 + 3 * Math.floor(i / columns));
            const square = rectangle(x, y, x + unit, y + unit);
            const kind = kinds[i];
            if (kind === 'none') return [];
            if (kind === 'round') return [circle({ x: x + unit / 2, y: y + unit / 2 }, unit / 2)];
            return [kind === 'turned' ? reversed(square) : square];
          }).flat();
          const outer = rectangle(0, 0, unit * (3 * columns + 1), unit * (3 * rows + 1));
          const surface = surfaceOf(drawing(...holes, outer));
          expect(unmatchedEdges(surface)).toEqual([]);
          const judged = await judgedByManifold(surface);
          expect(judged).toMatchObject({ status: 'NoError', genus: holes.length, parts: 1 });
        },
      ),
      { numRuns: 60 },
    );
  });

  test('has an island where a part lies in a hole of another', async () => {
    const surface = surfaceOf(
      drawing(rectangle(0, 0, 40, 40), circle({ x: 20, y: 20 }, 15), circle({ x: 20, y: 20 }, 5)),
    );
    expect(await judgedByManifold(surface)).toMatchObject({ status: 'NoError', parts: 2 });
  });

  test('is none where nothing is cut', () => {
    expect(solidOf({ title: '', notes: [], items: [] }, { thickness })).toBeUndefined();
    expect(extruded([rectangle(0, 0, 1, 1)], { thickness })?.triangles).toHaveLength(12);
  });
});
