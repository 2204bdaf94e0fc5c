import { describe, expect, test } from 'vitest';
import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import { movedDrawing } from '../../src/drawing/drawing.js';
import type { Drawing } from '../../src/drawing/model.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { asCut } from '../../src/verify/cut/as-cut.js';
import {
  area,
  difference,
  dilate,
  erode,
  evenOdd,
  extents,
  intersection,
  type Polygons,
  rectangle,
  shifted,
  union,
  widest,
} from '../../src/verify/cut/polygons.js';
import { readDxf } from '../../src/verify/files/read.js';
import { loadWriter } from '../../src/writers/list.js';
import { colours } from '../drawing/fixture.js';
import { settled } from '../support/hand-testcut.js';
import { codesOf, readText } from '../support/jobs.js';
import { box, longJob, partsIn, through, together } from '../support/long-plates.js';
import { makeFiles, proveJob } from '../support/made.js';

/** Parts as they come off the machine: keys fit their notches as asked, and the joined plate proves the joint. */

const BED = [400, 300] as const;
const dovetails = through(700, { spacing: 'even', tails: 9, pin: 20 });
const cnc = { cutter: 6.35, bed: BED };
const laser = { kerf: 0.15 };
const ways = {
  nominal: { width: 0, shop: {} },
  laser: { width: 0.2, shop: { laser: { kerf: 0.2, bed: BED }, plate: { 'cut-for': 'laser' } } },
  cnc: { width: 6.35, shop: { cnc, laser, plate: { 'cut-for': 'cnc' } } },
};

/** The parts of a template as they come off the machine, where they lie on the whole plate. */
async function cutParts(text: string, width: number) {
  const made = await partsIn(readText(text));
  const [template] = made.templates;
  if (!template?.parts) throw new Error(`no parts: ${codesOf(made.outcome).join(', ')}`);
  const parts = template.parts.map(({ name, shift }): Polygons => {
    const file = made.written.find((one) => one.name === `${name}.dxf`);
    const cut = asCut(settled(readDxf(name, file?.text ?? '')), width);
    return shifted(evenOdd(cut.layers.CUT ?? []), shift, 0);
  });
  return { ...made, parts, plate: template.plate };
}

describe('a key in its notch', () => {
  test.each(
    (['nominal', 'laser', 'cnc'] as const).flatMap((way) =>
      (way === 'nominal' ? [0, 0.3] : [0, 0.1]).map((clearance) => ({ way, clearance })),
    ),
  )('has its clearance of $clearance mm as cut from a file for $way', async ({ way, clearance }) => {
    const { width, shop } = ways[way];
    const plate = { 'key-clearance': clearance, ...('plate' in shop ? shop.plate : {}) };
    const text = longJob({ ...dovetails, template: { hole: 8 } }, BED, { ...shop, plate });
    const { parts, outcome } = await cutParts(text, width);
    expect(codesOf(outcome, 'refused')).toEqual([]);
    const [left, right] = parts;
    if (!left || !right) throw new Error('one part only');
    expect(parts.length).toBeGreaterThanOrEqual(2);
    // The parts never want the same room, and between shoulders there is none.
    expect(widest(intersection(left, right)).width).toBeLessThan(0.002);
    const reach = { from: extents(right).minX, to: extents(left).maxX };
    expect(reach.to - reach.from).toBeGreaterThan(9);
    const { minY, maxY } = extents([...left, ...right]);
    const band = [rectangle({ minX: reach.from - 1, maxX: reach.to + 1, minY: (minY + maxY) / 2, maxY })];
    const joined = union(left, right);
    const gap = intersection(difference(erode(dilate(joined, 1), 1), joined), band);
    // Half of the clearance along each flank and at the end, all round the key and no wider anywhere.
    expect(widest(gap).width).toBeCloseTo(clearance / 2, 2);
    const flanksAndEnd = 2 * 10 + 16;
    if (clearance > 0) {
      expect(area(gap)).toBeGreaterThan((clearance / 2) * flanksAndEnd * 0.8);
      expect(area(gap)).toBeLessThan((clearance / 2) * flanksAndEnd * 1.3);
    } else expect(area(gap)).toBeLessThan(0.02);
  });

  test('has corners that the mill gets into: what it cuts is the nominal part, to the hair', async () => {
    const template = { hole: 8 };
    const whole = await cutParts(longJob({ ...dovetails, template }, BED, { cnc, laser }), 0);
    const milled = await cutParts(
      longJob({ ...dovetails, template }, BED, { cnc, laser, plate: { 'cut-for': 'cnc' } }),
      cnc.cutter,
    );
    expect(codesOf(milled.outcome)).not.toContain('corner-under-mill');
    for (const [i, part] of milled.parts.entries()) {
      const wanted = whole.parts[i] ?? [];
      // Nothing wider than 0.003 mm is left of either.
      expect(erode(difference(part, wanted), 0.0015)).toEqual([]);
      expect(erode(difference(wanted, part), 0.0015)).toEqual([]);
      expect(area(part)).toBeGreaterThan(5000);
    }
    expect(milled.parts.length).toBeGreaterThanOrEqual(2);
  });
});

