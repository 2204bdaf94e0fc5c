import { describe, expect, test } from 'vitest';
import type { Result } from '../../src/diagnostics/diagnostic.js';
import type { LayoutRequest } from '../../src/input/types.js';
import { layFingers } from '../../src/layout/fingers/fingers.js';
import { layTails } from '../../src/layout/tails/tails.js';
import type { LaidOut, TailBounds } from '../../src/layout/types.js';
import { innerPins, widthsOf } from './laws.js';

const INCH = 25.4;
const AT = 'joints.drawer.layout';

/** A 1/2 in dovetail bit and a 3/8 in straight bit; the half-pin is held by the plate. */
const HALF_INCH: TailBounds = {
  leastPin: { width: INCH / 2, because: 'the dovetail bit' },
  leastEndPin: { width: INCH / 4, because: 'the plate' },
  leastTail: { width: (3 * INCH) / 8, because: 'the straight bit' },
};

/** Marking and sawing by hand: nothing but wood that holds together. */
const BY_HAND: TailBounds = {
  leastPin: { width: 3, because: 'it would break' },
  leastEndPin: { width: 3, because: 'it would break' },
  leastTail: { width: 3, because: 'it would break' },
};

function laid(result: Result<LaidOut>): LaidOut {
  if (!result.ok) throw new Error(JSON.stringify(result.diagnostics));
  return result.value;
}

const tails = (inches: number, request: LayoutRequest, bounds = HALF_INCH) =>
  layTails(inches * INCH, request, bounds, AT);

describe('a 2 in pitch with 1/2 in pins (common practice, no source)', () => {
  const wide: LayoutRequest = { spacing: 'even', pitch: 2 * INCH, pin: INCH / 2 };

  test.each([1, 2, 3, 4, 5, 6, 7])('suits a board of twice %i pins plus 1/8 in', (pins) => {
    const width = 2 * pins + 1 / 8;
    const result = tails(width, wide);
    const { layout, suitableWidths } = laid(result);
    expect(suitableWidths).toEqual([]);
    expect(result.diagnostics.map((one) => one.code)).toContain('pitch-suits');
    // Two half-pins count as one pin.
    expect(innerPins(layout).length + 1).toBe(pins);
    const [first] = widthsOf(layout);
    expect(first).toBeCloseTo((5 / 16) * INCH, 9);
    expect(widthsOf(layout).at(-1)).toBeCloseTo((5 / 16) * INCH, 9);
  });

  test('on a 5 in board, names the widths of two pins and of three, the nearest first', () => {
    const result = tails(5, wide);
    const inches = laid(result).suitableWidths.map((width) => width / INCH);
    expect(inches[0]).toBeCloseTo(4 + 1 / 8, 9);
    expect(inches[1]).toBeCloseTo(6 + 1 / 8, 9);
    expect(inches).toHaveLength(2);
    expect(result.diagnostics.find((one) => one.code === 'pitch-suits-ill')?.level).toBe('caution');
  });

  test('from 2-1/4 to 16 in wide every width is either laid out at the pitch or refused with a reason', () => {
    for (let width = 2.25; width <= 16; width += 1 / 16) {
      const { layout } = laid(tails(width, wide));
      const [tail] = widthsOf(layout, 'tail');
      if (innerPins(layout).length > 0) expect(tail).toBeCloseTo(1.5 * INCH, 9);
    }
  });
});

