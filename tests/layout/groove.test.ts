import { describe, expect, test } from 'vitest';
import type { LayoutRequest } from '../../src/input/types.js';
import { layFingers } from '../../src/layout/fingers/fingers.js';
import { layTails } from '../../src/layout/tails/tails.js';

const AT = 'joints.drawer.layout';
const bound = (width: number) => ({ width, because: 'the bit' });
const TAILS = { leastPin: bound(8), leastEndPin: bound(5), leastTail: bound(8) };
const FINGERS = { leastFinger: bound(6), leastSlot: bound(6) };

/** Half-pins of 10, tails of 30, pins of 10: tails at 10 to 40, 50 to 80, 90 to 120. */
const row: LayoutRequest = { spacing: 'list', spans: [10, 30, 10, 30, 10, 30, 10] };

const grooveIn = (groove: NonNullable<LayoutRequest['groove']>) =>
  layTails(130, { ...row, groove }, TAILS, AT).diagnostics.find((one) => one.at === `${AT}.groove`);

describe('a drawer-bottom groove among tails of 10 to 40, 50 to 80 and 90 to 120 mm', () => {
  test.each([
    { from: 10, width: 6, tail: 1 },
    { from: 34, width: 6, tail: 1 },
    { from: 60, width: 6, tail: 2 },
  ])('from $from, $width wide, lies inside tail $tail', ({ from, width, tail }) => {
    const found = grooveIn({ from, width });
    expect(found).toMatchObject({ code: 'groove-in-tail', level: 'ok', data: { tail } });
  });

  test.each([
    { what: 'over the half-pin', from: 7, width: 6, tail: 1, shift: 3, endPin: 7 },
    { what: 'under the least half-pin', from: 3, width: 6, tail: 1, shift: 7 },
    { what: 'over the first pin, nearer to tail 1', from: 37, width: 6, tail: 1, shift: -3 },
    { what: 'over the first pin, nearer to tail 2', from: 46, width: 6, tail: 2, shift: 4 },
    { what: 'over the far half-pin', from: 122, width: 6, tail: 3, shift: -8 },
  ])('$what: named with the way out', ({ from, width, tail, shift, endPin }) => {
    const found = grooveIn({ from, width });
    expect(found).toMatchObject({
      code: 'groove-outside-tails',
      level: 'caution',
      data: { shift, tail: { number: tail } },
    });
    expect(found?.code === 'groove-outside-tails' && found.data.endPin).toBe(endPin);
    expect(grooveIn({ from: from + shift, width })?.code).toBe('groove-in-tail');
  });

  test('the half-pin that is offered lets the groove pass', () => {
    const spans = [7, 33, 10, 30, 10, 30, 10];
    const result = layTails(130, { spacing: 'list', spans, groove: { from: 7, width: 6 } }, TAILS, AT);
    expect(result.diagnostics.map((one) => one.code)).toContain('groove-in-tail');
  });

  test('wider than every tail: no shift helps', () => {
    const found = grooveIn({ from: 10, width: 31 });
    expect(found?.code === 'groove-outside-tails' && found.data.shift).toBeUndefined();
  });
});

describe('a groove among fingers of 10 mm', () => {
  const found = (from: number, start: 'one' | 'two') =>
    layFingers(
      50,
      { spacing: 'even', fingers: 5, start, groove: { from, width: 6 } },
      FINGERS,
      AT,
    ).diagnostics.find((one) => one.at === `${AT}.groove`);

  test('shows in the finger that it lies in, of the board that has it there', () => {
    expect(found(2, 'one')).toMatchObject({ code: 'groove-in-finger', data: { board: 'one', number: 1 } });
    expect(found(12, 'one')).toMatchObject({ code: 'groove-in-finger', data: { board: 'two', number: 1 } });
    expect(found(2, 'two')).toMatchObject({ code: 'groove-in-finger', data: { board: 'two', number: 1 } });
    expect(found(24, 'one')).toMatchObject({ code: 'groove-in-finger', data: { board: 'one', number: 2 } });
  });

  test('across two fingers: named with the nearest shift', () => {
    expect(found(8, 'one')).toMatchObject({
      code: 'groove-across-fingers',
      level: 'caution',
      data: { shift: 2 },
    });
    expect(found(5, 'one')).toMatchObject({ code: 'groove-across-fingers', data: { shift: -1 } });
  });
});
