import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { linesOf } from '../../src/drawing/drawing.js';
import { containsPoint, extents as outlineExtents } from '../../src/geometry/outline.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import type { Job, Shop } from '../../src/input/types.js';
import type { FingerTemplate } from '../../src/template/finger-template.js';
import { testCut } from '../../src/verify/assemble.js';
import {
  area,
  difference,
  erode,
  evenOdd,
  extents,
  type Polygons,
  type Spot,
} from '../../src/verify/cut/polygons.js';
import { type ReportedJoint, requestOf } from '../../src/verify/files/from-report.js';
import { readDxf } from '../../src/verify/files/read.js';
import { readTemplate } from '../../src/verify/files/read-template.js';
import { loadWriter } from '../../src/writers/list.js';
import { colours } from '../drawing/fixture.js';
import { settled } from '../support/hand-testcut.js';
import { codesOf, readText, solveOnly } from '../support/jobs.js';
import { box, longJob, partsIn, through } from '../support/long-plates.js';
import { makeFiles } from '../support/made.js';

/** A plate longer than the bed: its parts are the plate, each goes on the bed, no seam is felt by the bushing. */

/** What the plate is, as an outside reader finds it in the file of the whole. */
async function wholeOf({ plate, drawing }: FingerTemplate): Promise<Polygons> {
  const writer = await loadWriter('dxf');
  const read = settled(readDxf(plate.name, String(await writer.write(drawing, { colours }))));
  return evenOdd(read.layers.CUT ?? []);
}

/** A bit that touches the wood by less than what the test cut tells apart, or chords make of a round, cuts none; mm. */
const NO_CUT = 0.005;

/**
 * Spots of the plate's edge, dense, that the bushing leans on while the bit is in a board: its middle is half the
 * bushing off the edge, square to it, and less than half the bit from the board.
 */
function guidingSpots({ plate: { sides } }: FingerTemplate, whole: Polygons): readonly Spot[] {
  const bits = bitsOf(whole, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, 0.25);
  return sides.flatMap(({ cut, turned }) => {
    const boards = outlineExtents(...cut.stock.map((one) => one.outline));
    const onSide = ({ x, y }: Spot): Spot => (turned ? { x: turned.x - x, y: turned.y - y } : { x, y });
    return bits.flatMap((bit) => {
      // Half a turn keeps the sheet on the left.
      const [a, b] = [onSide(bit[0]), onSide(bit[1])];
      const off = cut.bushing.outside / 2 / (Math.hypot(b.x - a.x, b.y - a.y) || 1);
      const middle = { x: (a.x + b.x) / 2 + (b.y - a.y) * off, y: (a.y + b.y) / 2 - (b.x - a.x) * off };
      return distanceTo(middle, boards) < cut.bit.diameter / 2 - NO_CUT ? bit : [];
    });
  });
}

const distanceTo = (
  { x, y }: Spot,
  box: { minX: number; minY: number; maxX: number; maxY: number },
): number => Math.hypot(Math.max(box.minX - x, x - box.maxX, 0), Math.max(box.minY - y, y - box.maxY, 0));

/** Straight bits of a ring, none longer than asked, between two x. */
function bitsOf(rings: Polygons, from: number, to: number, longest = 1): readonly (readonly [Spot, Spot])[] {
  return rings.flatMap((ring) =>
    ring.flatMap((a, i): (readonly [Spot, Spot])[] => {
      const b = ring[(i + 1) % ring.length] ?? a;
      if (Math.max(a.x, b.x) < from || Math.min(a.x, b.x) > to) return [];
      const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / longest));
      const at = (t: number): Spot => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
      return Array.from({ length: count }, (_, k) => [at(k / count), at((k + 1) / count)] as const);
    }),
  );
}

function distanceToBit({ x, y }: Spot, [a, b]: readonly [Spot, Spot]): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(a.x + t * dx - x, a.y + t * dy - y);
}

/** Where the edges of two neighbouring parts face one another. */
function seamSpots(left: Polygons, right: Polygons): readonly Spot[] {
  const [from, to] = [extents(right).minX - 1, extents(left).maxX + 1];
  const edge = bitsOf(right, from, to);
  return (
    bitsOf(left, from, to)
      .map(([spot]) => spot)
      // Shoulders touch; a key stands back from its notch by half of 0.1 mm.
      .filter((spot) => edge.some((bit) => distanceToBit(spot, bit) < 0.051))
  );
}

