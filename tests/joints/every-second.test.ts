import fc from 'fast-check';
import { expect, test } from 'vitest';
import { everySecond, runsOf } from '../../src/joints/row.js';
import { area, difference, evenOdd, type Polygons, rectangle, union } from '../../src/verify/cut/polygons.js';
import { bushingCentres, centresAtStops, cutAt } from '../../src/verify/cut/route.js';
import { CLOSED_WITHIN } from '../../src/verify/judge.js';
import { EVERY_SECOND, holder } from '../support/holder.js';
import { codesOf, readSample, readText, solveOnly } from '../support/jobs.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';
import {
  closed,
  isWritten,
  requestFor,
  type WrittenJoint,
  withTemplate,
  writeJoint,
} from '../support/written-joint.js';

/**
 * A template with every second slot, used at two stops, against the template with all of them: both are
 * written, read back and routed by the polygon library, which knows nothing of how they were made.
 */

const SEED = 20261125;

/** Where two routed boards differ by less than this, they are one, mm²: a band 0.0005 mm wide round a board. */
const SAME_AREA = 0.1;

/** A quarter of random jobs are even and can be cut either way; this many say something. */
const WANTED = 3;

test.each([
  ['box', boxJobs],
  ['through-dovetail', throughDovetailJobs],
])('two placements cut exactly what the full template cuts: %s', async (_, jobs) => {
  let compared = 0;
  await fc.assert(
    fc.asyncProperty(jobs, async (text) => {
      if (!text.includes('"spacing": "even"')) return;
      const full = await writeJoint(text);
      const half = await writeJoint(withTemplate(text, { slots: 'every-second' }));
      if (!isWritten(full) || !isWritten(half)) return;
      if (!half.report.cuts.some(({ stops }) => stops)) return;
      compared += 1;
      for (const { board } of full.report.cuts) {
        const one = routed(full, board);
        const other = routed(half, board);
        const apart = area(difference(one, other)) + area(difference(other, one));
        expect(apart, `${board} of ${text}`).toBeLessThan(SAME_AREA);
      }
    }),
    { numRuns: 25, seed: SEED, endOnFailure: true },
  );
  expect(compared).toBeGreaterThanOrEqual(WANTED);
});

/** What the bit takes from a board at its tip, at every stop of the board. */
function routed(written: WrittenJoint, name: string): Polygons {
  const board = requestFor(written).boards.find(({ board }) => board === name);
  if (!board) throw new Error(`no board ${name}`);
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const stock = union(evenOdd(board.drawing.layers.STOCK ?? []));
  const radius = board.cutter.diameter / 2;
  const centres = board.stops
    ? centresAtStops(plate, stock, board.bushing, radius, board.stops)
    : bushingCentres(plate, stock, board.bushing, radius);
  return difference(stock, difference(stock, cutAt(centres, radius)));
}

test('a 1/4 in box joint with a 5/8 in bushing: refused with the way out, and that way closes', async () => {
  const refused = solveOnly(readSample('refused-label-holder.yaml'));
  expect(refused.made).toBeUndefined();
  expect(codesOf(refused)).toContain('every-second-would-do');
  const made = await writeJoint(holder(EVERY_SECOND));
  if (!isWritten(made)) throw new Error(made.join());
  const cut = closed(made);
  expect(cut.worstOverlap).toBeLessThan(CLOSED_WITHIN);
  expect(cut.worstGap - cut.slack / 2).toBeLessThan(CLOSED_WITHIN);
  // The moves are said: both boards by one pitch of 1/2 in, and stop 2 stands that far off the first.
  const moves = made.outcome.diagnostics.filter(({ code }) => code === 'every-second-moves');
  expect(moves).toHaveLength(2);
  for (const { stops } of made.report.cuts) {
    expect(stops?.[0]).toBe(0);
    expect(Math.abs(stops?.[1] ?? 0)).toBeCloseTo(12.7, 9);
  }
});

