import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMirrorImage } from '../../src/layout/mirror.js';
import { layTails } from '../../src/layout/tails/tails.js';
import type { Layout } from '../../src/layout/types.js';
import { EXACT, fillsTheBoard, innerPins, overAccepted, RUNS, ratios, widthsOf, worst } from './laws.js';
import { AT, listedTails, mm, type RuledSpacing, ruledTails, type TailJob } from './random-jobs.js';

const RULED: readonly RuledSpacing[] = ['even', 'graduated', 'mirrored', 'varied'];
const LISTED = ['list', 'mirrored'] as const;

const lay = ({ width, request, bounds }: TailJob) => layTails(width, request, bounds, AT);

/** Every part is as wide as the tools and the maker's own wish need it. */
function canBeCut({ request, bounds }: TailJob, layout: Layout): void {
  const { leastPin, leastEndPin, leastTail } = bounds;
  const pin = Math.max(leastPin.width, request.leastPin ?? 0);
  expect(Math.min(...widthsOf(layout, 'tail'))).toBeGreaterThan(leastTail.width - 2 * EXACT);
  expect(Math.min(Infinity, ...innerPins(layout))).toBeGreaterThan(pin - 2 * EXACT);
  const all = widthsOf(layout);
  expect(Math.min(all[0] ?? 0, all.at(-1) ?? 0)).toBeGreaterThan(leastEndPin.width - 2 * EXACT);
}

function beginsAndEndsWithPins(layout: Layout): void {
  expect(layout.spans[0]?.part).toBe('pin');
  expect(layout.spans.at(-1)?.part).toBe('pin');
}

/** What the maker gave is what comes out. */
function asAsked({ request, width }: TailJob, layout: Layout): void {
  const tails = widthsOf(layout, 'tail');
  const pins = innerPins(layout);
  const mean = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
  if (request.tails !== undefined) expect(tails.length).toBe(request.tails);
  if (request.pin !== undefined && pins.length > 0)
    expect(Math.abs(mean(pins) - request.pin)).toBeLessThan(EXACT);
  const endPin = widthsOf(layout)[0] ?? 0;
  if (request.endPin !== undefined) expect(Math.abs(endPin - request.endPin)).toBeLessThan(EXACT);
  if (request.pitch !== undefined && pins.length > 0) {
    expect(Math.abs(mean(tails) + mean(pins) - request.pitch)).toBeLessThan(width * EXACT);
  }
}

describe.each(RULED)('%s spacing', (spacing) => {
  test('fills the board, holds every bound, keeps what was asked', () => {
    overAccepted(ruledTails(spacing), lay, (job, { layout }) => {
      fillsTheBoard(layout, job.width);
      beginsAndEndsWithPins(layout);
      canBeCut(job, layout);
      asAsked(job, layout);
    });
  });

  test('the same request gives the same layout', () => {
    fc.assert(
      fc.property(ruledTails(spacing), (job) => {
        expect(lay(structuredClone(job))).toEqual(lay(job));
      }),
      { numRuns: RUNS },
    );
  });

  test('a board 25.4 times the size under bounds 25.4 times as wide is the same layout, larger', () => {
    const numbered = ruledTails(spacing).filter(
      ({ request }) => request.tails !== undefined || request.pitch !== undefined,
    );
    overAccepted(numbered, lay, (job, { layout }) => {
      const larger = lay(scaled(job, 25.4));
      if (!larger.ok) throw new Error(`the larger board was refused: ${JSON.stringify(larger.diagnostics)}`);
      expect(larger.value.layout.spans.length).toBe(layout.spans.length);
      const ends = (one: Layout, by: number) => one.spans.map((span) => span.to / by);
      expect(worst(ends(larger.value.layout, 25.4), ends(layout, 1))).toBeLessThan(1e-7);
    });
  });
});