async function checkParts(job: Job, bed: readonly [number, number]): Promise<number> {
  const { templates, written, report } = await partsIn(job);
  let seams = 0;
  for (const template of templates) {
    const { plate, parts } = template;
    const whole = await wholeOf(template);
    const size = extents(whole);
    if (!parts) continue;
    expect(size.maxX - size.minX).toBeGreaterThan(bed[0] - 0.3);
    const guiding = guidingSpots(template, whole);
    expect(guiding.length).toBeGreaterThan(50);
    let before: Polygons | undefined;
    for (const { name, shift, drawing } of parts) {
      const file = written.find((one) => one.name === `${name}.dxf`);
      const cut = evenOdd(settled(readDxf(name, file?.text ?? '')).layers.CUT ?? []);
      const at = extents(cut);
      // With half a kerf all round.
      expect(at.maxX - at.minX).toBeLessThanOrEqual(bed[0] - 0.15);
      expect(at.maxY - at.minY).toBeLessThanOrEqual(bed[1] - 0.15);
      expect(at.minX).toBeCloseTo(size.minX, 4);
      const placed = cut.map((ring) => ring.map(({ x, y }) => ({ x: x + shift, y })));
      if (before) {
        const spots = seamSpots(before, placed);
        // From the near edge or an opening to the far edge, and around the key.
        expect(spots.length).toBeGreaterThan(60);
        const [from, to] = [Math.min(...spots.map(({ x }) => x)), Math.max(...spots.map(({ x }) => x))];
        const beside = guiding.filter(({ x }) => x > from - 5 && x < to + 5);
        for (const { x, y } of spots) {
          for (const edge of beside) {
            const near = Math.hypot(edge.x - x, edge.y - y);
            if (near < 4.99) expect.fail(`${plate.name}: a seam is ${near} mm from ${edge.x}, ${edge.y}`);
          }
        }
        seams += 1;
      }
      before = placed;
      const sheet = regionOf(
        drawing.items.flatMap((one) => (one.layer === 'CUT' && one.kind === 'closed' ? [one.outline] : [])),
      );
      for (const item of drawing.items) {
        if (item.layer !== 'ENGRAVE') continue;
        for (const { from } of linesOf(item).flatMap(({ segments }) => segments)) {
          expect(containsPoint(sheet, from)).toBe(true);
        }
      }
    }
    const cut = report?.cuts.find((one) => one.template === plate.name);
    if (!cut) continue;
    const joined = settled(readTemplate(cut, written)).layers.CUT ?? [];
    expect(Math.abs(area(difference(joined, whole)))).toBeLessThan(0.01);
    // All that is missing is the play around the keys.
    const missing = difference(whole, joined);
    expect(erode(missing, 0.026)).toEqual([]);
    expect(area(missing)).toBeGreaterThan(1);
    const away = erode(missing, 0.01)
      .flat()
      .map(({ x, y }) =>
        guiding.reduce((least, edge) => Math.min(least, Math.hypot(edge.x - x, edge.y - y)), 1e9),
      );
    expect(Math.min(...away)).toBeGreaterThan(4.99);
    expect(area(whole)).toBeGreaterThan(1000);
  }
  return seams;
}

/** The same jobs each time, so that a failure comes back; change it to look elsewhere. */
const SEED = Number(process.env.SEEDX ?? 20261125);
const RUNS = Number(process.env.RUNSX ?? 4);

const long = fc.integer({ min: 450, max: 1000 });
const jobs = fc.oneof(
  fc
    .record({
      width: long,
      tails: fc.integer({ min: 5, max: 12 }),
      spacing: fc.constantFrom('even', 'graduated', 'varied'),
    })
    .map(({ width, tails, spacing }) =>
      through(width, { spacing, tails, pin: 20, ...(spacing === 'varied' && { seed: 7 }) }),
    ),
  fc
    .record({ width: long, tails: fc.integer({ min: 5, max: 10 }) })
    .map(({ width, tails }) => through(width, { spacing: 'even', tails, pin: 20 }, { plate: 'one' })),
  fc
    .record({ width: long, finger: fc.integer({ min: 14, max: 40 }) })
    .map(({ width, finger }) => box(width, finger)),
);

