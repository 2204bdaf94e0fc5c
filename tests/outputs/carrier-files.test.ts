import { describe, expect, test } from 'vitest';
import { replay } from '../../src/cam/program/interpreter.js';
import { extents } from '../../src/geometry/outline.js';
import { solveJob } from '../../src/outputs/joint.js';
import { carrierRows, carrierSteps } from '../../src/template/carrier/list.js';
import { screwsFor } from '../../src/template/carrier/screws.js';
import { area, evenOdd, extents as extentsOfRings, type Polygons } from '../../src/verify/cut/polygons.js';
import { contoursOf } from '../../src/verify/files/chains.js';
import { chainsOfDxf } from '../../src/verify/files/read-dxf.js';
import { chainsOfSvg } from '../../src/verify/files/read-svg.js';
import { settled } from '../support/hand-testcut.js';
import { readText, solveOnly } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { readPdf } from '../writers/pdf-read.js';
import { read3mf, readStl, unmatchedEdges, volumeOf } from '../writers/solid-read.js';

/** Every format that carriers come in, read back: the same parts in each, as wide as the tool that makes them wants. */

const CUTTER = 3;
const KERF = 0.2;
const text = (cutFor: string) => `title: Specimen cabinet
units: mm
shop:
  units: mm
  bits:
    tail: { kind: dovetail, diameter: 12.7, angle: 8, height: 20 }
    plain: { kind: straight, diameter: 8, height: 25 }
  bushings: { guide: { outside: 11.1 } }
  plate: { material: plywood, thickness: 12, least-finger: 3, sheet: [900, 600]${cutFor} }
  laser: { kerf: ${KERF}, speed: 600, power: 300 }
  cnc: { cutter: ${CUTTER}, rpm: 18000, feed: 1500, plunge: 400, pass: 3 }
  printer: { paper: a4 }
joints:
  corner:
    kind: through-dovetail
    width: 90
    boards: { tails: { thickness: 12 }, pins: { thickness: 14 } }
    layout: { tails: 2 }
    cutters: { tails: tail, pins: plain }
    bushing: guide
`;

const machines = [
  ['nominal', '', 0],
  ['laser', ', cut-for: laser', KERF],
  ['cnc', ', cut-for: cnc', CUTTER],
] as const;

async function madeFor(cutFor: string) {
  const job = readText(text(cutFor));
  const outcomes = solveJob(job);
  const files = await makeFiles(job, outcomes, {
    only: ['carrier', 'nest'],
    as: ['svg', 'dxf', 'pdf', 'gcode', '3mf', 'stl'],
  });
  const contentOf = (name: string): string | Uint8Array =>
    files.find(({ path }) => path === name)?.content ?? '';
  const [carrier] = outcomes.flatMap(({ made }) => made?.templates.flatMap((one) => one.carrier ?? []) ?? []);
  if (!carrier) throw new Error('no carrier');
  return { job, carrier, contentOf, paths: files.map(({ path }) => path) };
}

const cutOf = (chains: ReturnType<typeof chainsOfDxf>): Polygons =>
  contoursOf(settled(chains).filter(({ layer }) => layer === 'CUT')).closed;