describe('the test cut of a plate in parts', () => {
  test.each([
    ['a through dovetail', dovetails, {}],
    ['a through dovetail cut by laser', dovetails, ways.laser.shop],
    ['a box joint cut by laser', box(700, 16), ways.laser.shop],
    [
      'both boards on one plate',
      through(700, { spacing: 'even', tails: 9, pin: 20 }, { plate: 'one' }),
      ways.laser.shop,
    ],
  ])('closes the joint from the parts of %s', async (_, joint, shop) => {
    const job = readText(longJob(joint, BED, shop));
    const [proved] = await proveJob(job, solveJob(job));
    expect(proved?.diagnostics.filter(({ level }) => level === 'refused')).toEqual([]);
    expect(proved?.made?.report.cuts.every(({ parts }) => (parts?.length ?? 0) >= 2)).toBe(true);
    expect(proved?.made?.report.testcut?.worstOverlap).toBeLessThan(0.005);
    expect(proved?.made?.report.testcut?.worstGap).toBeLessThan(0.005);
  });

  test('names the part whose file is missing', async () => {
    const job = readText(longJob(dovetails, BED));
    const { written } = await partsIn(job);
    const some = written.filter(({ name }) => name !== 'finger-template-pins-part-2.dxf');
    const [cut] = await testCutJob(job, solveJob(job), { written: () => some });
    expect(cut?.diagnostics).toMatchObject([
      { code: 'template-missing', data: { template: 'finger-template-pins-part-2' } },
    ]);
  });

  /** What the test cut says when the last part of every template lies off by so much, with its boards or without. */
  async function shiftedBy(dx: number, dy: number, clearance: number, boardsToo: boolean) {
    const job = readText(longJob(dovetails, BED, { plate: { 'key-clearance': clearance } }));
    const outcomes = solveJob(job);
    const files = (await makeFiles(job, outcomes, { only: ['finger'], as: ['dxf'] })).map(
      ({ path, content }) => ({
        name: path.replace('long/', ''),
        text: String(content),
      }),
    );
    const { write } = await loadWriter('dxf');
    const drawings = outcomes
      .flatMap(({ made }) => made?.templates ?? [])
      .flatMap(({ parts = [] }) => parts.slice(-1));
    const off = await Promise.all(
      drawings.map(async ({ name, drawing }) => ({
        name: `${name}.dxf`,
        text: String(await write(put(drawing, dx, dy, boardsToo), { colours })),
      })),
    );
    const written = files.map((file) => off.find(({ name }) => name === file.name) ?? file);
    const [cut] = await testCutJob(job, outcomes, { written: () => written });
    return cut?.diagnostics ?? [];
  }

  function put(drawing: Drawing, dx: number, dy: number, boardsToo: boolean): Drawing {
    const all = movedDrawing(drawing, dx, dy);
    const stock = drawing.items.filter(({ layer }) => layer === 'STOCK');
    return boardsToo
      ? all
      : { ...all, items: [...all.items.filter(({ layer }) => layer !== 'STOCK'), ...stock] };
  }

  test.each([
    ['0.3 mm along the seam', 0, 0.3, 0.1, ['parts-clash']],
    ['0.3 mm the other way', 0, -0.3, 0.1, ['parts-clash']],
    ['0.3 mm along a seam whose key has all the play there is', 0, 0.3, 1, ['wall-off']],
    ['0.3 mm out of the seam', 0.3, 0, 0.1, ['parts-apart']],
    ['0.3 mm into the seam', -0.3, 0, 0.1, ['parts-clash']],
  ] as const)('catches a part that lies off by %s', async (_, dx, dy, clearance, codes) => {
    const diagnostics = await shiftedBy(dx, dy, clearance, false);
    expect(hasErrors(diagnostics)).toBe(true);
    expect(codes.some((code) => diagnostics.some((one) => one.code === code))).toBe(true);
    expect(hasErrors(await shiftedBy(dx, dy, clearance, true))).toBe(true);
    expect(hasErrors(await shiftedBy(0, 0, clearance, false))).toBe(false);
  });
});

describe('a template for both boards of a half-blind joint', () => {
  test('is parted in the middle of openings, whole fingers on both sides, closed again when joined', async () => {
    const { parts, outcome } = await cutParts(longJob(together(700), BED), 0);
    expect(codesOf(outcome, 'caution')).toContain('seam-in-root');
    expect(parts.length).toBeGreaterThanOrEqual(2);
    const wholeArea = area(union(parts.flat()));
    for (const [i, part] of parts.slice(1).entries()) {
      const left = parts[i] ?? [];
      const x = extents(part).minX;
      // Between both boards, where fingers are straight and stand close, no sheet is within 5 mm of the seam.
      const near = [rectangle({ minX: x - 4.99, maxX: x + 4.99, minY: -2, maxY: 2 })];
      const wide = [rectangle({ minX: x - 10, maxX: x + 10, minY: -2, maxY: 2 })];
      expect(area(intersection(left, near)) + area(intersection(part, near))).toBe(0);
      expect(area(intersection(left, wide))).toBeGreaterThan(4);
      expect(area(intersection(part, wide))).toBeGreaterThan(4);
    }
    // One plate again: a hair closes the lines between the shoulders.
    const joined = erode(dilate(union(parts.flat()), 0.002), 0.002);
    const outer = joined.filter((ring) => area([ring]) > 5000);
    expect(outer).toHaveLength(1);
    expect(Math.abs(area(joined) - wholeArea)).toBeLessThan(0.5);
  });
});
