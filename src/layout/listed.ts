import { diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { SPANS } from '../input/limits.js';
import type { LayoutRequest } from '../input/types.js';
import { isNarrow, type Limits, narrowDiagnostic } from './limits.js';
import type { RowKind } from './request.js';
import { LAYOUT_ROUNDING, LIST_TOLERANCE } from './rules.js';
import type { Widths } from './spans.js';

/**
 * Widths of every span from the maker's own list, or from half a list and its mirror image. In half a list the
 * last span is the middle one and stands once: parts alternate, so doubled it would lie beside its like.
 * A sum within 0.01 mm of `width` is made exact on the spans with most to spare; others are refused with the
 * span that could take up the difference.
 */
export function listedWidths(
  kind: RowKind,
  width: number,
  request: LayoutRequest,
  limits: Limits,
  at: string,
): Result<Widths> {
  const written = request.spans ?? [];
  const mirrored = request.spacing === 'mirrored';
  const [read, least] = [written.length, SPANS.leastTails];
  if (kind === 'tails' && !mirrored && (read < least || read % 2 === 0)) {
    return err([diagnostic('spans-count', 'refused', `${at}.spans`, { read, least })]);
  }
  const full = mirrored ? [...written, ...written.slice(0, -1).reverse()] : written;
  return fitted({ width, written, full, mirrored, limits, at });
}

interface Listing {
  readonly width: number;
  readonly written: readonly number[];
  readonly full: readonly number[];
  readonly mirrored: boolean;
  readonly limits: Limits;
  readonly at: string;
}

function fitted(listing: Listing): Result<Widths> {
  const { width, full, limits, at, written } = listing;
  const sum = full.reduce((total, one) => total + one, 0);
  const closes = Math.abs(width - sum) <= LIST_TOLERANCE;
  const widths = closes ? madeExact(listing, width - sum) : full;
  const troubles = widths.slice(0, written.length).flatMap((span, index) => {
    const limit = limits(index, full.length);
    return isNarrow(span, limit.least)
      ? [
          narrowDiagnostic(`${at}.spans.${index}`, limit, span, [
            { do: 'widen', what: limit.part, to: limit.least.width },
          ]),
        ]
      : [];
  });
  if (closes && troubles.length === 0) return ok({ widths, suitableWidths: [] });
  return err(closes ? troubles : [offBy(listing, sum), ...troubles]);
}

/** The difference, shared by the spans with most to spare, so that a list that mirrors still does. */
function madeExact({ full, limits }: Listing, difference: number): readonly number[] {
  const spare = full.map((span, index) => span - limits(index, full.length).least.width);
  const most = Math.max(...spare);
  const takers = spare.filter((one) => one > most - LAYOUT_ROUNDING).length;
  return full.map((span, index) =>
    (spare[index] ?? 0) > most - LAYOUT_ROUNDING ? span + difference / takers : span,
  );
}

function offBy({ width, written, full, mirrored, limits, at }: Listing, sum: number) {
  const candidates = written.map((from, index) => {
    const limit = limits(index, full.length);
    const paired = mirrored && index < written.length - 1;
    const to = from + (width - sum) / (paired ? 2 : 1);
    return { part: limit.part, number: limit.number, paired, from, to, spare: to - limit.least.width };
  });
  const best = candidates.reduce((one, other) => (other.spare > one.spare ? other : one));
  const { spare, ...absorb } = best;
  return diagnostic('spans-sum', 'refused', `${at}.spans`, {
    sum,
    width,
    ...(spare >= 0 ? { absorb } : {}),
  });
}
