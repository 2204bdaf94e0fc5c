import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { LayoutRequest } from '../input/types.js';
import { LAYOUT_ROUNDING, ORDINARY_TAIL, TAIL_TO_PIN, VARIED_SEED, VARIED_SPREAD } from './rules.js';
import { defaultRatio } from './tails/sharing.js';
import type { Layout, Span } from './types.js';

/** What was filled in for a spacing of its own kind among `count` tails or fingers. */
export function sharingRemarks(request: LayoutRequest, count: number, at: string): readonly Diagnostic[] {
  if (request.spacing === 'varied') {
    const seed = request.seed ?? VARIED_SEED;
    const spread = request.spread ?? VARIED_SPREAD;
    return [diagnostic('varied-by-seed', 'ok', `${at}.seed`, { seed, spread })];
  }
  if (request.ratio !== undefined) return [];
  if (request.spacing === 'graduated') {
    return [
      diagnostic('ratio-chosen', 'ok', `${at}.ratio`, { ratio: defaultRatio(count), toward: 'far edge' }),
    ];
  }
  if (request.spacing === 'mirrored') {
    const ratio = defaultRatio(Math.ceil(count / 2));
    return [diagnostic('ratio-chosen', 'ok', `${at}.ratio`, { ratio, toward: 'middle' })];
  }
  return [];
}

/** Where a row of tails that can be cut departs from what is usual. */
export function looksOfTails(layout: Layout, at: string): readonly Diagnostic[] {
  const tails = layout.spans.filter((span) => span.part === 'tail').map(widthOf);
  const pins = layout.spans
    .slice(1, -1)
    .filter((span) => span.part === 'pin')
    .map(widthOf);
  const pin = pins.length > 0 ? Math.max(...pins) : undefined;
  const endPin = Math.min(
    ...[layout.spans[0], layout.spans.at(-1)].flatMap((span) => (span ? [widthOf(span)] : [])),
  );
  const widest = Math.max(...tails);
  const narrowest = Math.min(...tails);
  const usual = Math.min(TAIL_TO_PIN * (pin ?? Infinity), ORDINARY_TAIL);
  return [
    ...(widest > usual + SEEN
      ? [
          diagnostic('tail-over-usual', 'ok', at, {
            tail: widest,
            usual,
            ordinary: ORDINARY_TAIL,
            ...(pin !== undefined && { pin }),
          }),
        ]
      : []),
    ...(pin !== undefined && narrowest < pin - SEEN
      ? [
          diagnostic('tail-under-pin', 'caution', at, {
            number: tails.indexOf(narrowest) + 1,
            tail: narrowest,
            pin,
          }),
        ]
      : []),
    ...(pin !== undefined && endPin < pin / 2 + LAYOUT_ROUNDING
      ? [diagnostic('half-pin-slight', 'caution', at, { endPin, pin })]
      : []),
  ];
}

/** Differences smaller than this, mm, are no difference to the eye. */
const SEEN = 0.01;

function widthOf(span: Span): number {
  return span.to - span.from;
}