test('tools of the shop are offered before a template with every second slot', () => {
  const text = holder().replace(
    'units: in\nshop: ./shop.yaml',
    `units: in
shop:
  units: in
  bits: { straight-6: { kind: straight, diameter: 6 mm, height: 12 mm } }
  bushings: { five-eighths: { outside: 5/8 }, small: { outside: 1/4, bore: 5.5 mm, barrel: 4 mm } }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }`,
  );
  const codes = codesOf(solveOnly(readText(text)));
  expect(codes.indexOf('other-tools-would-do')).toBeGreaterThanOrEqual(0);
  expect(codes.indexOf('every-second-would-do')).toBeGreaterThan(codes.indexOf('other-tools-would-do'));
});

test('where nothing would do, nothing is offered', () => {
  const outcome = solveOnly(
    readText(
      holder()
        .replace('finger: 1/4', 'finger: 1/4, spans: [1/4, 3/8, 1/4, 1/2, 1/4, 1/4, 3/8]')
        .replace('even', 'list')
        .replace('finger: 1/4, ', ''),
    ),
  );
  expect(outcome.made).toBeUndefined();
  expect(codesOf(outcome)).not.toContain('every-second-would-do');
});

test('slots of unlike widths cannot be cut in two goes, and the board is named', () => {
  const uneven = holder(EVERY_SECOND)
    .replace('finger: 1/4', 'spans: [1/2, 3/8, 1/2, 3/8, 1/4, 1/4]')
    .replace('even,', 'list,');
  expect(codesOf(solveOnly(readText(uneven)), 'refused')).toContain('every-second-uneven');
});

test('a half-blind template carries every slot', () => {
  const text = `
title: Specimen cabinet
units: in
joints:
  drawer:
    kind: half-blind-dovetail
    width: 4
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }
    slope: 1:7
    template: { slots: every-second }`;
  expect(codesOf(solveOnly(readText(text)), 'refused')).toEqual(['every-second-not-here']);
});

test('of an odd row whose end touches the board, one opening is left out at the second stop', () => {
  // Fingers at both edges, three slots: 0 and 2 are carried, and 2 moved by one pitch would lie along the edge.
  const spans = Array.from({ length: 7 }, (_, i) => ({
    part: i % 2 === 0 ? ('finger' as const) : ('slot' as const),
    from: 10 * i,
    to: 10 * (i + 1),
  }));
  const half = everySecond(runsOf({ width: 70, spans }, 'slot'), 70, { spread: 0.025, bit: 6 });
  expect(half?.stop).toBe(-20);
  expect(half?.leaveOut).toMatchObject({ from: 50, to: 60 });
  // The other board has four slots, two of them at its edges: none is left over.
  const other = everySecond(runsOf({ width: 70, spans }, 'finger'), 70, { spread: 0.025, bit: 6 });
  expect(other?.carried.map(({ from }) => from)).toEqual([0, 40]);
  expect(other?.leaveOut).toBeUndefined();
});

test('the leaving-out would matter: without it the edge of the board is brushed', async () => {
  const text = holder(EVERY_SECOND).replace('width: 2-1/4', 'width: 1-3/4').replace('0.1 mm', '0.4 mm');
  const made = await writeJoint(text);
  if (!isWritten(made)) throw new Error(made.join());
  const [one] = made.report.cuts;
  expect(one?.leaveOut).toBeDefined();
  const request = requestFor(made).boards.find(({ board }) => board === 'one');
  if (!request?.stops) throw new Error('no stops');
  const plate = evenOdd(request.drawing.layers.CUT ?? []);
  const stock = [rectangle({ minX: 0, minY: -request.thickness, maxX: made.report.width, maxY: 0 })];
  const left = (stops: NonNullable<typeof request.stops>) =>
    area(difference(stock, cutAt(centresAtStops(plate, stock, request.bushing, 3, stops), 3)));
  expect(left({ at: request.stops.at })).toBeLessThan(left(request.stops) - 0.4);
});