describe('proportion (Noyes, Handwork in Wood, 1910, pp. 164-166)', () => {
  test.each([3, 4.5, 6, 8, 11.25, 16, 24])(
    'on a %s in board, tails left to choose stay within four pins and 1-3/4 in and over a pin',
    (width) => {
      for (const bounds of [HALF_INCH, BY_HAND]) {
        const { layout } = laid(tails(width, { spacing: 'even' }, bounds));
        const [tail = 0] = widthsOf(layout, 'tail');
        const [pin] = innerPins(layout);
        expect(tail).toBeLessThanOrEqual(1.75 * INCH + 1e-9);
        if (pin === undefined) continue;
        expect(tail).toBeLessThanOrEqual(4 * pin + 1e-9);
        expect(tail).toBeGreaterThan(pin);
      }
    },
  );

  test('one tail fewer would not', () => {
    for (let width = 3; width <= 24; width += 0.25) {
      const count = widthsOf(laid(tails(width, { spacing: 'even' })).layout, 'tail').length;
      if (count === 1) continue;
      const { layout } = laid(tails(width, { spacing: 'even', tails: count - 1, pin: INCH / 2 }));
      expect(Math.max(...widthsOf(layout, 'tail'))).toBeGreaterThan(1.75 * INCH);
    }
  });

  test('so many tails by hand get pins of a quarter of them', () => {
    const { layout } = laid(tails(6, { spacing: 'even', tails: 4 }, BY_HAND));
    const [tail = 0] = widthsOf(layout, 'tail');
    expect(tail / (innerPins(layout)[0] ?? 0)).toBeCloseTo(4, 9);
  });

  test('a half-pin is more than half a full pin (common practice, no source)', () => {
    for (let width = 3; width <= 24; width += 0.25) {
      const { layout } = laid(tails(width, { spacing: 'even', tails: 2 }));
      expect(widthsOf(layout)[0] ?? 0).toBeGreaterThan((innerPins(layout)[0] ?? 0) / 2);
    }
  });
});

test('3-1/2 in tray, three tails, 1/2 in pins: worked by hand', () => {
  const { layout } = laid(tails(3.5, { spacing: 'even', tails: 3, pin: INCH / 2 }));
  // Half-pins 5/16 in; (3-1/2 − 2 · 5/16 − 2 · 1/2) / 3 = 5/8 in.
  const sixteenths = widthsOf(layout).map((width) => (width / INCH) * 16);
  const expected = [5, 10, 8, 10, 8, 10, 5];
  sixteenths.forEach((width, i) => {
    expect(width).toBeCloseTo(expected[i] ?? 0, 9);
  });
});

test('the through joint of the derivation: 5-1/4 in of 7/16 5/8 11/16 1-3/4 11/16 5/8 7/16, whole or as half a list', () => {
  const half = [7 / 16, 5 / 8, 11 / 16, 1.75].map((inch) => inch * INCH);
  const whole = [...half, ...half.slice(0, 3).reverse()];
  const one = laid(tails(5.25, { spacing: 'list', spans: whole }));
  const other = laid(tails(5.25, { spacing: 'mirrored', spans: half }));
  expect(other).toEqual(one);
  expect(widthsOf(one.layout).map((width) => width / INCH)).toEqual(
    [7 / 16, 5 / 8, 11 / 16, 1.75, 11 / 16, 5 / 8, 7 / 16].map((inch) => expect.closeTo(inch, 9)),
  );
});

describe('box joint of 1/2 in fingers', () => {
  const bounds = {
    leastFinger: { width: 0.3125 * INCH, because: 'the plate' },
    leastSlot: { width: INCH / 2, because: 'the straight bit' },
  };
  const half: LayoutRequest = { spacing: 'even', finger: INCH / 2 };

  test('seven fill 3-1/2 in exactly', () => {
    const { layout, suitableWidths } = laid(layFingers(3.5 * INCH, half, bounds, AT));
    expect(layout.spans).toHaveLength(7);
    expect(suitableWidths).toEqual([]);
  });

  test('eight fill 4 in exactly, and the edges that differ are remarked', () => {
    const result = layFingers(4 * INCH, half, bounds, AT);
    expect(laid(result).layout.spans).toHaveLength(8);
    expect(result.diagnostics.map((one) => one.code)).toContain('fingers-even-number');
  });

  test('a 3-3/4 in board gets seven wider ones, and the widths that suit are odd halves', () => {
    const { layout, suitableWidths } = laid(layFingers(3.75 * INCH, half, bounds, AT));
    expect(layout.spans).toHaveLength(7);
    expect(suitableWidths.map((width) => width / INCH)).toEqual(
      [3.5, 4.5, 2.5, 5.5].map((w) => expect.closeTo(w, 9)),
    );
  });
});