describe('parts of a plate longer than the bed', () => {
  test('joined are the whole plate; each goes on the bed; no seam lies under the bushing', {
    timeout: 90_000,
  }, async () => {
    let seams = 0;
    await fc.assert(
      fc.asyncProperty(jobs, fc.integer({ min: 300, max: 600 }), async (joint, along) => {
        const bed = [along, 280] as const;
        seams += await checkParts(readText(longJob(joint, bed)), bed);
      }),
      { numRuns: RUNS, seed: SEED },
    );
    expect(seams).toBeGreaterThan(RUNS);
  });

  test('run through fingers and openings whose round ends alone come near, without a caution', async () => {
    const job = readText(longJob(box(450, 14), [300, 280]));
    expect(await checkParts(job, [300, 280])).toBe(2);
    expect(codesOf(solveOnly(job))).not.toContain('seam-in-root');
  });

  test.each([
    ['a through dovetail', through(700, { spacing: 'even', tails: 9, pin: 20 })],
    ['both boards on one plate', through(700, { spacing: 'even', tails: 9, pin: 20 }, { plate: 'one' })],
    ['a box joint', box(700, 16)],
  ])('cut %s as the whole plate does', { timeout: 60_000 }, async (_, joint) => {
    const [split, whole] = [
      await partsIn(readText(longJob(joint, [400, 300]))),
      await partsIn(readText(longJob(joint, [2000, 300]))),
    ];
    expect(split.templates.every(({ parts }) => (parts?.length ?? 0) >= 2)).toBe(true);
    expect(whole.templates.every(({ parts }) => parts === undefined)).toBe(true);
    const closed = ({ report, written }: typeof split) =>
      settled(testCut(settled(requestOf(report as ReportedJoint, written))));
    const [one, other] = [closed(split), closed(whole)];
    expect(one.worstGap).toBeCloseTo(other.worstGap, 3);
    expect(one.worstOverlap).toBeCloseTo(other.worstOverlap, 3);
    expect(one.worstOverlap).toBeLessThan(0.005);
  });

  test.each([
    [
      'no finger or opening is wide enough for it',
      { ...box(700, 8.5), bushing: 'nine' },
      [400, 300],
      'plate-no-seam',
    ],
    [
      'the spine is too narrow for a key',
      through(700, { spacing: 'even', tails: 9, pin: 20 }, { spine: 22 }),
      [400, 300],
      'spine-under-key',
    ],
    [
      'the plate is too deep for the bed',
      through(700, { spacing: 'even', tails: 9, pin: 20 }),
      [400, 60],
      'plate-deep-for-bed',
    ],
  ] as const)('are none, and what would do is said, where %s', (_, joint, bed, code) => {
    const outcome = solveOnly(readText(longJob(joint, bed)));
    expect(codesOf(outcome, 'refused')).toContain(code);
    expect(outcome.made).toBeUndefined();
  });

  test('hold the path of what cuts them, each fitting the bed with its tool', async () => {
    const read = readText(longJob(through(700, { spacing: 'even', tails: 9, pin: 20 }), [400, 300]));
    const cnc: Shop['cnc'] = { cutter: 6.35, bed: [400, 300], rpm: 18000, feed: 1500, plunge: 400, pass: 6 };
    const job: Job = {
      ...read,
      shop: { ...read.shop, cnc, plate: { ...read.shop.plate, cutFor: 'cnc' }, bushings: read.shop.bushings },
    };
    const screws = { ...job, joints: job.joints.map((one) => ({ ...one, template: { hole: 8 } })) };
    const outcome = solveOnly(screws);
    expect(codesOf(outcome, 'refused')).toEqual([]);
    const files = await makeFiles(screws, [outcome], { only: ['finger'], as: ['dxf', 'gcode'] });
    const programs = files.filter(({ path }) => path.endsWith('.ngc'));
    expect(programs.map(({ path }) => path)).toContain('long/finger-template-tails-part-1.ngc');
    for (const { content } of programs) {
      const [, x = '', y = ''] = /blank ([\d.]+) mm by ([\d.]+) mm/.exec(String(content)) ?? [];
      expect(Number(x)).toBeLessThanOrEqual(400.01);
      expect(Number(y)).toBeLessThanOrEqual(300);
    }
  });
});
