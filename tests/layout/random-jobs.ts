import fc from 'fast-check';
import type { LayoutRequest, Spacing } from '../../src/input/types.js';
import type { FingerBounds, TailBounds } from '../../src/layout/types.js';

/** Random jobs for a layout: what a maker may ask for and what bits, bushing and plate may allow. Lengths in mm. */

export interface TailJob {
  readonly width: number;
  readonly request: LayoutRequest;
  readonly bounds: TailBounds;
}

export interface FingerJob {
  readonly width: number;
  readonly request: LayoutRequest;
  readonly bounds: FingerBounds;
}

export const AT = 'joints.drawer.layout';

/** Uniform to a nanometre; doubles by their bits would nearly all lie next to nought. */
export const mm = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(least * 1e6), max: Math.round(most * 1e6) }).map((nm) => nm / 1e6);

const bound = (least: number, most: number, because: string) =>
  mm(least, most).map((width) => ({ width, because }));

export const tailBounds: fc.Arbitrary<TailBounds> = fc.record({
  leastPin: bound(2, 20, 'the dovetail bit'),
  leastEndPin: bound(1, 12, 'the plate'),
  leastTail: bound(2, 16, 'the straight bit'),
});

export const fingerBounds: fc.Arbitrary<FingerBounds> = fc.record({
  leastFinger: bound(2, 14, 'the plate'),
  leastSlot: bound(2, 14, 'the straight bit'),
});

type Fields = { readonly [K in keyof LayoutRequest]?: fc.Arbitrary<NonNullable<LayoutRequest[K]>> };

/** Each field given about half the time. */
function asked(spacing: Spacing, fields: Fields): fc.Arbitrary<LayoutRequest> {
  return fc
    .record(fields as Record<string, fc.Arbitrary<unknown>>, { requiredKeys: [] })
    .map((some) => ({ ...some, spacing }) as LayoutRequest);
}

const groove = fc.record({ from: mm(1, 30), width: mm(3, 8) });

const tailFields: Fields = {
  tails: fc.integer({ min: 1, max: 12 }),
  pin: mm(4, 24),
  endPin: mm(2, 16),
  leastPin: mm(1, 12),
  groove,
};

const fingerFields: Fields = {
  start: fc.constantFrom('one', 'two'),
  groove,
};

const own: Readonly<Record<'even' | 'graduated' | 'mirrored' | 'varied', Fields>> = {
  even: {},
  graduated: { ratio: mm(0.7, 1.5) },
  mirrored: { ratio: mm(0.7, 1.5) },
  varied: { seed: fc.integer(), spread: mm(0, 0.9) },
};

export type RuledSpacing = keyof typeof own;

/** Jobs whose widths follow a rule. Half of them ask for a pitch and then for no number of tails beside it. */
export function ruledTails(spacing: RuledSpacing): fc.Arbitrary<TailJob> {
  const { tails, endPin, ...pitched } = tailFields;
  const request = fc.oneof(
    asked(spacing, { ...tailFields, ...own[spacing] }),
    asked(spacing, { ...pitched, ...own[spacing], pitch: mm(15, 80) }),
  );
  return fc.record({ width: mm(60, 900), request, bounds: tailBounds });
}

export function ruledFingers(spacing: RuledSpacing): fc.Arbitrary<FingerJob> {
  const request = fc.oneof(
    asked(spacing, { ...fingerFields, ...own[spacing], finger: mm(6, 40) }),
    asked(spacing, { ...fingerFields, ...own[spacing], fingers: fc.integer({ min: 2, max: 40 }) }),
  );
  return fc.record({ width: mm(60, 900), request, bounds: fingerBounds });
}

/** Whole lists and half lists; most close on the width or miss it by what is made good, some miss it by more. */
export function listedSpans(spacing: 'list' | 'mirrored', fewest: number, oddOnly: boolean) {
  const miss = fc.oneof(
    { arbitrary: fc.constant(0), weight: 3 },
    { arbitrary: mm(-0.0099, 0.0099), weight: 4 },
    { arbitrary: mm(-4, 4), weight: 1 },
  );
  return fc
    .array(mm(7, 60), { minLength: fewest, maxLength: 41 })
    .filter((spans) => !oddOnly || spans.length % 2 === 1)
    .chain((spans) => {
      const full = spacing === 'mirrored' ? [...spans, ...spans.slice(0, -1)] : spans;
      const sum = full.reduce((total, one) => total + one, 0);
      return fc.record({
        width: miss.map((one) => sum + one),
        request: asked(spacing, { groove }).map((request) => ({ ...request, spans })),
      });
    });
}

const easy = { least: 2, most: 8 } as const;

export function listedTails(spacing: 'list' | 'mirrored'): fc.Arbitrary<TailJob> {
  const bounds = fc.record({
    leastPin: bound(easy.least, easy.most, 'the dovetail bit'),
    leastEndPin: bound(easy.least, easy.most, 'the plate'),
    leastTail: bound(easy.least, easy.most, 'the straight bit'),
  });
  return fc
    .tuple(listedSpans(spacing, spacing === 'list' ? 3 : 2, spacing === 'list'), bounds)
    .map(([listed, some]) => ({ ...listed, bounds: some }));
}

export function listedFingers(spacing: 'list' | 'mirrored'): fc.Arbitrary<FingerJob> {
  const bounds = fc.record({
    leastFinger: bound(easy.least, easy.most, 'the plate'),
    leastSlot: bound(easy.least, easy.most, 'the straight bit'),
  });
  return fc
    .tuple(listedSpans(spacing, 2, false), bounds)
    .map(([listed, some]) => ({ ...listed, bounds: some }));
}