describe.each(LISTED)('%s of given spans', (spacing) => {
  test('fills the board, holds every bound, stays within 0.01 mm of what was written', () => {
    overAccepted(listedTails(spacing), lay, (job, { layout }) => {
      fillsTheBoard(layout, job.width);
      beginsAndEndsWithPins(layout);
      canBeCut(job, layout);
      const written = job.request.spans ?? [];
      expect(worst(written, widthsOf(layout).slice(0, written.length))).toBeLessThan(0.01 + EXACT);
    });
  });

  test('the same request gives the same layout', () => {
    fc.assert(
      fc.property(listedTails(spacing), (job) => {
        expect(lay(structuredClone(job))).toEqual(lay(job));
      }),
      { numRuns: RUNS },
    );
  });

  test('a sum off by more than 0.01 mm is refused with a span that really closes it', () => {
    let closed = 0;
    fc.assert(
      fc.property(listedTails(spacing), (job) => {
        const result = lay(job);
        const off = result.diagnostics.find((one) => one.code === 'spans-sum');
        if (off?.code !== 'spans-sum' || off.data.absorb === undefined) return;
        const { absorb } = off.data;
        const index = absorb.part === 'tail' ? 2 * absorb.number - 1 : pinIndex(absorb, job);
        const spans = (job.request.spans ?? []).map((span, i) => (i === index ? absorb.to : span));
        const again = lay({ ...job, request: { ...job.request, spans } });
        expect(again.diagnostics.map((one) => one.code)).not.toContain('spans-sum');
        closed += 1;
      }),
      { numRuns: RUNS, seed: 7 },
    );
    expect(closed).toBeGreaterThan(50);
  });
});

test('even: tails are alike, inner pins are alike, and both edges', () => {
  overAccepted(ruledTails('even'), lay, (_job, { layout }) => {
    const [pins, tails] = [innerPins(layout), widthsOf(layout, 'tail')];
    expect(Math.max(...tails) - Math.min(...tails)).toBeLessThan(EXACT);
    if (pins.length > 0) expect(Math.max(...pins) - Math.min(...pins)).toBeLessThan(EXACT);
    const middles = layout.spans
      .filter((span) => span.part === 'tail')
      .map((span) => (span.from + span.to) / 2);
    const pitches = middles.slice(1).map((middle, i) => middle - (middles[i] ?? 0));
    if (pitches.length > 0) expect(Math.max(...pitches) - Math.min(...pitches)).toBeLessThan(EXACT);
    expect(isMirrorImage(layout)).toBe(true);
  });
});

test('graduated: each tail is the asked ratio times the one before it, away from the reference edge', () => {
  overAccepted(ruledTails('graduated'), lay, ({ request }, { layout }) => {
    const tails = widthsOf(layout, 'tail');
    const ratio = request.ratio ?? (tails[1] ?? 1) / (tails[0] ?? 1);
    const steps = ratios(tails);
    expect(worst(steps, Array(steps.length).fill(ratio))).toBeLessThan(EXACT);
    if (request.ratio === undefined && tails.length > 1) {
      expect(Math.abs((tails.at(-1) ?? 0) / (tails[0] ?? 1) - 2)).toBeLessThan(EXACT);
    }
  });
});

test.each(['rule', 'half a list'] as const)('mirrored by %s: the layout is its own mirror image', (by) => {
  overAccepted(by === 'rule' ? ruledTails('mirrored') : listedTails('mirrored'), lay, (job, { layout }) => {
    expect(isMirrorImage(layout)).toBe(true);
    const widths = widthsOf(layout);
    expect(worst(widths, widths.toReversed())).toBeLessThan(EXACT);
    if (by === 'half a list') expect(widths.length).toBe(2 * (job.request.spans?.length ?? 0) - 1);
  });
});

