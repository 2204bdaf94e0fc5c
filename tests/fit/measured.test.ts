import { describe, expect, test } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { leastChange, residuals } from '../../src/fit/least-change.js';
import { refit } from '../../src/fit/refit.js';
import { toleranceStudy } from '../../src/fit/tolerance.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { sheetInput } from '../../src/outputs/set-up.js';
import { correctionTable } from '../../src/sheet/corrections.js';
import { madeJoints } from '../sheet/sheets.js';
import { cutByHand, readSample, readText } from '../support/jobs.js';

/** What is typed and what is answered. */
const refusedWords: readonly (readonly [
  sample: string,
  words: readonly string[],
  code: string,
  says: RegExp,
])[] = [
  ['case-corner.yaml', ['gap'], 'measured-form', /key=value without spaces, for example gap=0\.1mm/],
  ['case-corner.yaml', [''], 'measured-form', /gap, overlap, end-gap/],
  ['case-corner.yaml', ['gaap=1mm'], 'measured-unknown', /did you mean gap\?/],
  ['case-corner.yaml', ['slot=1mm'], 'measured-unknown', /known are gap, overlap/],
  ['case-corner.yaml', ['gap=wide'], 'length-unclear', /"wide"/],
  ['case-corner.yaml', ['gap=1,200 mm'], 'length-unclear', /comma/],
  ['case-corner.yaml', ['gap=-0.2 mm'], 'measured-negative', /an overlap/],
  ['case-corner.yaml', ['gap=0.2 mm', 'gap=0.3 mm'], 'measured-twice', /given twice/],
  ['case-corner.yaml', ['gap=0.2 mm', 'overlap=0.3 mm'], 'measured-contrary', /can't both be/],
  ['case-corner.yaml', ['proud-tails=0.2 mm', 'shy-tails=0.3 mm'], 'measured-contrary', /can't both be/],
  ['case-corner.yaml', ['tail-9=10 mm'], 'measured-number', /5 of tail; number them from 1/],
  ['case-corner.yaml', ['gap-2=0.1 mm'], 'measured-number', /no number/],
  ['case-corner.yaml', ['socket=60 mm'], 'measured-far', /measure again, between two tails at the end/],
  ['case-corner.yaml', ['bushing=20 mm'], 'measured-far', /measure again/],
  ['small-tray.yaml', ['tail=40 mm'], 'measured-which', /tail-1=/],
];

describe('a measurement that cannot be used', () => {
  test.each(refusedWords)('%s %j: %s', (sample, words, code, says) => {
    const job = readSample(sample);
    const [outcome] = solveJob(job);
    if (!outcome?.made) throw new Error('the sample is refused');
    const advice = refit(outcome.made.solved, words, job.units);
    expect(advice.ok).toBe(false);
    const [first] = advice.diagnostics;
    expect(first?.code).toBe(code);
    expect(first?.at).toMatch(/^--measured /);
    expect(first ? sentence(first, formatterFor(job.units)) : '').toMatch(says);
  });

  test('is said of each, all at once', () => {
    const job = readSample('case-corner.yaml');
    const [outcome] = solveJob(job);
    if (!outcome?.made) throw new Error('the sample is refused');
    const advice = refit(outcome.made.solved, ['gap', 'tail=x', 'foo=1'], job.units);
    expect(advice.diagnostics.map(({ code }) => code)).toEqual([
      'measured-form',
      'length-unclear',
      'measured-unknown',
    ]);
  });
});

test('a joint cut by hand has no fit to set', () => {
  const hand = readText(cutByHand);
  const [outcome] = solveJob(hand);
  if (!outcome?.made) throw new Error('refused');
  expect(refit(outcome.made.solved, ['gap=1'], 'mm').diagnostics[0]?.code).toBe('refit-by-hand');
});

test('a joint whose family gives no fit model is said to have none, in every product that would read it', () => {
  const job = readSample('case-corner.yaml');
  const [one] = madeJoints(job);
  if (!one) throw new Error('refused');
  const { fit, ...solved } = one.solved;
  expect(fit).toBeDefined();
  for (const told of [refit(solved, ['gap=0.2mm'], 'mm'), toleranceStudy(solved, {})]) {
    expect(told.ok).toBe(false);
    expect(told.diagnostics).toMatchObject([
      { code: 'refit-kind', level: 'refused', data: { kind: solved.kind } },
    ]);
  }
  const bare = { ...one, solved };
  const input = sheetInput(job, bare, [bare]);
  expect(input).toMatchObject({ measures: [], corrections: [] });
  const [said] = refit(solved, [], 'mm').diagnostics;
  expect(correctionTable(input).rows).toEqual([['does not fit', said && sentence(said, input.fmt)]]);
});

test('every kind of joint that is cut with a router and can be made has words to measure it by', () => {
  for (const family of families.filter(({ bitSlots }) => bitSlots !== undefined)) {
    const job = readText(family.starter);
    const [outcome] = solveJob(job);
    if (!outcome?.made) throw new Error(`the starter of ${family.kind} is refused`);
    const word = family.kind === 'edge' ? 'bit=9.6 mm' : 'gap=0.4 mm';
    const advice = refit(outcome.made.solved, [word], job.units);
    expect(advice.ok && advice.value.steps.length).toBeGreaterThan(0);
  }
});

test('along a drawn line a gap is refused with what does tell; a measured bit is taken', () => {
  const [outcome] = solveJob(readSample('edge-drawer-edging.yaml'));
  if (!outcome?.made) throw new Error('refused');
  const { made } = outcome;
  const [gap] = refit(made.solved, ['gap=0.2 mm'], 'mm').diagnostics;
  expect(gap).toMatchObject({
    code: 'refit-line',
    data: { known: ['mismatch', 'bit', 'bushing', 'kerf', 'scale'] },
  });
  const advice = refit(made.solved, ['bit=9.6 mm', 'bushing=11.1 mm'], 'mm');
  const sizes = advice.ok ? advice.value.steps.flatMap((one) => (one.do === 'size' ? [one.size] : [])) : [];
  expect(sizes.map(({ path, to }) => [path.join('.'), to])).toEqual([
    ['bits.straight-38.diameter', 9.6],
    ['bushings.seven-sixteenths.outside', 11.1],
  ]);
});

describe('the least change', () => {
  // Worked by hand: x + y = 2 alone has its least solution at (1, 1); with x − y = 1 there is one, (1.5, 0.5).
  test('is the shortest of the solutions, and the solution where there is one', () => {
    const one = { coefficients: [1, 1], value: 2 };
    const two = { coefficients: [1, -1], value: 1 };
    for (const [index, expected] of [1, 1].entries()) {
      expect(leastChange([one], 2)[index]).toBeCloseTo(expected, 6);
    }
    for (const [index, expected] of [1.5, 0.5].entries()) {
      expect(leastChange([one, two], 2)[index]).toBeCloseTo(expected, 6);
    }
  });

  test('splits the difference of equations that contradict each other', () => {
    const says = (value: number) => ({ coefficients: [1], value });
    const [x = 0] = leastChange([says(1), says(2), says(6)], 1);
    expect(x).toBeCloseTo(3, 6);
    expect(residuals([says(1)], [x])[0]).toBeCloseTo(-2, 6);
    expect(leastChange([], 3)).toEqual([0, 0, 0]);
  });
});
