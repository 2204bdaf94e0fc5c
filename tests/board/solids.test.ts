import { describe, expect, test } from 'vitest';
import type { BoardSolid } from '../../src/board/solids.js';
import { solidsOf } from '../../src/board/solids.js';
import { families } from '../../src/joints/list.js';
import { makeFiles } from '../../src/pipeline.js';
import { area } from '../../src/testcut/polygons.js';
import { readText, solveOnly } from '../support/jobs.js';

async function solids(text: string) {
  const job = readText(text);
  const outcome = solveOnly(job);
  if (!outcome.made) throw new Error('the job cannot be made');
  const files = await makeFiles(job, [outcome], { only: ['finger'], as: ['dxf'] });
  const written = files
    .filter(({ path }) => path.endsWith('.dxf'))
    .map(({ path, content }) => ({ name: path.split('/').at(-1) ?? path, text: String(content) }));
  const { report, solved } = outcome.made;
  const front = solved.markings.find(({ board }) => board === 'pins')?.material.thickness ?? 0;
  return { boards: solidsOf(report, written, front), report, joint: outcome.joint };
}

/** Volume of a board in the depth of its cut, mm³. */
const cutVolume = ({ slabs }: BoardSolid): number =>
  slabs.slice(0, -1).reduce((sum, { from, to, polygons }) => sum + (to - from) * area(polygons), 0);

/** Range of b or c that a board takes up, mm. */
function rangeOf({ slabs, place }: BoardSolid, axis: 'b' | 'c'): readonly [number, number] {
  const [base, byY, byU] = place[axis];
  const all = slabs.flatMap(({ from, to, polygons }) =>
    polygons.flatMap((ring) =>
      ring.flatMap(({ y }) => [base + byY * y + byU * from, base + byY * y + byU * to]),
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
    expect(rangeOf(one, 'b')[0]).toBeCloseTo(rangeOf(two, 'b')[0], 6);
    expect(rangeOf(one, 'c')[0]).toBeCloseTo(rangeOf(two, 'c')[0], 6);
  });
});

test.each(['together', 'apart'])(
  'a half-blind joint cut %s: tails fill their sockets and the lap covers them',
  async (method) => {
    const { boards, joint } = await solids(starter('half-blind-dovetail').replace('together', method));
    const [side, front] = boards;
    if (!side || !front) throw new Error('a side and a front make a corner');
    const depth = front.slabs[0] && front.slabs.at(-1)?.from;
    const sideThickness = 12.7;
    const corner = joint.width * (depth ?? 0) * sideThickness;
    const wood = cutVolume(side) + cutVolume(front);
    // The front is drawn further than the corner: what lies beyond the side's inside face is whole.
    const frontDeep = Math.max(...(front.slabs[0]?.polygons.flatMap((ring) => ring.map(({ y }) => y)) ?? []));
    const beyond = joint.width * (depth ?? 0) * (frontDeep - sideThickness);
    expect(wood - beyond).toBeLessThanOrEqual(corner * 1.001);
    expect(wood - beyond).toBeGreaterThan(corner * 0.97);
    expect(rangeOf(front, 'b')[0]).toBeLessThan(0);
    expect(rangeOf(side, 'b')[0]).toBeCloseTo(0, 9);
    expect(rangeOf(front, 'c')[1]).toBeCloseTo(rangeOf(side, 'c')[1], 6);
  },
);
