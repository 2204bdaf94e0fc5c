import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job, Joint } from '../../src/input/types.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import type { Layout } from '../../src/layout/types.js';
import { modelOf } from '../../src/page/model.js';
import {
  areSame,
  handBounds,
  isDrag,
  listEdits,
  moveEdge,
  resizeSpan,
  spanWidths,
} from '../../src/page/spans.js';
import { readLength } from '../../src/units/length.js';
import { writeLength } from '../../src/units/write-length.js';

const sum = (widths: readonly number[]) => widths.reduce((all, one) => all + one, 0);

interface OnBench {
  readonly job: Job;
  readonly joint: Joint;
  readonly layout: Layout;
  readonly text: string;
}

/** A starter job laid out; half-blind joints with a template for each board, since the other way fixes the pitch. */
function onBench(kind: string): OnBench {
  const starter = families.find((family) => family.kind === kind)?.starter ?? '';
  const text = starter.replace('method: together', 'method: apart');
  const { job, joint, solved } = modelOf({ name: 'job.yaml', text, others: {} }, undefined);
  if (!job || !joint || !solved) throw new Error(`the starter of ${kind} cannot be laid out`);
  return { job, joint, layout: solved.layout, text };
}

const kinds = ['through-dovetail', 'half-blind-dovetail', 'box'];

describe.each(kinds)('an edge of a %s', (kind) => {
  const { job, joint, layout, text } = onBench(kind);
  const widths = spanWidths(layout);
  const bounds = handBounds(joint, job.shop, widths.length, job.units);
  const least = bounds.ok ? bounds.least : [];

  test('has bounds from the joint’s own solver, each with its reason', () => {
    expect(least.length).toBe(widths.length);
    for (const { width, because } of least) {
      expect(width).toBeGreaterThan(0);
      expect(because.length).toBeGreaterThan(5);
    }
  });

  test('moved anywhere, keeps the board’s width and every bound, and can be cut', () => {
    const moves = fc.record({
      edge: fc.integer({ min: 1, max: widths.length - 1 }),
      by: fc.double({ min: -60, max: 60, noNaN: true }),
      mirrored: fc.boolean(),
      step: fc.constantFrom(0, 0.5, 25.4 / 32),
    });
    fc.assert(
      fc.property(moves, (move) => {
        const { widths: moved } = moveEdge(widths, least, { ...move, reach: 0.5 });
        expect(sum(moved)).toBeCloseTo(layout.width, 9);
        moved.forEach((one, index) => {
          expect(one).toBeGreaterThan((least[index]?.width ?? 0) - 1e-9);
        });
        const edited = editYaml(
          text,
          listEdits(joint, moved, job.units, () => true),
        );
        const again = modelOf({ name: 'job.yaml', text: edited, others: {} }, undefined);
        const refusals = again.diagnostics.filter(({ level }) => level === 'refused');
        expect(refusals.filter(({ code }) => code !== 'groove-off-board')).toEqual([]);
        const drawn = again.solved ? spanWidths(again.solved.layout) : [];
        drawn.forEach((one, index) => {
          expect(Math.abs(one - (moved[index] ?? 0))).toBeLessThan(0.001);
        });
      }),
      { numRuns: 25 },
    );
  });

  test('comes to rest on what the tools can cut when it is brought near', () => {
    const room = (widths[1] ?? 0) - (least[1]?.width ?? 0);
    const near = moveEdge(widths, least, {
      edge: 1,
      by: room - 0.3,
      mirrored: false,
      step: 25.4 / 32,
      reach: 0.5,
    });
    expect(near.widths[1]).toBeCloseTo(least[1]?.width ?? Number.NaN, 9);
    expect(near.stopped?.because).toBe(least[1]?.because);
  });

  test('mirrored, leaves both halves alike', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: widths.length - 1 }),
        fc.double({ min: -9, max: 9, noNaN: true }),
        (edge, by) => {
          const { widths: moved } = moveEdge(widths, least, { edge, by, mirrored: true, step: 0, reach: 0 });
          if (edge * 2 === widths.length) return;
          moved.forEach((one, index) => {
            expect(one).toBeCloseTo(moved[moved.length - 1 - index] ?? Number.NaN, 9);
          });
        },
      ),
    );
  });

  test('a typed width is kept exactly, its neighbours make room, and no room is said', () => {
    const wanted = (widths[1] ?? 0) - 0.25;
    const sized = resizeSpan(widths, least, 1, wanted, false);
    if (sized.ok) {
      expect(sized.widths[1]).toBeCloseTo(wanted, 12);
      expect(sum(sized.widths)).toBeCloseTo(layout.width, 9);
    } else expect(wanted).toBeLessThan(sized.least.width);
    expect(resizeSpan(widths, least, 1, layout.width, false).ok).toBe(false);
  });
});

test('with one template for both boards the pitch is fixed: an edge cannot be moved, and the reason is said', () => {
  const starter = families.find(({ kind }) => kind === 'half-blind-dovetail')?.starter ?? '';
  const { job, joint } = modelOf({ name: 'job.yaml', text: starter, others: {} }, undefined);
  if (!job || !joint) throw new Error('the starter cannot be read');
  const bounds = handBounds(joint, job.shop, 9, job.units);
  expect(bounds.ok).toBe(false);
  expect(bounds.ok ? undefined : bounds.diagnostic?.code).toBe('spacing-even-only');
});

test('a length written into a job reads back within what thirty spans may miss, 0.0003 mm each', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 2000, noNaN: true }),
      fc.constantFrom('mm' as const, 'in' as const),
      (mm, units) => {
        const read = readLength(writeLength(mm, units), units);
        const up = readLength(writeLength(mm, units, 'up'), units);
        expect(read.ok && Math.abs(read.mm - mm)).toBeLessThan(0.0003);
        expect(up.ok && up.mm - mm).toBeGreaterThan(-1e-5);
      },
    ),
  );
  expect(writeLength(25.4 * 1.375, 'in')).toBe('1-3/8');
});

test('a pointer that rests, or goes up or down, does not drag; widths that are as they were are no edit', () => {
  expect([isDrag(0, 0), isDrag(1, 0), isDrag(-3, 2), isDrag(6, 9), isDrag(-20, 60)]).not.toContain(true);
  expect([isDrag(4, 0), isDrag(-12, 5)]).not.toContain(false);
  const widths = [8, 12.7, 8];
  expect(areSame(widths, [8, 12.7 + 1e-9, 8])).toBe(true);
  expect(areSame(widths, [8, 12.71, 7.99])).toBe(false);
  expect(areSame(widths, [8, 12.7])).toBe(false);
});
