import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EXACT, inOrder, type ToolSetting, toolOrder, totalCost } from '../../src/sheet/tool-order.js';
import { readSample } from '../support/jobs.js';
import { madeJoints } from './sheets.js';

const setting = fc.record({
  bit: fc.constantFrom('a', 'b', 'c'),
  bushing: fc.constantFrom('x', 'y'),
  extension: fc.constantFrom(20, 25, 30),
  cuts: fc.constant([]),
});

/** Every order of a few settings. */
function* orders(all: readonly ToolSetting[]): Generator<readonly ToolSetting[]> {
  if (all.length === 0) yield [];
  for (const [i, first] of all.entries()) {
    for (const rest of orders([...all.slice(0, i), ...all.slice(i + 1)])) yield [first, ...rest];
  }
}

describe('the order of tools', () => {
  test('costs no more than any other order of up to six settings', () => {
    fc.assert(
      fc.property(fc.array(setting, { minLength: 1, maxLength: 6 }), (settings) => {
        const least = Math.min(...[...orders(settings)].map(totalCost));
        const found = inOrder(settings);
        expect(totalCost(found)).toBe(least);
        expect(found).toHaveLength(settings.length);
        for (const one of settings) expect(found).toContain(one);
      }),
      { numRuns: 150 },
    );
  });

  test('many settings: all of them, and never dearer than as they came', () => {
    fc.assert(
      fc.property(fc.array(setting, { minLength: EXACT + 1, maxLength: 30 }), (settings) => {
        const found = inOrder(settings);
        expect(new Set(found)).toEqual(new Set(settings));
        expect(found).toHaveLength(settings.length);
        expect(totalCost(found)).toBeLessThanOrEqual(totalCost(settings));
      }),
      { numRuns: 40 },
    );
  });

  test('the cabinet: every cut once, the drawers in one stretch', () => {
    const job = readSample('cabinet.yaml');
    const joints = madeJoints(job);
    const order = toolOrder(joints, job.shop);
    const cuts = order.flatMap(({ cuts }) => cuts.map(({ joint, board }) => `${joint} ${board}`));
    const wanted = joints.flatMap(({ joint, solved }) =>
      solved.cuts.map(({ board }) => `${joint.name} ${board}`),
    );
    expect(cuts.toSorted()).toEqual(wanted.toSorted());
    const drawers = order.filter(({ cuts }) => cuts.some(({ joint }) => /^drawer-\d/.test(joint)));
    expect(drawers).toHaveLength(1);
  });
});
