import { describe, expect, test, vi } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import type { JointFamily } from '../../src/joints/family.js';
import { solveJob } from '../../src/outputs/joint.js';
import { blanksOf } from '../../src/outputs/solid.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import { type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { movedPolygons } from '../../src/verify/cut/placed.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { jointInSolid } from '../../src/verify/solid/closed.js';
import { settled } from '../support/hand-testcut.js';
import { judgeFiles, makeFiles } from '../support/made.js';

vi.mock('halfpin', () => import('../../src/index.js'));

/** Joints whose boards are moved onto one another as their families say: samples/api, which knows halfpin from outside. */
const shop = `
title: frame
units: mm
shop:
  units: mm
  bits: { twelve: { kind: straight, diameter: 12, height: 30 } }
  bushings: { sixteen: { outside: 16, bore: 13.5 } }
  plate: { material: plywood, thickness: 12, least-finger: 5 }
joints:
  one:
    cutter: twelve
    bushing: sixteen
    fit: { slack: 0.2 }
`;

const jobs: Readonly<Record<string, string>> = {
  'half-lap': `${shop}    kind: half-lap
    width: 50
    boards: { one: { thickness: 18 }, two: { thickness: 22 } }
`,
  'shelf-housing': `${shop}    kind: shelf-housing
    width: 240
    boards: { side: { thickness: 18 }, shelf: { thickness: 15 } }
    height: 90
    run: 120
    depth: 6
`,
};

async function familiesFromOutside(): Promise<readonly JointFamily[]> {
  const [{ halfLap }, { shelfHousing }] = await Promise.all([
    import('../../samples/api/half-lap.js'),
    import('../../samples/api/shelf-housing.js'),
  ]);
  return [halfLap, shelfHousing];
}

async function made(name: string) {
  const known = await familiesFromOutside();
  const { result } = readJob({ name: 'job.yaml', text: jobs[name] ?? '' }, known, () => undefined);
  const job = settled(result);
  const outcomes = solveJob(job, undefined, known);
  const [cut] = await testCutJob(job, outcomes);
  const [outcome] = outcomes;
  if (!cut?.request || !outcome?.made)
    throw new Error(JSON.stringify([outcome?.diagnostics, cut?.diagnostics]));
  return {
    request: cut.request,
    codes: cut.diagnostics.map(({ code }) => code),
    solved: outcome.made.solved,
  };
}

function codesOf(request: TestCutRequest): readonly string[] {
  const cut = testCut(request);
  const diagnostics = cut.ok ? judgeTestCut(cut.value, 0.2, 'joints.one') : cut.diagnostics;
  return diagnostics.map(({ code }) => code);
}

type Boards = TestCutRequest['boards'];
type Change = (boards: Boards, assembly: TestCutRequest['assembly']) => Partial<TestCutRequest>;

const board = (boards: Boards, at: number, change: (one: Boards[number]) => Boards[number]): Boards =>
  boards.map((one, i) => (i === at ? change(one) : one));

const deeper =
  (at: number, by: number): Change =>
  (boards) => ({ boards: board(boards, at, (one) => ({ ...one, depth: one.depth + by })) });

const shifted =
  (at: number, dx: number, dy: number): Change =>
  (boards) => ({
    boards: board(boards, at, (one) => {
      const CUT = (one.drawing.layers.CUT ?? []).map((ring) =>
        ring.map(({ x, y }) => ({ x: x + dx, y: y + dy })),
      );
      return { ...one, drawing: { ...one.drawing, layers: { ...one.drawing.layers, CUT } } };
    }),
  });

const assembled =
  (
    change: (one: Extract<TestCutRequest['assembly'], { way: 'placed' }>) => TestCutRequest['assembly'],
  ): Change =>
  (_, assembly) => ({ assembly: assembly.way === 'placed' ? change(assembly) : assembly });