test('varied: every tail and pin stays within the asked spread of even, and another seed differs', () => {
  let differs = 0;
  overAccepted(ruledTails('varied'), lay, (job, { layout }) => {
    const spread = job.request.spread ?? 0.25;
    for (const widths of [widthsOf(layout, 'tail'), innerPins(layout)].filter((row) => row.length > 0)) {
      const mean = widths.reduce((sum, one) => sum + one, 0) / widths.length;
      expect(worst(widths, Array(widths.length).fill(mean))).toBeLessThan(spread * mean + EXACT);
    }
    const other = lay({ ...job, request: { ...job.request, seed: (job.request.seed ?? 1) + 99 } });
    if (other.ok && JSON.stringify(other.value.layout) !== JSON.stringify(layout)) differs += 1;
  });
  expect(differs).toBeGreaterThan(RUNS / 4);
});

describe('ordering', () => {
  const free = (spacing: RuledSpacing) =>
    ruledTails(spacing).filter(({ request }) => request.tails === undefined && request.pitch === undefined);

  test.each(RULED)('%s: a wider bound never gives more tails', (spacing) => {
    const widened = fc.record({ leastPin: more, leastEndPin: more, leastTail: more });
    let fewer = 0;
    fc.assert(
      fc.property(free(spacing), widened, (job, by) => {
        const tighter = { ...job, bounds: widen(job, by) };
        const [one, other] = [lay(job), lay(tighter)];
        if (!one.ok || !other.ok) return;
        const [before, after] = [one, other].map((each) => widthsOf(each.value.layout, 'tail').length);
        expect(after ?? 0).toBeLessThanOrEqual(before ?? 0);
        if ((after ?? 0) < (before ?? 0)) fewer += 1;
      }),
      { numRuns: RUNS, seed: 3 },
    );
    expect(fewer).toBeGreaterThan(20);
  });

  test('a wider bound never lets through what a narrower one refused', () => {
    const numbered = ruledTails('even').filter(
      ({ request }) =>
        request.tails !== undefined && request.pin !== undefined && request.endPin !== undefined,
    );
    let refusals = 0;
    fc.assert(
      fc.property(numbered, fc.record({ leastPin: more, leastEndPin: more, leastTail: more }), (job, by) => {
        if (lay(job).ok) return;
        refusals += 1;
        expect(lay({ ...job, bounds: widen(job, by) }).ok).toBe(false);
      }),
      { numRuns: RUNS, seed: 4 },
    );
    expect(refusals).toBeGreaterThan(100);
  });
});

const more = mm(0, 12);

function widen({ bounds }: TailJob, by: Readonly<Record<'leastPin' | 'leastEndPin' | 'leastTail', number>>) {
  return {
    leastPin: { ...bounds.leastPin, width: bounds.leastPin.width + by.leastPin },
    leastEndPin: { ...bounds.leastEndPin, width: bounds.leastEndPin.width + by.leastEndPin },
    leastTail: { ...bounds.leastTail, width: bounds.leastTail.width + by.leastTail },
  };
}

function scaled({ width, request, bounds }: TailJob, by: number): TailJob {
  const { tails, ratio, seed, spread, spacing, ...lengths } = request;
  const times = (one: unknown): unknown =>
    typeof one === 'number'
      ? one * by
      : Object.fromEntries(Object.entries(one as object).map(([key, value]) => [key, times(value)]));
  const counts = Object.fromEntries(
    Object.entries({ tails, ratio, seed, spread }).filter(([, value]) => value !== undefined),
  );
  const bound = (one: TailJob['bounds']['leastPin']) => ({ ...one, width: one.width * by });
  return {
    width: width * by,
    request: { spacing, ...counts, ...(times(lengths) as object) },
    bounds: {
      leastPin: bound(bounds.leastPin),
      leastEndPin: bound(bounds.leastEndPin),
      leastTail: bound(bounds.leastTail),
    },
  };
}

function pinIndex(absorb: { part: string; number: number }, { request }: TailJob): number {
  if (absorb.part === 'pin') return 2 * absorb.number;
  return absorb.number === 1 ? 0 : (request.spans?.length ?? 0) - 1;
}
