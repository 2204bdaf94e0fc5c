import { describe, expect, test } from 'vitest';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { blanksOf } from '../../src/outputs/solid.js';
import { testCutJob } from '../../src/outputs/testcut.js';
import type { BoardSolid } from '../../src/page/solids.js';
import { solidsOf } from '../../src/page/solids.js';
import { area, extents, intersection, type Polygons } from '../../src/verify/cut/polygons.js';
import { jointInSolid } from '../../src/verify/solid/closed.js';
import { readText } from '../support/jobs.js';
import { volumeOf } from './solid-volume.js';

async function solids(text: string) {
  const job = readText(text);
  const outcomes = solveJob(job);
  const [outcome] = outcomes;
  const [cut] = await testCutJob(job, outcomes);
  if (!outcome?.made || !cut?.request) throw new Error('the job cannot be made');
  const { report, solved } = outcome.made;
  const { request } = cut;
  return { boards: solidsOf(request), report, solved, request, joint: outcome.joint };
}

const volume = (slabs: BoardSolid['cut']): number =>
  slabs.reduce((sum, { from, to, polygons }) => sum + (to - from) * area(polygons), 0);

/** Volume of a board in the depth of its cut, mm³. */
const cutVolume = ({ cut }: BoardSolid): number => volume(cut);

/** Range of a, b or c that slabs of a board take up, mm; the depth of its cut unless other slabs are given. */
function rangeOf({ cut, place }: BoardSolid, axis: 'a' | 'b' | 'c', slabs = cut): readonly [number, number] {
  const all = slabs.flatMap(({ from, to, polygons }) =>
    polygons.flatMap((ring) =>
      ring.flatMap(({ x, y }) => {
        if (axis === 'a') return [x + place.a];
        const [base, byY, byU] = place[axis];
        return [base + byY * y + byU * from, base + byY * y + byU * to];
      }),
    ),
  );
  return [Math.min(...all), Math.max(...all)];
}

const starter = (kind: string) => families.find((one) => one.kind === kind)?.starter ?? '';

const onOnePlate = (text: string) => text.replace('    fit:', '    template: { plate: one }\n    fit:');
const everySecond = (text: string) =>
  text.replace('    fit:', '    template: { slots: every-second }\n    fit:');

const corners = [
  { name: 'a through dovetail', text: starter('through-dovetail') },
  { name: 'a box joint', text: starter('box') },
  { name: 'a box joint with both boards on one plate', text: onOnePlate(starter('box')) },
  { name: 'a through dovetail with both boards on one plate', text: onOnePlate(starter('through-dovetail')) },
  { name: 'a box joint cut at two stops', text: everySecond(starter('box')) },
  {
    name: 'a box joint with an opening that is left out at the second stop',
    text: everySecond(starter('box')).replace('finger: 3/8 }', 'fingers: 7 }'),
  },
];

describe.each(corners)('the solids of $name', ({ text }) => {
  test('fill the corner between them when they are closed, but for the slack', async () => {
    const { boards, report, joint } = await solids(text);
    const [one, two] = boards;
    if (!one || !two) throw new Error('two boards make a corner');
    const [thick, mate] = [report.cuts[0], report.cuts[1]].map((cut) => {
      const board = cut?.boards[0];
      return board ? board.to[1] - board.from[1] : Number.NaN;
    });
    const corner = joint.width * (thick ?? 0) * (mate ?? 0);
    const lines = report.layout.length - 1;
    const gaps = lines * (joint.slack / 2) * 1.02 * (thick ?? 0) * (mate ?? 0);
    const filled = cutVolume(one) + cutVolume(two);
    expect(filled).toBeLessThanOrEqual(corner * 1.0005);
    expect(filled).toBeGreaterThan(corner - gaps - corner * 0.0005);
    expect(cutVolume(one)).toBeGreaterThan(corner * 0.2);
  });

  test('stand where the joint has them: each end flush with the other’s outside', async () => {
    const { boards } = await solids(text);
    const [one, two] = boards;
    if (!one || !two) throw new Error('two boards make a corner');
    expect(rangeOf(one, 'b')).toEqual(rangeOf(two, 'b').map((at) => expect.closeTo(at, 6)));
    expect(rangeOf(one, 'c')).toEqual(rangeOf(two, 'c').map((at) => expect.closeTo(at, 6)));
  });
});

test.each(['together', 'apart'])(
  'a half-blind joint cut %s: tails fill their sockets and the lap covers them',
  async (method) => {
    const { boards, joint } = await solids(starter('half-blind-dovetail').replace('together', method));
    const [side, front] = boards;
    if (!side || !front) throw new Error('a side and a front make a corner');
    const depth = front.cut.at(-1)?.to ?? Number.NaN;
    const sideThickness = 12.7;
    const corner = joint.width * depth * sideThickness;
    const wood = cutVolume(side) + cutVolume(front);
    // The front is drawn further than the corner: what lies beyond the side's inside face is whole.
    const frontDeep = Math.max(...(front.cut[0]?.polygons.flatMap((ring) => ring.map(({ y }) => y)) ?? []));
    const beyond = joint.width * depth * (frontDeep - sideThickness);
    expect(wood - beyond).toBeLessThanOrEqual(corner * 1.001);
    expect(wood - beyond).toBeGreaterThan(corner * 0.97);
    expect(rangeOf(front, 'b')).toEqual(rangeOf(side, 'b').map((at) => expect.closeTo(at, 6)));
    expect(rangeOf(front, 'b', front.rest)[1]).toBeCloseTo(19.05, 9); // the lap covers the tails
    expect(rangeOf(front, 'c')[1]).toBeCloseTo(rangeOf(side, 'c')[1], 6);
  },
);

