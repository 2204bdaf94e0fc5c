import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circle, outline, perimeter, polygon, rectangle, reversed } from '../../src/geometry/outline.js';
import { withoutShortPieces } from '../../src/geometry/regions/short-pieces.js';
import { distanceToSegment, lengthOf, line, pointAt } from '../../src/geometry/segment.js';
import { SHORTEST_CUT } from '../../src/geometry/tolerance.js';
import type { Outline, Region } from '../../src/geometry/types.js';
import { readJob } from '../../src/input/read-job.js';
import type { Job } from '../../src/input/types.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { edgeJobs } from '../support/edge-jobs.js';
import { readSample, root } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { apartJobs, squareJobs, togetherJobs } from '../support/random-half-blind.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';
import { contoursOn } from '../support/read-plate.js';

/** The machines that plates are cut for: none in particular, lasers, and router tables with the usual cutters. */
const machines = [
  {},
  ...[0.15, 0.2].map((kerf) => ({ cutFor: 'laser' as const, kerf })),
  ...[2, 3, 3.175, 4.7625, 6, 6.35].flatMap((cutter) =>
    (['none', 'corner', 'edge'] as const).map((relief) => ({ cutFor: 'cnc' as const, cutter, relief })),
  ),
];

function madeFor(job: Job, machine: (typeof machines)[number]): Job {
  const { cutFor, kerf, cutter, relief } = { kerf: 0.1, cutter: 3, relief: 'none' as const, ...machine } as {
    readonly cutFor?: 'laser' | 'cnc';
    readonly kerf: number;
    readonly cutter: number;
    readonly relief: 'none' | 'corner' | 'edge';
  };
  const plate = { ...job.shop.plate, sheet: [2600, 1300] as const, ...(cutFor && { cutFor }) };
  return { ...job, shop: { ...job.shop, plate, laser: { kerf }, cnc: { cutter, relief } } };
}

/** Lengths of every piece of every CUT contour of a job's DXF files, read by dxf-parser. */
async function lengthsOf(job: Job): Promise<readonly number[]> {
  const files = await makeFiles(job, solveJob(job), { only: ['finger', 'marker', 'nest'], as: ['dxf'] });
  return files
    .filter(({ path }) => path.endsWith('.dxf'))
    .flatMap(({ content }) => contoursOn(`${content}`, 'CUT'))
    .flatMap((vertices) =>
      vertices.map(({ x, y, bulge }, i) => {
        const to = vertices[(i + 1) % vertices.length] ?? { x, y };
        const chord = Math.hypot(to.x - x, to.y - y);
        // An included angle of 4 atan(bulge); chord = 2 r sin(angle / 2).
        const half = 2 * Math.atan(Math.abs(bulge));
        return half === 0 ? chord : (chord / Math.sin(half)) * half;
      }),
    );
}

const samples = readdirSync(join(root, 'samples')).filter(
  (name) => name.endsWith('.yaml') && !name.startsWith('shop') && !name.startsWith('refused'),
);
const kinds = { throughDovetailJobs, boxJobs, togetherJobs, apartJobs, squareJobs, edgeJobs };

// Six decimals in the file.
const LEAST = SHORTEST_CUT - 1e-5;

describe('no piece of what is cut is shorter than 0.01 mm', () => {
  test.each(samples)('in %s, for any machine', { timeout: 120_000 }, async (sample) => {
    const job = readSample(sample);
    // The large ones for a few machines, each its own.
    const some = machines.filter((_, i) => i % (job.joints.length === 1 ? 3 : 10) === 0);
    for (const machine of some) {
      const lengths = await lengthsOf(madeFor(job, machine));
      for (const one of lengths) expect(one, JSON.stringify(machine)).toBeGreaterThan(LEAST);
    }
  });

  test.each(Object.entries(kinds))('in random jobs: %s', { timeout: 120_000 }, async (_, jobs) => {
    let pieces = 0;
    for (const [i, text] of fc.sample(jobs, { numRuns: 7, seed: 42 }).entries()) {
      const { result } = readJob({ name: 'random.yaml', text }, families, () => undefined);
      if (!result.ok) continue;
      for (const machine of machines.filter((__, k) => k % 7 === i)) {
        const lengths = await lengthsOf(madeFor(result.value, machine));
        for (const one of lengths) expect(one, `${JSON.stringify(machine)}\n${text}`).toBeGreaterThan(LEAST);
        pieces += lengths.length;
      }
    }
    expect(pieces).toBeGreaterThan(100);
  });
});

