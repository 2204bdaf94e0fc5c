import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sentence } from '../../src/diagnostics/catalogue.js';
import type { Code, Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import type { LayoutRequest } from '../../src/input/types.js';
import { layFingers } from '../../src/layout/fingers/fingers.js';
import { layOutRow } from '../../src/layout/lay-out.js';
import { layTails } from '../../src/layout/tails/tails.js';
import type { FingerBounds, TailBounds } from '../../src/layout/types.js';

const AT = 'joints.drawer.layout';

const BOUNDS: TailBounds = {
  leastPin: { width: 12, because: 'the dovetail bit is 12 mm' },
  leastEndPin: { width: 6, because: 'the plate' },
  leastTail: { width: 10, because: 'the straight bit is 10 mm' },
};

const FINGERS: FingerBounds = {
  leastFinger: { width: 6, because: 'the plate' },
  leastSlot: { width: 10, because: 'the straight bit is 10 mm' },
};

/** What no tool sets a limit to. */
const thin: TailBounds = {
  leastPin: { width: 0.5, because: 'the plate' },
  leastEndPin: { width: 0.5, because: 'the plate' },
  leastTail: { width: 0.5, because: 'the plate' },
};

interface Case {
  readonly what: string;
  readonly width: number;
  readonly request: LayoutRequest;
  readonly bounds?: TailBounds;
  /** Codes of the refusals, with where they point, in order. */
  readonly refusals: readonly (readonly [Code, string])[];
  /** What the first refusal must say. */
  readonly says: RegExp;
}

const TAILS: readonly Case[] = [
  {
    what: 'more tails than the bit can pass between',
    width: 90,
    request: { spacing: 'even', tails: 4, pin: 12, endPin: 8 },
    refusals: [['span-narrow', 'tails']],
    says: /tail 1 would be 9\.5 mm.*3 more are too narrow.*10 mm.*straight bit.*3 tails.*board 92 mm/,
  },
  {
    what: 'pins that leave no room at all',
    width: 90,
    request: { spacing: 'even', tails: 9 },
    refusals: [['tails-no-room', 'tails']],
    says: /9 tails take 111 mm.*of 90 mm.*3 tails.*board 201 mm/,
  },
  {
    what: 'a pin and a half-pin too narrow, both told at once',
    width: 200,
    request: { spacing: 'even', tails: 3, pin: 9, endPin: 5 },
    refusals: [
      ['span-narrow', 'end-pin'],
      ['span-narrow', 'pin'],
    ],
    says: /half-pin at the reference edge would be 5 mm.*6 mm.*plate/,
  },
  {
    what: 'a pin under the least that the maker asked for',
    width: 200,
    request: { spacing: 'even', tails: 3, pin: 13, leastPin: 14 },
    refusals: [['span-narrow', 'pin']],
    says: /13 mm.*14 mm.*the least pin asked for/,
  },
  {
    what: 'a pitch with no room for pin and tail',
    width: 200,
    request: { spacing: 'even', pitch: 20 },
    refusals: [['pin-over-pitch', 'pitch']],
    says: /a pitch of 22 mm.*or more would do/,
  },
  {
    what: 'a pitch and a half-pin that leave no proper pin',
    width: 127,
    request: { spacing: 'even', pitch: 50.8, endPin: 12.7 },
    refusals: [['pitch-leaves-pin', 'pitch']],
    says: /leave pins of 50\.8 mm.*12 mm.*to 40\.8 mm.*leave out end-pin/,
  },
  {
    what: 'a board narrower than one pitch',
    width: 40,
    request: { spacing: 'even', pitch: 60, pin: 15 },
    refusals: [['span-narrow', 'end-pin']],
    says: /-2\.5 mm.*board 57 mm/,
  },
  {
    what: 'sizes that contradict each other',
    width: 200,
    request: { spacing: 'even', tails: 3, pitch: 50, pin: 15, endPin: 10 },
    refusals: [['layout-disagrees', 'end-pin']],
    says: /come to 155 mm.*200 mm.*leave out end-pin.*board 155 mm/,
  },
  {
    what: 'ten thousand tails',
    width: 200,
    request: { spacing: 'even', tails: 10_000 },
    refusals: [['layout-out-of-range', 'tails']],
    says: /tails 10000 is outside 1 to 1000/,
  },
  {
    what: 'a pitch that means thousands of tails',
    width: 9000,
    request: { spacing: 'even', pitch: 5, pin: 1 },
    bounds: thin,
    refusals: [['layout-too-many', 'tails']],
    says: /more than the 1000/,
  },
  {
    what: 'a list of ten thousand spans',
    width: 200,
    request: { spacing: 'list', spans: Array(10_001).fill(20) },
    refusals: [['layout-out-of-range', 'spans']],
    says: /spans 10001 is outside 2 to 2001/,
  },
  {
    what: 'a ratio and a spread out of range',
    width: 200,
    request: { spacing: 'graduated', ratio: 9, spread: 2 },
    refusals: [
      ['layout-out-of-range', 'ratio'],
      ['layout-out-of-range', 'spread'],
    ],
    says: /ratio 9 is outside 0\.2 to 5/,
  },
  {
    what: 'growth that starves the first tail',
    width: 150,
    request: { spacing: 'graduated', tails: 4, ratio: 2 },
    refusals: [['span-narrow', 'tails']],
    says: /tail 1 would be .*3 tails.*a ratio of 1\.\d+ or nearer to 1/,
  },
  {
    what: 'a list without spans',
    width: 200,
    request: { spacing: 'list' },
    refusals: [['spans-missing', 'spans']],
    says: /list spacing needs spans/,
  },
  {
    what: 'a list that ends with a tail',
    width: 60,
    request: { spacing: 'list', spans: [10, 20, 10, 20] },
    refusals: [['spans-count', 'spans']],
    says: /4 spans given.*odd number of spans, 3 or more/,
  },
  {
    what: 'half a list of one span',
    width: 60,
    request: { spacing: 'mirrored', spans: [60] },
    refusals: [['layout-out-of-range', 'spans']],
    says: /spans 1 is outside 2 to 2001/,
  },
  {
    what: 'a list that does not come to the width, and two narrow spans besides',
    width: 120,
    request: { spacing: 'list', spans: [10, 9, 14, 40, 11, 20, 10] },
    refusals: [
      ['spans-sum', 'spans'],
      ['span-narrow', 'spans.1'],
      ['span-narrow', 'spans.4'],
    ],
    says: /come to 114 mm.*6 mm.*less.*make tail 2 46 mm.*instead of 40 mm/,
  },
  {
    what: 'half a list that is over',
    width: 100,
    request: { spacing: 'mirrored', spans: [10, 30, 24] },
    refusals: [['spans-sum', 'spans']],
    says: /104 mm.*4 mm.*more.*make tail 1 28 mm.*its mirror image follows/,
  },
  {
    what: 'uneven spacing where one template cuts both boards',
    width: 200,
    request: { spacing: 'varied' },
    bounds: { ...BOUNDS, evenOnly: 'one template cuts both boards' },
    refusals: [['spacing-even-only', 'spacing']],
    says: /varied spacing can't be cut here: one template cuts both boards/,
  },
  {
    what: 'a groove off the board',
    width: 100,
    request: { spacing: 'even', groove: { from: 95, width: 6 } },
    refusals: [['groove-off-board', 'groove']],
    says: /from 95 mm.*to 101 mm.*off a joint 100 mm/,
  },
];

describe('what a row of tails refuses', () => {
  test.each(TAILS)('$what', ({ width, request, bounds, refusals, says }) => {
    const result = layOutRow({ of: 'tails', bounds: bounds ?? BOUNDS }, width, request, AT);
    expect(result.ok).toBe(false);
    const refused = result.diagnostics.filter((one) => one.level === 'refused');
    expect(refused.map((one) => [one.code, one.at])).toEqual(
      refusals.map(([code, key]) => [code, `${AT}.${key}`]),
    );
    expect(read(refused[0])).toMatch(says);
  });
});

test('whatever numbers a program may send, the answer is a layout or a refusal, never an exception', () => {
  const some = fc.option(fc.oneof(fc.double(), fc.integer({ min: -3, max: 3000 })), { nil: undefined });
  const request = fc.record({
    spacing: fc.constantFrom('even', 'graduated', 'mirrored', 'list', 'varied'),
    ...Object.fromEntries(
      ['tails', 'pitch', 'pin', 'endPin', 'leastPin', 'ratio', 'seed', 'spread', 'finger', 'fingers'].map(
        (key) => [key, some],
      ),
    ),
    spans: fc.option(fc.array(fc.double()), { nil: undefined }),
    groove: fc.option(fc.record({ from: fc.double(), width: fc.double() }), { nil: undefined }),
  });
  const width = fc.oneof(fc.double(), fc.integer({ min: 1, max: 5000 }));
  let answers = 0;
  fc.assert(
    fc.property(width, request, (wide, asked) => {
      for (const lay of [
        layOutRow({ of: 'tails', bounds: BOUNDS }, wide, asked as LayoutRequest, AT),
        layOutRow({ of: 'fingers', bounds: FINGERS }, wide, asked as LayoutRequest, AT),
      ]) {
        expect(lay.ok).toBe(!lay.diagnostics.some((one) => one.level === 'refused'));
        answers += 1;
      }
    }),
    { numRuns: 3000 },
  );
  expect(answers).toBe(6000);
});

describe('what would do, does', () => {
  const crowded: LayoutRequest = { spacing: 'even', tails: 6, pin: 14, endPin: 8 };

  test('fewer tails, a wider board, a narrower pin', () => {
    const [refusal] = layTails(140, crowded, BOUNDS, AT).diagnostics;
    if (refusal?.code !== 'span-narrow' && refusal?.code !== 'tails-no-room') throw new Error('no refusal');
    const kinds = refusal.data.cures.map((cure) => cure.do);
    expect(kinds).toEqual(expect.arrayContaining(['fewer', 'board', 'narrow']));
    for (const cure of refusal.data.cures) {
      if (cure.do === 'fewer') {
        expect(layTails(140, { ...crowded, tails: cure.count }, BOUNDS, AT).ok).toBe(true);
        expect(layTails(140, { ...crowded, tails: cure.count + 1 }, BOUNDS, AT).ok).toBe(false);
      }
      if (cure.do === 'board') {
        expect(layTails(cure.width, crowded, BOUNDS, AT).ok).toBe(true);
        expect(layTails(cure.width - 0.01, crowded, BOUNDS, AT).ok).toBe(false);
      }
      if (cure.do === 'narrow') expect(layTails(140, { ...crowded, pin: cure.to }, BOUNDS, AT).ok).toBe(true);
    }
  });

  test('a gentler ratio', () => {
    const steep: LayoutRequest = { spacing: 'graduated', tails: 4, ratio: 2 };
    const [refusal] = layTails(150, steep, BOUNDS, AT).diagnostics.filter((one) => one.level === 'refused');
    const ratio = refusal?.code === 'span-narrow' && refusal.data.cures.find((cure) => cure.do === 'gentler');
    if (!ratio) throw new Error('no ratio was offered');
    expect(layTails(150, { ...steep, ratio: ratio.ratio }, BOUNDS, AT).ok).toBe(true);
    expect(layTails(150, { ...steep, ratio: ratio.ratio + 0.002 }, BOUNDS, AT).ok).toBe(false);
  });
});

describe('what a row of fingers refuses', () => {
  test('fingers narrower than the bit, with an odd number and a board that would do', () => {
    const result = layFingers(90, { spacing: 'even', fingers: 13 }, FINGERS, AT);
    const [refusal] = result.diagnostics;
    expect(read(refusal)).toMatch(
      /finger 1 would be .*12 more are too narrow.*10 mm.*9 fingers and slots.*board 130 mm/,
    );
    expect(layFingers(90, { spacing: 'even', fingers: 9 }, FINGERS, AT).ok).toBe(true);
    expect(layFingers(130, { spacing: 'even', fingers: 13 }, FINGERS, AT).ok).toBe(true);
  });

  test('a number and a width that contradict each other', () => {
    const result = layFingers(90, { spacing: 'even', fingers: 7, finger: 12 }, FINGERS, AT);
    expect(result.diagnostics.map((one) => one.code)).toEqual(['layout-disagrees']);
    expect(read(result.diagnostics[0])).toMatch(/84 mm.*90 mm/);
  });

  test('a single finger, a wanted width under the bit, tens of thousands of fingers', () => {
    const codes = (request: LayoutRequest) =>
      layOutRow({ of: 'fingers', bounds: FINGERS }, 90, request, AT)
        .diagnostics.filter((one) => one.level === 'refused')
        .map((one) => one.code);
    expect(codes({ spacing: 'even', fingers: 1 })).toEqual(['layout-out-of-range']);
    expect(codes({ spacing: 'even', finger: 5 })).toEqual(['span-narrow']);
    expect(codes({ spacing: 'even', fingers: 20_000 })).toEqual(['layout-out-of-range']);
    expect(codes({ spacing: 'even', finger: 0.02 })).toEqual(['layout-too-many']);
    expect(codes({ spacing: 'even', finger: 1e-4 })).toEqual(['layout-out-of-range']);
    expect(codes({ spacing: 'list', spans: [90] })).toEqual(['layout-out-of-range']);
  });
});

test('fields of another spacing are not used, and that is said', () => {
  const result = layTails(200, { spacing: 'even', ratio: 1.2, seed: 4, finger: 12 }, BOUNDS, AT);
  expect(result.ok).toBe(true);
  const unused = result.diagnostics.filter((one) => one.code === 'field-without-effect');
  expect(unused.map((one) => one.at)).toEqual([`${AT}.ratio`, `${AT}.seed`, `${AT}.finger`]);
});

function read(one: Diagnostic | undefined): string {
  return one === undefined ? '' : sentence(one, formatterFor('mm'));
}