const faults: Readonly<Record<string, readonly (readonly [string, Change])[]>> = {
  'half-lap': [
    ['board one cut 0.1 mm too deep', deeper(0, 0.1)],
    ['board one cut 0.1 mm too shallow', deeper(0, -0.1)],
    ['board two cut 0.1 mm too deep', deeper(1, 0.1)],
    ['board two cut 0.1 mm too shallow', deeper(1, -0.1)],
    ['the plate 0.2 mm too far in on board one', shifted(0, 0, 0.2)],
    ['the plate 0.2 mm too far out on board two', shifted(1, 0, -0.2)],
    [
      'board two not turned over',
      assembled((one) => ({
        ...one,
        second: { ...('uncut' in one.second ? NOWHERE : one.second), turned: false },
      })),
    ],
    [
      'board two turned the other way',
      assembled((one) => ({
        ...one,
        second: { ...('uncut' in one.second ? NOWHERE : one.second), angle: -Math.PI / 2 },
      })),
    ],
    [
      'board two beside its place',
      assembled((one) => ({ ...one, second: { ...('uncut' in one.second ? NOWHERE : one.second), y: 0.3 } })),
    ],
  ],
  'shelf-housing': [
    ['the side cut 0.1 mm too shallow', deeper(0, -0.1)],
    ['the plate 0.15 mm too far right', shifted(0, 0.15, 0)],
    [
      'a plate with a bushing too wide for it',
      (boards) => ({
        boards: board(boards, 0, (one) => ({ ...one, bushing: one.bushing + 0.3 })),
      }),
    ],
    [
      'a shelf 0.3 mm too thick',
      assembled((one) => ({
        ...one,
        second: {
          uncut:
            'uncut' in one.second ? one.second.uncut.map(({ x, y }) => ({ x: x > 95 ? x + 0.3 : x, y })) : [],
        },
      })),
    ],
  ],
};

const NOWHERE = { turned: false, angle: 0, x: 0, y: 0, u: 0 };

describe.each(Object.keys(jobs))('%s', (name) => {
  test('closes, as the test cut has it and as its solids have it', async () => {
    const { request, codes, solved } = await made(name);
    expect(codes).toEqual(['joint-closes']);
    const { volumes } = await jointInSolid(request, blanksOf(solved));
    const filled = volumes.boards.reduce((sum, { volume }) => sum + volume, 0);
    expect(volumes.overlap).toBeLessThan(1e-6 * volumes.room);
    expect(filled + volumes.voids).toBeCloseTo(volumes.room, 2);
    // What neither fills is the slack: a strip along the shoulders or the walls.
    expect(volumes.voids / volumes.room).toBeLessThan(0.02);
    expect(volumes.voids).toBeGreaterThan(0);
  });

  test.each(faults[name] ?? [])('refuses %s', async (_, fault) => {
    const { request } = await made(name);
    const codes = codesOf({ ...request, ...fault(request.boards, request.assembly) });
    expect(codes).not.toContain('joint-closes');
    expect(codes.some((code) => ['joint-gaps', 'joint-overlaps', 'board-uncut'].includes(code))).toBe(true);
  });
});

test('a family that does not say how its boards come together gets no test cut, and is told so', async () => {
  const known = (await familiesFromOutside()).map(
    (family): JointFamily => ({
      ...family,
      solve: (joint, shop) => {
        const solved = family.solve(joint, shop);
        if (!solved.ok) return solved;
        const { assembly, ...rest } = solved.value;
        return { ...solved, value: rest };
      },
    }),
  );
  for (const text of Object.values(jobs)) {
    const job = settled(readJob({ name: 'job.yaml', text }, known, () => undefined).result);
    const [cut] = await testCutJob(job, solveJob(job, undefined, known));
    expect(cut?.request).toBeUndefined();
    expect(cut?.diagnostics.map(({ code }) => code)).toEqual(['testcut-kind']);
  }
});

test.each(Object.keys(jobs))(
  '%s: a marker, of which there is none, is answered plainly; the sheet is set on paper',
  async (name) => {
    const known = await familiesFromOutside();
    const job = settled(readJob({ name: 'job.yaml', text: jobs[name] ?? '' }, known, () => undefined).result);
    const outcomes = solveJob(job, undefined, known);
    const asked = await judgeFiles(job, outcomes, { only: ['marker'] });
    expect(asked.map(({ code }) => code)).toEqual(['asked-unmade']);
    const files = await makeFiles(job, outcomes, { only: ['sheet'], as: ['pdf'] });
    expect(files.map(({ path }) => path)).toContain('one/set-up.pdf');
  },
);

test('a board is moved as its placement says: over, round, and along', () => {
  const [ring] = movedPolygons([[{ x: 3, y: 1 }]], { turned: true, angle: Math.PI / 2, x: 10, y: 20, u: 0 });
  // Over: (3, −1); a quarter round: (1, 3); along: (11, 23).
  expect(ring?.[0]?.x).toBeCloseTo(11, 12);
  expect(ring?.[0]?.y).toBeCloseTo(23, 12);
});
