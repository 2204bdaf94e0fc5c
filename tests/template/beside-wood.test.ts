import { expect, test } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { halfBlind } from '../support/half-blind.js';
import { readText, solveOnly } from '../support/jobs.js';
import { madeOn, routerTable } from '../support/machines.js';
import { proveJob } from '../support/made.js';
import { job } from '../support/random-jobs.js';

/** What would spoil wood at the test cut is found with the plate, and what is offered works. */

/** Thick stock: the dovetail bit is 12.5 mm wider than its bushing to each side. */
const thick = (template: object) =>
  job({
    bits: {
      flared: { kind: 'dovetail', diameter: 36, angle: 14, height: 38 },
      plain: { kind: 'straight', diameter: 10, height: 60 },
    },
    bushing: 11,
    joint: {
      kind: 'through-dovetail',
      width: 250,
      boards: { tails: { thickness: 38 }, pins: { thickness: 38 } },
      layout: { spacing: 'even', tails: 2, pin: 50 },
      cutters: { tails: 'flared', pins: 'plain' },
      fit: { slack: 0.1 },
      template,
    },
  });

const refusals = (text: string) =>
  solveOnly(readText(text)).diagnostics.filter(({ level }) => level === 'refused');

async function proved(text: string) {
  const read = readText(text);
  const [outcome] = await proveJob(read, solveJob(read));
  return (outcome?.diagnostics ?? []).filter(({ level }) => level === 'refused').map(({ code }) => code);
}

test('a plate is as deep before the board as a bit that is wider than its bushing asks for', async () => {
  expect(await proved(thick({}))).toEqual([]);
  expect(await proved(thick({ plate: 'one' }))).toEqual([]);
});

test('a nose that is too short for such a bit is refused, and the least that is said works', async () => {
  const [one, ...others] = refusals(thick({ nose: 10 }));
  expect(others).toEqual([]);
  expect(one).toMatchObject({
    code: 'plate-beside-wood',
    at: 'joints.corner.template.nose',
    data: { key: 'nose', least: expect.closeTo(12.5, 6) },
  });
  expect(await proved(thick({ nose: 12.5 }))).toEqual([]);
});

test('a finger of which nothing is left is refused before anything is cut', () => {
  const drawer = {
    bit: 11.62,
    angle: 13.35,
    depth: 9,
    side: 13,
    front: 20,
    joint: { width: 30, method: 'together', layout: { spacing: 'even', tails: 1 } },
  };
  expect(refusals(halfBlind({ ...drawer, bushing: 32 }, 1)).map(({ code, at }) => [code, at])).toEqual([
    ['finger-thin', 'joints.corner.bushing'],
  ]);
});

test('a joint that does not close because corners are cut past says so, with the cutter that needs none', async () => {
  const box = job({
    bits: { plain: { kind: 'straight', diameter: 4, height: 12 } },
    bushing: 5,
    joint: {
      kind: 'box',
      width: 90,
      boards: { one: { thickness: 12 }, two: { thickness: 12 } },
      layout: { spacing: 'even', fingers: 5 },
      cutter: 'plain',
    },
  });
  expect(await proved(madeOn(routerTable(14, 'corner'), box))).toContain('relief-unguides');
  expect(await proved(madeOn(routerTable(5), box))).toEqual([]);
});