/** How far one outline lies from another at its farthest, taken at places along each piece. */
function apart(one: Region, other: Region): number {
  const pieces = other.flatMap(({ segments }) => segments);
  return Math.max(
    ...one
      .flatMap(({ segments }) => segments)
      .flatMap((piece) => [0, 0.25, 0.5, 0.75].map((t) => pointAt(piece, t)))
      .map((p) => Math.min(...pieces.map((piece) => distanceToSegment(p, piece)))),
  );
}

describe('an outline without its short pieces', () => {
  const short = ({ segments }: Outline): boolean => segments.some((one) => lengthOf(one) < SHORTEST_CUT);

  test('is the same outline where none is short', () => {
    const whole = [rectangle(0, 0, 10, 10), reversed(circle({ x: 5, y: 5 }, 1))];
    expect(withoutShortPieces(whole)).toEqual(whole);
  });

  test('stays where it was: corners cut off by a hair are sharp again, curves run on', () => {
    const chamfer = fc.double({ min: 1e-6, max: 0.006, noNaN: true });
    fc.assert(
      fc.property(chamfer, chamfer, fc.double({ min: 2, max: 50, noNaN: true }), (a, b, r) => {
        const cut = polygon([
          { x: 0, y: 0 },
          { x: 40 - a, y: 0 },
          { x: 40, y: b },
          { x: 40, y: 30 },
          { x: 0, y: 30 },
        ]);
        const round = circle({ x: 0, y: 0 }, r);
        const [first, second] = round.segments;
        if (first?.kind !== 'arc' || second?.kind !== 'arc') throw new Error('a circle has two halves');
        const angle = a / r;
        const on = { x: r * Math.cos(angle), y: r * Math.sin(angle) };
        const parted = outline(
          [{ ...first, to: first.to }, { ...second }, { ...first, to: on }, { ...first, from: on }].slice(1),
        );
        for (const one of [cut, parted]) {
          const [made, ...more] = withoutShortPieces([one]);
          expect(more).toEqual([]);
          expect(made && short(made)).toBe(false);
          expect(apart(made ? [made] : [], [one])).toBeLessThan(0.005);
          expect(apart([one], made ? [made] : [])).toBeLessThan(0.005);
        }
        expect(withoutShortPieces([cut])[0]?.segments).toHaveLength(4);
      }),
    );
  });

  test.each([
    ['a hole as wide as its mill', circle({ x: 3, y: 4 }, 1e-6)],
    ['a gap as wide as its mill', rectangle(0, 0, 30, 2e-6)],
    ['a hole', reversed(circle({ x: 3, y: 4 }, 1e-6))],
  ])('is a path of some width for %s', (_, thin) => {
    const made = withoutShortPieces([thin]);
    expect(made).toHaveLength(1);
    expect(made.some(short)).toBe(false);
    expect(apart(made, [thin])).toBeLessThan(0.0034);
    expect(made.map(perimeter)[0]).toBeGreaterThan(0.02);
  });

  test('a run of many becomes a few long ones', () => {
    const chords = Array.from({ length: 400 }, (_, i) => ({
      x: Math.cos((i * Math.PI) / 200) / 2,
      y: Math.sin((i * Math.PI) / 200) / 2,
    }));
    const [made] = withoutShortPieces([
      outline(chords.map((from, i) => line(from, chords[(i + 1) % 400] ?? from))),
    ]);
    expect(made && short(made)).toBe(false);
    expect(apart(made ? [made] : [], [circle({ x: 0, y: 0 }, 0.5)])).toBeLessThan(0.002);
  });
});
