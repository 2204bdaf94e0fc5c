import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layFingers } from '../../src/layout/fingers/fingers.js';
import { isMirrorImage } from '../../src/layout/mirror.js';
import { EXACT, fillsTheBoard, overAccepted, RUNS, ratios, widthsOf, worst } from './laws.js';
import { AT, type FingerJob, listedFingers, mm, type RuledSpacing, ruledFingers } from './random-jobs.js';

const RULED: readonly RuledSpacing[] = ['even', 'graduated', 'mirrored', 'varied'];

const lay = ({ width, request, bounds }: FingerJob) => layFingers(width, request, bounds, AT);

/** What is a slot in one board is a finger in the other, so every span answers to both bounds. */
const leastOf = ({ bounds }: FingerJob) => Math.max(bounds.leastFinger.width, bounds.leastSlot.width);

describe.each([
  ...RULED.map((spacing) => ({ spacing, how: 'by rule', jobs: ruledFingers(spacing) })),
  { spacing: 'list', how: 'of given spans', jobs: listedFingers('list') },
  { spacing: 'mirrored', how: 'of given spans', jobs: listedFingers('mirrored') },
])('$spacing fingers $how', ({ jobs }) => {
  test('fill the board, hold both bounds, begin on the board that was asked', () => {
    overAccepted(jobs, lay, (job, { layout }) => {
      fillsTheBoard(layout, job.width);
      expect(Math.min(...widthsOf(layout))).toBeGreaterThan(leastOf(job) - 2 * EXACT);
      expect(layout.spans[0]?.part).toBe(job.request.start === 'two' ? 'slot' : 'finger');
      if (job.request.fingers !== undefined) expect(layout.spans.length).toBe(job.request.fingers);
    });
  });

  test('the same request gives the same layout', () => {
    fc.assert(
      fc.property(jobs, (job) => {
        expect(lay(structuredClone(job))).toEqual(lay(job));
      }),
      { numRuns: RUNS },
    );
  });
});

test('even: every finger and slot is as wide as the next', () => {
  overAccepted(ruledFingers('even'), lay, ({ width }, { layout }) => {
    const count = layout.spans.length;
    expect(worst(widthsOf(layout), Array(count).fill(width / count))).toBeLessThan(EXACT);
  });
});

test('even: a free number is odd, so both edges look alike, unless the wanted finger fills the board', () => {
  const free = ruledFingers('even').filter(({ request }) => request.fingers === undefined);
  overAccepted(free, lay, (_job, { layout }, diagnostics) => {
    const exact = diagnostics.some((one) => one.code === 'fingers-chosen' && one.data.why === 'exact');
    expect(isMirrorImage(layout) || exact).toBe(true);
  });
});

test('even: no other odd number of fingers that can be cut comes nearer to the wanted width', () => {
  const wanting = ruledFingers('even').filter(({ request }) => request.finger !== undefined);
  overAccepted(wanting, lay, (job, { layout }) => {
    const wanted = job.request.finger ?? 0;
    const miss = Math.abs(job.width / layout.spans.length - wanted);
    let nearest = Infinity;
    for (let count = 3; count < 300; count += 2) {
      if (job.width / count < leastOf(job)) break;
      nearest = Math.min(nearest, Math.abs(job.width / count - wanted));
    }
    expect(miss).toBeLessThan(nearest + EXACT);
  });
});

test('graduated: each span is the asked ratio times the one before it', () => {
  overAccepted(ruledFingers('graduated'), lay, ({ request }, { layout }) => {
    const spans = widthsOf(layout);
    const ratio = request.ratio ?? (spans[1] ?? 1) / (spans[0] ?? 1);
    const steps = ratios(spans);
    expect(worst(steps, Array(steps.length).fill(ratio))).toBeLessThan(EXACT);
  });
});

test.each([
  { how: 'by rule', jobs: ruledFingers('mirrored') },
  { how: 'half a list', jobs: listedFingers('mirrored') },
])('mirrored $how: widths mirror, and with an odd number the parts do too', ({ jobs }) => {
  overAccepted(jobs, lay, (_job, { layout }) => {
    const spans = widthsOf(layout);
    expect(worst(spans, spans.toReversed())).toBeLessThan(EXACT);
    expect(isMirrorImage(layout)).toBe(spans.length % 2 === 1);
  });
});

test('varied: every span stays within the asked spread of even', () => {
  overAccepted(ruledFingers('varied'), lay, ({ width, request }, { layout }) => {
    const count = layout.spans.length;
    const even = width / count;
    const stray = (request.spread ?? 0.25) * even;
    expect(worst(widthsOf(layout), Array(count).fill(even))).toBeLessThan(stray + EXACT);
  });
});

test.each(RULED)('%s: a wider bound never gives more fingers', (spacing) => {
  const free = ruledFingers(spacing).filter(({ request }) => request.fingers === undefined);
  let fewer = 0;
  fc.assert(
    fc.property(free, mm(0, 12), (job, by) => {
      const leastSlot = { ...job.bounds.leastSlot, width: job.bounds.leastSlot.width + by };
      const [one, other] = [lay(job), lay({ ...job, bounds: { ...job.bounds, leastSlot } })];
      if (!one.ok || !other.ok) return;
      const [before, after] = [one.value.layout.spans.length, other.value.layout.spans.length];
      expect(after).toBeLessThanOrEqual(before);
      if (after < before) fewer += 1;
    }),
    { numRuns: RUNS, seed: 5 },
  );
  expect(fewer).toBeGreaterThan(20);
});
