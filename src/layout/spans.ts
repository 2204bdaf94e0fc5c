import type { Layout, Span } from './types.js';

/** Widths from the reference edge on, and boards that would suit better. */
export interface Widths {
  readonly widths: readonly number[];
  readonly suitableWidths: readonly number[];
}

/**
 * Spans end to end from the reference edge, from widths in mm that sum to `width` within rounding; the last
 * one ends at `width` exactly.
 */
export function layoutOf(
  width: number,
  widths: readonly number[],
  partAt: (index: number) => Span['part'],
): Layout {
  const spans: Span[] = [];
  let from = 0;
  for (const [index, span] of widths.entries()) {
    const to = index === widths.length - 1 ? width : from + span;
    spans.push({ part: partAt(index), from, to });
    from = to;
  }
  return { width, spans };
}