describe.each(machines)('carriers for %s', (_, cutFor, tool) => {
  test('are the same in SVG, DXF, PDF, programs and solids, and lie on sheets', async () => {
    const { job, carrier, contentOf, paths } = await madeFor(cutFor);
    const dxf = cutOf(chainsOfDxf('c.dxf', `${contentOf('corner/carrier-tails.dxf')}`));
    const svg = cutOf(chainsOfSvg('c.svg', `${contentOf('corner/carrier-tails.svg')}`));
    const sheet = (rings: Polygons): number => area(evenOdd(rings));
    const size = (rings: Polygons): readonly number[] => {
      const { minX, maxX, minY, maxY } = extentsOfRings(rings);
      return [maxX - minX, maxY - minY];
    };
    const pieces = carrier.parts.flatMap(({ layers, holes }) =>
      layers.map(({ outline, copies }) => ({ box: extents(outline), copies, holes: holes.length })),
    );
    const count = pieces.reduce((sum, { copies, holes }) => sum + copies * (1 + holes), 0);
    expect(dxf).toHaveLength(count);
    expect(svg).toHaveLength(count);
    expect(sheet(svg)).toBeCloseTo(sheet(dxf), 0);
    // The tool runs half of its width outside of pieces and inside of holes.
    const grown = pieces.reduce((sum, { box, copies, holes }) => {
      const [w, h] = [box.maxX - box.minX, box.maxY - box.minY];
      const corners = (4 - Math.PI) * (tool / 2) ** 2;
      const hole = Math.PI * ((carrier.screws.hole - tool) / 2) ** 2;
      return sum + copies * ((w + tool) * (h + tool) - corners - holes * hole);
    }, 0);
    expect(sheet(dxf) / grown).toBeCloseTo(1, 4);

    const { pages } = await readPdf(contentOf('corner/carrier-tails.pdf') as Uint8Array);
    const colour = (job.shop.colours as Readonly<Record<string, string>>).CUT?.toLowerCase();
    expect(pages.flatMap(({ strokes }) => strokes).some((one) => one.colour === colour)).toBe(true);

    const programs = paths.filter((path) => path.startsWith('corner/carrier-tails') && path.endsWith('.ngc'));
    expect(programs.length).toBeGreaterThan(0);
    const motions = programs.flatMap((path) => {
      const { faults, ended, motions: all } = replay(`${contentOf(path)}`);
      expect([faults, ended]).toEqual([[], true]);
      return all.filter(({ rapid, speed }) => !rapid && speed > 0);
    });
    const xs = motions.flatMap(({ to: { x } }) => (x === undefined ? [] : [x]));
    const programTool = tool === 0 ? CUTTER : tool;
    const [width = 0] = size(dxf);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(width - tool + programTool, 1);

    const volume =
      12 *
      pieces.reduce(
        (sum, { box, copies, holes }) =>
          sum +
          copies *
            ((box.maxX - box.minX) * (box.maxY - box.minY) -
              holes * Math.PI * (carrier.screws.hole / 2) ** 2),
        0,
      );
    for (const surface of [
      read3mf(contentOf('corner/carrier-tails.3mf') as Uint8Array),
      readStl(contentOf('corner/carrier-tails.stl') as Uint8Array),
    ]) {
      expect(unmatchedEdges(surface)).toEqual([]);
      expect(volumeOf(surface) / volume).toBeCloseTo(1, 3);
    }

    const nest = JSON.parse(`${contentOf('nest.json')}`) as {
      sheets: readonly { plates: readonly { template: string; copy: number }[] }[];
    };
    const laid = nest.sheets.flatMap(({ plates }) => plates.map(({ template }) => template));
    expect(laid.filter((name) => name === 'carrier-tails-fence')).toHaveLength(
      carrier.parts.find(({ role }) => role === 'fence')?.layers[0]?.copies ?? 0,
    );
    expect(laid).toContain('carrier-pins-left-stop');
    expect(laid).toContain('finger-template-tails');
  }, 120_000);
});

test('without carriers asked for by name sheets hold the plates alone', async () => {
  const job = readText(text(''));
  const files = await makeFiles(job, solveJob(job), { only: ['nest'], as: ['svg'] });
  const nest = `${files.find(({ path }) => path === 'nest.json')?.content}`;
  expect(nest).toContain('finger-template-tails');
  expect(nest).not.toContain('carrier');
});

describe('screws for a hole', () => {
  // Shanks by ISO 965-2, class 6g, and ASME B1.1, class 2A: the largest that pass.
  test.each([
    [5, ['M5', 'No. 10']],
    [6.35, ['M6', '1/4 in']],
    [4, ['M4', 'No. 6']],
    [3, ['M3', 'No. 4']],
    [2, []],
  ])('of %s mm', (hole, names) => {
    const { fitting } = screwsFor(hole);
    expect(fitting.map(({ name }) => name)).toEqual(names);
    for (const { play, head } of fitting) {
      expect(play).toBeGreaterThan(0);
      expect(play).toBeLessThan(1);
      expect(head).toBeGreaterThan(hole);
    }
  });
});

test('the list tells each piece with its size, its holes from the plate’s edges, and what a screw goes through', () => {
  const [template] = solveOnly(readText(text(''))).made?.templates ?? [];
  const carrier = template?.carrier;
  if (!carrier) throw new Error('no carrier');
  const box = extents(template.plate.outline);
  const rows = carrierRows(carrier, [box]);
  const fence = rows.find(({ role }) => role === 'fence');
  // Three layers of 12 mm are 14 mm of cut and 22 mm below it, and one plate over them.
  expect(fence).toMatchObject({
    pieces: [{ width: box.maxX - box.minX, copies: 4 }],
    grip: 60,
    scrap: { depth: 14, layers: 2 },
  });
  expect(fence?.holes.map(({ fromEnd }) => fromEnd)).toEqual(
    template.plate.screws.map(({ x }) => x - box.minX),
  );
  const stop = rows.find(({ name }) => name === 'left stop');
  expect(stop?.pieces).toMatchObject([{ clear: true, copies: 2 }, { copies: 1 }]);
  expect(stop?.grip).toBe(48);
  expect(carrierSteps(carrier).map((one) => [one.do, one.part])).toEqual([
    ['cut', undefined],
    ['sink', undefined],
    ['fasten', 'fence'],
    ['fasten', 'left stop'],
    ['fasten', 'right stop'],
  ]);
});
