import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nest, type PlacedPlate, type SheetSize, usedShare } from '../../src/cam/nest/nest.js';
import { segmentOf } from '../../src/cam/program/backplot.js';
import { replay } from '../../src/cam/program/interpreter.js';
import { extents } from '../../src/geometry/outline.js';
import type { Job, PlateStock, Shop } from '../../src/input/types.js';
import type { Asked } from '../../src/outputs/ask.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample } from '../support/jobs.js';
import { judgeFiles, makeFiles } from '../support/made.js';
import { contoursOn } from '../support/read-plate.js';

/** Plates on sheets: none nearer to another than was asked for, none off the sheet, none forgotten. */

const size = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);
const plate = fc.record({
  name: fc.constant('plate'),
  width: size(20, 900),
  height: size(20, 300),
  copies: fc.integer({ min: 1, max: 5 }),
});
const sheet = fc.record({
  width: size(400, 1300),
  height: size(200, 1300),
  edge: fc.constantFrom(0, 5, 10),
  spacing: fc.constantFrom(0, 3, 8.5),
});

/** How far two rectangles lie apart along the axis that parts them most; below 0 they overlap. */
const apart = (a: PlacedPlate, b: PlacedPlate): number =>
  Math.max(a.x - (b.x + b.width), b.x - (a.x + a.width), a.y - (b.y + b.height), b.y - (a.y + a.height));

describe('a nest', () => {
  test('keeps the spacing and the edge, holds every copy once, and is always the same', () => {
    let pairs = 0;
    let turned = 0;
    fc.assert(
      fc.property(fc.array(plate, { minLength: 1, maxLength: 12 }), sheet, (plates, on) => {
        const { sheets, tooLarge } = nest(plates, on);
        for (const placed of sheets) {
          expect(placed.length).toBeGreaterThan(0);
          for (const [i, one] of placed.entries()) {
            const { width, height } = plates[one.plate] ?? { width: 0, height: 0 };
            expect([one.width, one.height]).toEqual(one.turned ? [height, width] : [width, height]);
            turned += one.turned ? 1 : 0;
            expect(Math.min(one.x, one.y)).toBeGreaterThanOrEqual(on.edge - 1e-5);
            expect(on.width - one.x - one.width).toBeGreaterThanOrEqual(on.edge - 1e-5);
            expect(on.height - one.y - one.height).toBeGreaterThanOrEqual(on.edge - 1e-5);
            for (const other of placed.slice(i + 1)) {
              expect(apart(one, other)).toBeGreaterThanOrEqual(on.spacing - 1e-5);
              pairs += 1;
            }
          }
        }
        const wanted = plates.flatMap(({ copies }, i) =>
          tooLarge.includes(i) ? [] : Array.from({ length: copies }, (_, copy) => `${i} ${copy + 1}`),
        );
        expect(
          sheets
            .flat()
            .map((one) => `${one.plate} ${one.copy}`)
            .sort(),
        ).toEqual(wanted.sort());
        // A plate is left out only where neither way round goes inside the edges.
        for (const i of tooLarge) {
          const { width = 0, height = 0 } = plates[i] ?? {};
          const [w, h] = [on.width - 2 * on.edge, on.height - 2 * on.edge];
          expect(width <= w && height <= h).toBe(false);
          expect(height <= w && width <= h).toBe(false);
        }
        expect(nest(plates, on)).toEqual({ sheets, tooLarge });
      }),
      { numRuns: 300 },
    );
    expect(pairs).toBeGreaterThan(1000);
    expect(turned).toBeGreaterThan(50);
  });

  test('fills a sheet that plates fill exactly: four of 600 by 300 on 1206 by 606 with 6 between them', () => {
    const on: SheetSize = { width: 1206, height: 606, edge: 0, spacing: 6 };
    const { sheets } = nest([{ name: 'a', width: 300, height: 600, copies: 4 }], on);
    expect(sheets).toHaveLength(1);
    expect(usedShare([600 * 300, 600 * 300, 600 * 300, 600 * 300], on)).toBeCloseTo(
      720_000 / (1206 * 606),
      12,
    );
  });
});

const tray = readSample('small-tray.yaml');
const sheetOf = (more: Partial<PlateStock>, machines: Partial<Shop> = {}, copies = 2): Job => ({
  ...tray,
  shop: { ...tray.shop, ...machines, plate: { ...tray.shop.plate, ...more } },
  joints: tray.joints.map((joint) => ({ ...joint, template: { ...joint.template, copies } })),
});
const made = (job: Job, options: Asked) => makeFiles(job, solveJob(job), { only: ['nest'], ...options });
const judged = (job: Job, options: Asked = {}) =>
  judgeFiles(job, solveJob(job), { only: ['nest'], ...options });

const boxOf = (points: readonly { readonly x: number; readonly y: number }[]) => ({
  minX: Math.min(...points.map(({ x }) => x)),
  minY: Math.min(...points.map(({ y }) => y)),
  maxX: Math.max(...points.map(({ x }) => x)),
  maxY: Math.max(...points.map(({ y }) => y)),
});

interface NestReport {
  readonly sheets: readonly {
    readonly name: string;
    readonly used: number;
    readonly plates: readonly unknown[];
  }[];
}

