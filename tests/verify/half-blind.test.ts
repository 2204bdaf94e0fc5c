import { expect, test } from 'vitest';
import { type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { evenOdd, extents, type Polygons, runsAt, transposed } from '../../src/verify/cut/polygons.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { type Drawer, halfBlind } from '../support/half-blind.js';
import { settled } from '../support/hand-testcut.js';
import { isWritten, requestFor, type WrittenJoint, writeJoint } from '../support/written-joint.js';

const inch = 25.4;

/** How much longer the bit's edge is than the cut is deep, mm. */
const SPARE = 5;

async function written(drawer: Drawer): Promise<WrittenJoint> {
  const made = await writeJoint(halfBlind(drawer, SPARE));
  if (!isWritten(made)) throw new Error(`refused: ${made.join(' ')}`);
  return made;
}

async function requestFrom(drawer: Drawer): Promise<TestCutRequest> {
  return requestFor(await written(drawer));
}

/** The first worked case of the geometry notes: p 7/8, D 1/2, 14°, h 3/8, B 1/2, t_T 1/2 in. */
const first: Drawer = {
  bit: inch / 2,
  angle: 14,
  bushing: inch / 2,
  depth: (3 / 8) * inch,
  side: inch / 2,
  front: 0.75 * inch,
  joint: {
    method: 'together',
    width: 3.5 * inch,
    layout: { spacing: 'even', pitch: (7 / 8) * inch },
  },
};

/** The second: h 13/32, B 7/16 in. */
const second: Drawer = { ...first, bushing: (7 / 16) * inch, depth: (13 / 32) * inch };

/** Two templates, tails and pins of any width. */
const apart: Drawer = {
  bit: 12,
  angle: 9,
  bushing: 13,
  depth: 12,
  side: 12,
  front: 18,
  joint: {
    method: 'apart',
    width: 104,
    layout: { spacing: 'list', spans: [9, 20, 14, 26, 13, 14, 8] },
  },
};

const square: Drawer = { ...apart, joint: { ...apart.joint, 'tails-inside': 'square' } };

function lipped(drawer: Drawer): Drawer {
  const lip = { end: (3 / 8) * inch, lower: 9, upper: 6, rabbet: drawer.depth + 1 };
  return { ...drawer, joint: { ...drawer.joint, lip } };
}

/** Spaces between the fingers at a height of the plate. */
function openings(plate: Polygons, y: number): readonly number[] {
  const runs = runsAt(plate, y);
  return runs.slice(1).map(([from], i) => from - (runs[i]?.[1] ?? 0));
}

/** Height of the opening's end over a place, or of the finger's tip. */
function reachAt(plate: Polygons, x: number): number {
  return runsAt(transposed(plate), x)[0]?.[0] ?? Number.NaN;
}

test.each([
  ['first', first, { s: 0.531, f: 0.344, root: 0.5, tip: -0.4065 }],
  ['second', second, { s: 0.4763, f: 0.3987, root: 0.4688, tip: -0.43 }],
])(
  'the %s worked half-blind case, read from the written template to 0.001 in, closes',
  async (_, drawer, wanted) => {
    const request = await requestFrom(drawer);
    const plate = evenOdd(request.boards[0]?.drawing.layers.CUT ?? []);
    const runs = runsAt(plate, 0);
    const [slot = Number.NaN] = openings(plate, 0);
    const [, finger] = runs;
    if (!finger) throw new Error('no finger');
    const within = (read: number, inches: number) =>
      expect(Math.abs(read / inch - inches)).toBeLessThan(0.001);
    within(slot, wanted.s);
    within(finger[1] - finger[0], wanted.f);
    within(reachAt(plate, finger[0] - slot / 2), wanted.root);
    within(reachAt(plate, (finger[0] + finger[1]) / 2), wanted.tip);
    const cut = settled(testCut(request));
    expect(cut.worstGap).toBeLessThan(0.005);
    expect(cut.worstOverlap).toBeLessThan(0.005);
  },
);

test.each([0, 3e-5, 1e-4, 1e-3])(
  'a bushing that is %s mm narrower than its slots follows their round ends all the way',
  async (room) => {
    const drawer: Drawer = {
      bit: 6.05,
      angle: 10.58,
      bushing: 5.15,
      depth: 4,
      side: 7.03,
      front: 20.56,
      slack: 0.2,
      // Slots are as wide as the bushing at a pitch of 2D - 2hk - g.
      joint: {
        method: 'together',
        width: 33.5,
        layout: {
          spacing: 'even',
          tails: 3,
          pitch: 2 * (6.05 - 4 * Math.tan((10.58 * Math.PI) / 180)) - 0.2 + 2 * room + 1e-9,
        },
      },
    };
    const made = await writeJoint(halfBlind(drawer, 0));
    if (!isWritten(made)) throw new Error(`refused: ${made.join(' ')}`);
    expect(settled(testCut(requestFor(made))).worstOverlap).toBeLessThan(0.003);
  },
);

const kinds: readonly (readonly [string, Drawer])[] = [
  ['one template', first],
  ['one template, lipped front', lipped(first)],
  ['two templates', apart],
  ['two templates, lipped front', lipped(apart)],
  ['square tails', square],
  ['square tails, lipped front', lipped(square)],
];

test.each(kinds)('a half-blind joint has just the play that is asked for: %s', async (_, drawer) => {
  for (const slack of [0, 0.15]) {
    const cut = settled(testCut(await requestFrom({ ...drawer, slack })));
    expect(cut.levels).toHaveLength(9);
    expect(judgeTestCut(cut, slack, 'joints.corner')).toMatchObject([{ code: 'joint-closes', level: 'ok' }]);
    expect(cut.tightest?.play).toBeCloseTo(slack, 2);
    expect(cut.loosest?.play).toBeCloseTo(slack, 2);
    expect(cut.glueArea).toBeGreaterThan(100);
  }
});

test.each(kinds)('deeper by u is tighter by 2k·u on every pair, shallower looser: %s', async (_, drawer) => {
  const request = await requestFrom({ ...drawer, slack: 0.4 });
  const k = Math.tan((drawer.angle * Math.PI) / 180);
  for (const u of [-0.2, 0.2]) {
    const boards = request.boards.map((board) => ({ ...board, depth: board.depth + u }));
    const cut = settled(testCut({ ...request, boards, levels: 3 }));
    expect(cut.tightest?.play).toBeCloseTo(0.4 - 2 * k * u, 3);
    expect(cut.loosest?.play).toBeCloseTo(0.4 - 2 * k * u, 3);
  }
});

test.each<[string, Drawer, (request: TestCutRequest) => TestCutRequest]>([
  ['bit 0.05 mm too small', apart, (request) => changed(request, (one) => withBit(one, -0.05))],
  ['bit 0.05 mm too large', first, (request) => changed(request, (one) => withBit(one, 0.05))],
  ['front 0.1 mm along', apart, (request) => changed(request, (one) => alongX(one, 'pins', 0.1))],
  ['front half a pitch out', first, (request) => changed(request, (one) => alongX(one, 'pins', 5))],
  ['plate mirrored', apart, (request) => changed(request, mirrored)],
])('a half-blind joint that is wrong is refused: %s', async (_, drawer, fault) => {
  const result = testCut(fault(await requestFrom(drawer)));
  if (!result.ok) return;
  const [said] = judgeTestCut(result.value, 0, 'joints.corner');
  expect(said?.level).toBe('refused');
});

type Board = TestCutRequest['boards'][number];

function changed(request: TestCutRequest, change: (board: Board) => Board): TestCutRequest {
  return { ...request, boards: request.boards.map(change) };
}

function withBit(board: Board, by: number): Board {
  return { ...board, cutter: { ...board.cutter, diameter: board.cutter.diameter + by } };
}

function alongX(board: Board, name: string, by: number): Board {
  return board.board === name ? onCut(board, (x) => x + by) : board;
}

function mirrored(board: Board): Board {
  const { minX, maxX } = extents(board.drawing.layers.STOCK ?? []);
  return board.board === 'tails' ? onCut(board, (x) => minX + maxX - x) : board;
}

function onCut(board: Board, place: (x: number) => number): Board {
  const { drawing } = board;
  const CUT = (drawing.layers.CUT ?? []).map((ring) => ring.map(({ x, y }) => ({ x: place(x), y })));
  return { ...board, drawing: { ...drawing, layers: { ...drawing.layers, CUT } } };
}

test('square tails: only the corners to be pared are left out, so unpared ones show', async () => {
  const request = await requestFrom(square);
  const { boards } = request.assembly;
  expect(request.assembly).toEqual({ way: 'sunk', boards, pared: true });
  const unpared = settled(testCut({ ...request, assembly: { way: 'sunk', boards } }));
  // A square corner stands (√2 − 1)·r out of the round that it meets; its widest disc is less than that.
  expect(unpared.worstOverlap).toBeGreaterThan(0.3);
  // Rounded tails are never let off: nothing says that they are to be pared.
  expect((await requestFrom(apart)).assembly).toEqual({ way: 'sunk', boards });
});

test('square tails: the sloped ends of the sockets start at the tails’ inside face and go hk further in', async () => {
  const request = await requestFrom(square);
  const cut = settled(testCut(request));
  const [bottom, ...others] = cut.sections;
  const baseline = others.at(-1);
  for (const level of [bottom, baseline]) {
    // Within the side's own thickness nothing of the front stands in the middle of a socket.
    const middle = 9 + 20 / 2;
    const wood = level?.second.some((ring) => {
      const box = extents([ring]);
      return box.minX < middle && box.maxX > middle && box.minY < 11.9 && box.maxY > 12.1;
    });
    expect(wood).toBe(false);
  }
});
