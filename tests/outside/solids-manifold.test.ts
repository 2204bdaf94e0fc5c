import { describe, expect, test } from 'vitest';
import { plateOf } from '../../src/cam/compensated.js';
import { areaOfRegion, perimeter, perimeterOfRegion } from '../../src/geometry/outline.js';
import { solveJob } from '../../src/outputs/joint.js';
import { GROOVES } from '../../src/outputs/printed.js';
import { writtenAs } from '../../src/template/finger-template.js';
import { readSample } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { judgedByManifold, read3mf, readStl, unmatchedEdges, volumeOf } from '../writers/solid-read.js';

/** The samples' plates as 3MF and STL, judged by the library manifold (manifold-3d), which refuses a surface that is not closed. */
describe.each(['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml', 'shelf-case.yaml'])(
  'solids of %s',
  (name) => {
    const job = readSample(name);
    const [outcome] = solveJob(job);
    const templates = outcome?.made?.templates ?? [];

    test.each(['3mf', 'stl'] as const)(
      'as %s are closed, whole, and of the volume area × thickness less the grooves',
      async (format) => {
        const files = await makeFiles(job, solveJob(job), { only: ['finger'], as: [format] });
        expect(templates.length).toBeGreaterThan(0);
        for (const { name: written, drawing } of templates.flatMap(writtenAs)) {
          const file = files.find(({ path }) => path.endsWith(`${written}.${format}`));
          const bytes = file?.content as Uint8Array;
          const surface = format === 'stl' ? readStl(bytes) : read3mf(bytes);
          const region = plateOf(drawing);
          expect(unmatchedEdges(surface)).toEqual([]);
          const judged = await judgedByManifold(surface);
          expect(judged).toMatchObject({ status: 'NoError', parts: 1, genus: region.length - 1 });
          const { thickness } = job.shop.plate;
          // Chords take (2/3) · 0.005 mm off arcs at most, and vertices stand on a grid of 1e-4 mm.
          const slack = perimeterOfRegion(region) * (0.005 * (2 / 3) + 1e-4) * thickness;
          // Scores cross, and end short of the plate's edges: their grooves take no more than one by one, and most of that.
          const scores = drawing.items.flatMap((item) =>
            item.kind === 'open' && item.layer === 'SCORE' ? [item.path] : [],
          );
          const most = scores.reduce((sum, path) => sum + perimeter(path) + GROOVES.width, 0);
          const grooves = areaOfRegion(region) * thickness - judged.volume;
          expect(grooves).toBeLessThan(most * GROOVES.width * GROOVES.depth + slack);
          expect(grooves).toBeGreaterThan(0.8 * most * GROOVES.width * GROOVES.depth - slack);
          expect(Math.abs(judged.volume / volumeOf(surface) - 1)).toBeLessThan(1e-5);
        }
      },
    );
  },
);