describe('nest files', () => {
  test('hold each plate as often as was asked for, inside the edge, and say the share in use', async () => {
    const job = sheetOf({ sheet: [800, 400], spacing: 7, edge: 12 });
    const files = await made(job, { as: ['dxf', 'svg', 'pdf'] });
    const names = files.map(({ path }) => path);
    expect(names).toEqual(expect.arrayContaining(['nest-1.dxf', 'nest-1.svg', 'nest-1.pdf', 'nest.json']));
    const templates = solveJob(job).flatMap((one) => one.made?.templates ?? []);
    const cuts = files
      .filter(({ path }) => path.endsWith('.dxf'))
      .map(({ content }) => contoursOn(String(content), 'CUT'));
    const each = templates.reduce((sum, { plate }) => sum + 1 + plate.holes.length, 0);
    expect(cuts.flat()).toHaveLength(2 * each);
    for (const { x, y } of cuts.flat(2)) {
      expect(Math.min(x, 800 - x, y, 400 - y)).toBeGreaterThanOrEqual(12 - 1e-5);
    }
    const report = JSON.parse(String(files.find(({ path }) => path === 'nest.json')?.content)) as NestReport;
    expect(report.sheets.flatMap(({ plates }) => plates)).toHaveLength(2 * templates.length);
    const diagnostics = await judged(job);
    expect(diagnostics.map(({ code, data }) => [code, (data as { used: number }).used.toFixed(6)])).toEqual(
      report.sheets.map(({ used }) => ['nest-used', used.toFixed(6)]),
    );
    expect(report.sheets.every(({ used }) => used > 0.1 && used < 1)).toBe(true);
  });

  test('are not written unless asked for', async () => {
    const files = await makeFiles(tray, solveJob(tray), { as: ['svg'] });
    expect(files.filter(({ path }) => path.startsWith('nest'))).toEqual([]);
  });

  test('are programs that replay without a fault, on as much of the sheet as goes on the bed', async () => {
    const cnc = { cutter: 3.175, rpm: 18000, feed: 1500, plunge: 400, pass: 6, bed: [500, 400] as const };
    const job = sheetOf({ sheet: [800, 400], cutFor: 'cnc' }, { cnc });
    const files = await made(job, { as: ['gcode', 'dxf'] });
    expect(files.filter(({ path }) => /^nest-\d+\.ngc$/.test(path)).length).toBeGreaterThan(0);
    for (const { path, content } of files) {
      if (!path.endsWith('.dxf')) continue;
      for (const { x } of contoursOn(String(content), 'CUT').flat()) expect(x).toBeLessThan(500);
    }
    const codes = (await judged(job, { as: ['gcode'] })).map(({ code }) => code);
    expect(codes).toContain('nest-sheet-cut-down');
    expect(codes).not.toContain('program-over-bed');
  });

  const mill = { cutter: 3.175, rpm: 18000, feed: 1500, plunge: 400, pass: 6, tabs: { count: 0 } };
  const beam = { kerf: 0.2, speed: 600, power: 300 };
  test.each([
    ['nominal plates, milled', {}, { cnc: mill }, 3.175 / 2],
    ['plates for a router table', { cutFor: 'cnc' }, { cnc: mill }, 0],
    ['plates for a laser', { cutFor: 'laser' }, { laser: beam }, 0],
  ] as const)(
    'of %s: drawing, program and backplot have one zero, the corner of the sheet',
    async (_, more, machines, step) => {
      const job = sheetOf({ sheet: [800, 400], edge: 17, ...more }, machines);
      const files = await made(job, { as: ['gcode', 'dxf', 'svg'] });
      const text = (ending: string) => String(files.find(({ path }) => path === `nest-1${ending}`)?.content);
      const drawn = boxOf(contoursOn(text('.dxf'), 'CUT').flat());
      const { motions, faults } = replay(text('.ngc'));
      expect(faults).toEqual([]);
      const cut = motions.flatMap((motion) => (motion.rapid ? [] : (segmentOf(motion) ?? [])));
      const program = extents({ closed: false, segments: cut });
      for (const [one, other, by] of [
        [program.minX, drawn.minX, -step],
        [program.minY, drawn.minY, -step],
        [program.maxX, drawn.maxX, step],
        [program.maxY, drawn.maxY, step],
      ] as const) {
        expect(Math.abs(one - other - by)).toBeLessThan(2e-4);
      }
      const tool = 'cnc' in machines ? mill.cutter : beam.kerf;
      expect(program.minX + tool / 2).toBeCloseTo(17, 3);
      expect(program.minY + tool / 2).toBeCloseTo(17, 3);
      // The drawing is as large as the sheet, and so is the blank of the backplot.
      const [, ...sizes] =
        /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="(\S+ \S+)/.exec(text('.svg')) ?? [];
      expect(sizes).toEqual(['800', '400', '0 -400']);
      const backplot = text('-backplot.svg');
      const edges = [...backplot.matchAll(/M0 0L800 0L800 -400L0 -400Z/g)];
      expect(edges).toHaveLength(1);
    },
  );

  test('are refused without a sheet, with no room for the tool between plates, for a plate larger than the sheet', async () => {
    const { sheet: _, ...plain } = tray.shop.plate;
    const unsized = { ...tray, shop: { ...tray.shop, plate: plain } };
    expect(await judged(unsized)).toMatchObject([{ code: 'nest-no-sheet', level: 'refused' }]);
    const tight = sheetOf({ sheet: [800, 400], spacing: 3, cutFor: 'cnc' }, { cnc: { cutter: 3.175 } });
    expect(await judged(tight)).toMatchObject([{ code: 'nest-spacing', data: { spacing: 3, tool: 3.175 } }]);
    const narrow = sheetOf({ sheet: [800, 400], edge: 1, cutFor: 'cnc' }, { cnc: { cutter: 3.175 } });
    expect(await judged(narrow)).toMatchObject([{ code: 'nest-edge', data: { edge: 1, least: 1.5875 } }]);
    const small = await judged(sheetOf({ sheet: [150, 100] }));
    expect(new Set(small.map(({ code }) => code))).toEqual(new Set(['nest-plate-over-sheet']));
  });
});
