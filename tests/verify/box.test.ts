import { expect, test } from 'vitest';
import type { Diagnostic, Result } from '../../src/diagnostics/diagnostic.js';
import { type TestCut, testCut } from '../../src/verify/assemble.js';
import { judgeTestCut } from '../../src/verify/judge.js';
import { boxTemplate, type HandBox, type HandTemplate, moved } from '../support/hand-templates.js';
import { type AsRouted, boxRequest, cutBox } from '../support/hand-testcut.js';

const inch = 25.4;

/** 1/2 in fingers with a 1/2 in bit and a 5/8 in bushing: template fingers of 3/8 in. */
const slides: HandBox = {
  boundaries: [0, 1, 2, 3, 4, 5, 6, 7].map((n) => (n * inch) / 2),
  bit: inch / 2,
  bushing: (5 / 8) * inch,
  one: 0.5 * inch,
  two: 0.375 * inch,
  slack: 0,
};

const uneven: HandBox = { ...slides, boundaries: [0, 9, 26, 40, 56, 90], bit: 8, bushing: 12 };

function shifted(template: HandTemplate, from: number, to: number, by: number): HandTemplate {
  return moved(template, (corner) =>
    corner.x > from && corner.x < to ? { ...corner, x: corner.x + by } : corner,
  );
}

function codes(result: Result<TestCut>): readonly Diagnostic['code'][] {
  return result.diagnostics.map(({ code }) => code);
}

test.each([
  ['slots as wide as the bit', slides],
  ['spans of any width', uneven],
])('a box joint cut by the rules closes at nine levels: %s', (_, joint) => {
  const cut = cutBox(joint);
  expect(cut.levels).toHaveLength(9);
  expect(cut.worstGap).toBeLessThan(0.002);
  expect(cut.worstOverlap).toBeLessThan(0.002);
  const sides = joint.boundaries.length - 2;
  expect(cut.sections[4]?.glueLines).toHaveLength(sides);
  expect(cut.glueArea).toBeCloseTo(sides * joint.one * joint.two, 1);
});

test('the cut edge stands 1/16 in off the template’s edge with a 5/8 in bushing and a 1/2 in bit', () => {
  // Common practice, no source. Board one's first finger ends at 1/2 in; its template finger, hence, at 7/16 in.
  const cut = cutBox(slides);
  const ends = boxTemplate(slides, 'one').cut[0]?.map(({ x }) => x) ?? [];
  const line = cut.sections[0]?.glueLines[0]?.x ?? Number.NaN;
  expect(line - inch / 16).toBeCloseTo(
    ends.find((x) => Math.abs(x - (7 / 16) * inch) < 0.01) ?? Number.NaN,
    3,
  );
});

test('slack shows as half of it on each glue line', () => {
  const cut = cutBox({ ...uneven, slack: 0.1 });
  expect(cut.worstOverlap).toBe(0);
  for (const { gap } of cut.levels) expect(gap).toBeCloseTo(0.05, 3);
  expect(judgeTestCut(cut, 0.1, 'joints.slides')).toMatchObject([{ code: 'joint-closes', level: 'ok' }]);
  expect(judgeTestCut(cut, 0.05, 'joints.slides')).toMatchObject([{ code: 'joint-gaps', level: 'refused' }]);
});

test('what an error costs: slack of a pair by differencing, against opening − finger − 2B + 2d', () => {
  const loose = { ...uneven, slack: 0.4 };
  const half = 0.05;
  const slack = (routed: AsRouted): number => {
    const lines = cutBox(loose, { ...routed, levels: 3 }).sections[1]?.glueLines ?? [];
    // Board one keeps 0 to 9, 26 to 40 and 56 to 90 mm: board two's finger of 9 to 26 has lines 0 and 1.
    const [left, right] = lines;
    if (!left || !right) throw new Error('no such pair');
    return left.gap + right.gap;
  };
  const perUnit = (routed: (by: number) => AsRouted): number =>
    (slack(routed(half)) - slack(routed(-half))) / (2 * half);
  const widened = (board: 'one' | 'two', by: number): HandTemplate =>
    shifted(shifted(boxTemplate(loose, board), 5, 17.5, -by / 2), 17.5, 29, by / 2);
  expect(perUnit((by) => ({ straight: by }))).toBeCloseTo(2, 2);
  expect(perUnit((by) => ({ bushing: by }))).toBeCloseTo(-2, 2);
  expect(perUnit((by) => ({ one: widened('one', by) }))).toBeCloseTo(1, 2);
  expect(perUnit((by) => ({ two: widened('two', by) }))).toBeCloseTo(-1, 2);
  expect(perUnit((by) => ({ depth: by }))).toBeCloseTo(0, 2);
});

test('an opening narrower than its bushing leaves the slot uncut, which is an overlap as wide as the slot', () => {
  const narrow = shifted(boxTemplate(slides, 'one'), 19, 30, -0.1);
  const result = testCut(boxRequest(slides, { one: narrow }));
  const overlap = result.ok ? result.value.worstOverlap : Number.NaN;
  expect(overlap).toBeGreaterThan(9);
});

test('a plate with no way in is refused', () => {
  const shut: HandTemplate = {
    ...boxTemplate(slides, 'one'),
    cut: [
      [
        { x: -60, y: -60 },
        { x: 160, y: -60 },
        { x: 160, y: 60 },
        { x: -60, y: 60 },
      ],
    ],
  };
  expect(codes(testCut(boxRequest(slides, { one: shut })))).toContain('board-uncut');
});

test('a drawing at the wrong scale is refused by its board', () => {
  const big = boxTemplate(slides, 'one');
  const scaled = (ring: HandTemplate['cut'][number]) =>
    ring.map((corner) => ({ ...corner, x: corner.x * 25.4, y: corner.y * 25.4 }));
  const result = testCut(
    boxRequest(slides, { one: { cut: big.cut.map(scaled), stock: big.stock.map(scaled) } }),
  );
  expect(codes(result)).toContain('stock-differs');
});
