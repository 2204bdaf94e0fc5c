import fc from 'fast-check';
import { expect, test } from 'vitest';
import { solveJob } from '../../src/outputs/joint.js';
import { kinds } from '../soak/kinds.js';
import { readText, solveOnly } from '../support/jobs.js';
import { howMany, long, wholeNight } from '../support/long.js';
import { cutters, everyMachine, madeOn, problemOn, routerTable, someMachine } from '../support/machines.js';
import { judgeFiles } from '../support/made.js';

/**
 * Plates close the joint whatever cuts them: `npm run soak` asks it of thousands, a long run of some on every machine,
 * and these of a few every day, each on one.
 */

const SEED = 20261201;
const EACH = wholeNight ? 40 : howMany(12, 6);
const machines = long ? fc.constant(everyMachine) : someMachine.map((one) => [one]);

test.each(Object.entries(kinds))(
  'what can be made nominal can be made by a laser and by a router table: %s',
  async (_, jobs) => {
    await fc.assert(
      fc.asyncProperty(jobs, machines, async (text, some) => {
        for (const machine of some) expect(await problemOn(machine, text), machine.name).toBeUndefined();
      }),
      { numRuns: EACH, seed: SEED },
    );
  },
  900_000,
);

/** The edging of the samples, with the line from its drawing. */
const edging = JSON.stringify({
  units: 'mm',
  shop: {
    bits: { straight: { kind: 'straight', diameter: 9.525, height: 19.05 } },
    bushings: { guide: { outside: 11.1125, bore: 9.525, barrel: 4 } },
    plate: { material: 'plywood', thickness: 12.7, 'least-finger': 4.7625 },
  },
  joints: {
    edging: {
      kind: 'edge',
      width: 406.4,
      boards: { one: { thickness: 15.875 }, two: { thickness: 15.875 } },
      line: { svg: 'edge-shell-edging.svg', id: 'wave' },
      repeat: {},
      cutter: 'straight',
      bushing: 'guide',
      fit: { slack: 0.1016 },
    },
  },
});

test('the edging of the samples is made with every cutter', async () => {
  for (const cutter of cutters) {
    expect(await problemOn(routerTable(cutter), edging)).toBeUndefined();
  }
});

test('screw holes are as wide as the end mill, unless one is asked for that it cannot make', () => {
  const holes = (template: object, cutter: number) => {
    const job = JSON.parse(edging) as { joints: { edging: object } };
    const asked = JSON.stringify({ ...job, joints: { edging: { ...job.joints.edging, template } } });
    const outcome = solveOnly(readText(madeOn(routerTable(cutter), asked)));
    const refused = outcome.diagnostics.filter(({ level }) => level === 'refused');
    return outcome.made?.templates[0]?.plate.screws.map(({ radius }) => 2 * radius) ?? refused;
  };
  expect(new Set(holes({}, 3) as number[])).toEqual(new Set([5]));
  expect(new Set(holes({}, 6.35) as number[])).toEqual(new Set([6.35]));
  expect(new Set(holes({ hole: 8 }, 6) as number[])).toEqual(new Set([8]));
  expect(holes({ hole: 5 }, 6)).toMatchObject([
    { code: 'hole-under-mill', at: 'joints.edging.template.hole', data: { hole: 5, cutter: 6 } },
  ]);
  expect(holes({ hole: 0 }, 6)).toEqual([]);
});

test('a program for holes that the end mill cannot make is refused by their name, not left out', async () => {
  const cnc = { cutter: 6, rpm: 18000, feed: 1500, plunge: 400, pass: 3 };
  const nominal = (template: object) => {
    const job = JSON.parse(edging) as { shop: object; joints: { edging: object } };
    const joints = { edging: { ...job.joints.edging, template } };
    return readText(JSON.stringify({ ...job, shop: { ...job.shop, cnc }, joints }));
  };
  const judged = async (template: object) => {
    const job = nominal(template);
    const found = await judgeFiles(job, solveJob(job), { only: ['finger'], as: ['gcode'] });
    return found.filter(({ level }) => level === 'refused').map(({ code }) => code);
  };
  expect(await judged({})).toEqual([]);
  expect(await judged({ hole: 5 })).toEqual(['hole-under-mill']);
  // Files that hold the plate itself may be cut by other means.
  expect(solveOnly(nominal({ hole: 5 })).made).toBeDefined();
});