/** A front that overlaps its opening, its lower and upper lip unlike, so that nothing fits by chance. */
const lipped = (method: string, rabbet = '1/2') =>
  starter('half-blind-dovetail')
    .replace('together', method)
    .replace('    depth:', `    lip: { end: 3/8, lower: 1/4, upper: 5/16, rabbet: ${rabbet} }\n    depth:`);

const lippedFronts = ['together', 'apart'].flatMap((method) =>
  ['3/8', '1/2'].map((rabbet) => ({ method, rabbet })),
);

describe.each(lippedFronts)(
  'a lipped front cut $method, its rabbet $rabbet in deep',
  ({ method, rabbet }) => {
    const made = solids(lipped(method, rabbet));

    test('has its tails in its sockets: no wood of the side is in the front’s', async () => {
      const { boards, joint } = await made;
      const [side, front] = boards;
      if (!side || !front) throw new Error('a side and a front make a corner');
      const depth = side.cut.at(-1)?.to ?? Number.NaN;
      const step = depth / side.cut.length;
      // Slab i of the front, counted from its inside face, meets slab −i of the side, whose end is below.
      const inRoom = (board: BoardSolid, polygons: Polygons): Polygons =>
        polygons.map((ring) => {
          const turned = ring.map(({ x, y }) => ({ x: x + board.place.a, y: y * board.place.c[1] }));
          return board.place.c[1] < 0 ? turned.reverse() : turned;
        });
      const both = front.cut.map((slab, i) =>
        area(
          intersection(
            inRoom(front, slab.polygons),
            inRoom(side, side.cut[side.cut.length - 1 - i]?.polygons ?? []),
          ),
        ),
      );
      expect(side.cut).toHaveLength(front.cut.length);
      expect(Math.max(...both) * step).toBeLessThan(0.01 * joint.width);
      expect(cutVolume(side)).toBeGreaterThan(joint.width * depth * 12.7 * 0.2);
    });

    test('is as large as the solid that the test cut builds, board by board, and stands where that does', async () => {
      const { boards, solved, request } = await made;
      const blanks = blanksOf(solved).map((blank) => {
        const board = boards.find((one) => one.board === blank.board);
        if (!board) throw new Error('a board is missing');
        const { minY, maxY } = extents(board.rest.at(-1)?.polygons ?? []);
        const end = board.rest.at(-1)?.to ?? Number.NaN;
        return { ...blank, length: blank.board === 'tails' ? end : maxY - minY };
      });
      const solid = await jointInSolid(request, blanks);
      for (const { board, closed } of solid.boards) {
        const own = boards.find((one) => one.board === board);
        if (!own) throw new Error('a board is missing');
        const slabs = [...own.cut, ...own.rest];
        expect(volume(slabs) / volumeOf(closed)).toBeCloseTo(1, 3);
        // The solid's axes are the front's own: x, y away from its end, z up from the bottom of its sockets.
        const of = (axis: 0 | 1 | 2) => closed.vertices.map((vertex) => vertex[axis]);
        const [xs, ys, zs] = [of(0), of(1), of(2)];
        const depth = own.place.b[2] < 0 ? own.place.b[0] : request.boards[0]?.depth;
        const near = (at: number) => expect.closeTo(at, 2);
        expect(rangeOf(own, 'a', slabs)).toEqual([near(Math.min(...xs)), near(Math.max(...xs))]);
        expect(rangeOf(own, 'c', slabs)).toEqual([near(-Math.max(...ys)), near(-Math.min(...ys))]);
        expect(rangeOf(own, 'b', slabs)).toEqual([
          near((depth ?? 0) - Math.max(...zs)),
          near((depth ?? 0) - Math.min(...zs)),
        ]);
      }
    });

    test('has its rabbet: wood past the shoulders is as thick as the lip', async () => {
      const { boards } = await made;
      const front = boards[1];
      if (!front) throw new Error('a side and a front make a corner');
      const bottom = Number(rabbet.split('/')[0]) / Number(rabbet.split('/')[1]);
      const above = [...front.cut, ...front.rest].filter(({ to }) => to < bottom * 25.4 + 1e-9);
      expect(Math.max(...above.map(({ to }) => to))).toBeCloseTo(bottom * 25.4, 9);
      expect(rangeOf(front, 'c', above)[1]).toBeCloseTo(0, 6);
      expect(rangeOf(front, 'c', front.rest)[1]).toBeCloseTo(0.375 * 25.4, 6);
      expect(rangeOf(front, 'a', above)).toEqual([expect.closeTo(0, 6), expect.closeTo(4.5 * 25.4, 6)]);
      const [low, high] = [-0.25 * 25.4, 4.8125 * 25.4];
      expect(rangeOf(front, 'a', front.rest)).toEqual([expect.closeTo(low, 6), expect.closeTo(high, 6)]);
    });
  },
);

/** Views turn a joint and never mirror it: the reference edge would come to the other side. */
test.each(families.map(({ kind }) => kind))('no board of a %s is mirrored', async (kind) => {
  const { boards } = await solids(starter(kind));
  expect(boards).toHaveLength(2);
  for (const { place } of boards) {
    // (x, y, z = −u) to (a, −b, c), both with the right hand.
    const [[, by, bu], [, cy, cu]] = [place.b, place.c];
    expect(by * cu - bu * cy).toBeCloseTo(1, 9);
  }
});
