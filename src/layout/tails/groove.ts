import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { LayoutRequest } from '../../input/types.js';
import { LAYOUT_ROUNDING } from '../rules.js';
import type { Layout, Span } from '../types.js';

type Groove = NonNullable<LayoutRequest['groove']>;

/** Where a bottom groove meets a row of tails: inside one, or how to bring it there. `leastEndPin` in mm. */
export function grooveInTails(
  layout: Layout,
  groove: Groove | undefined,
  leastEndPin: number,
  at: string,
): readonly Diagnostic[] {
  if (groove === undefined) return [];
  if (isOffBoard(layout, groove)) return [offBoard(layout, groove, at)];
  const tails = layout.spans.filter((span) => span.part === 'tail');
  const inside = tails.findIndex((tail) => shiftInto(tail, groove) === 0);
  if (inside >= 0) return [diagnostic('groove-in-tail', 'ok', `${at}.groove`, { tail: inside + 1 })];
  const near = nearestSpan(tails, groove);
  const first = tails[0];
  const underFirst =
    first !== undefined && groove.from < first.from && groove.from + groove.width <= first.to;
  return [
    diagnostic('groove-outside-tails', 'caution', `${at}.groove`, {
      from: groove.from,
      to: groove.from + groove.width,
      ...(near && {
        tail: { number: near.index + 1, from: near.span.from, to: near.span.to },
        shift: near.shift,
      }),
      ...(underFirst && groove.from >= leastEndPin && { endPin: groove.from }),
    }),
  ];
}

/** Which board's finger a bottom groove comes out in, or that it comes out in both boards'. */
export function grooveInFingers(
  layout: Layout,
  groove: Groove | undefined,
  at: string,
): readonly Diagnostic[] {
  if (groove === undefined) return [];
  if (isOffBoard(layout, groove)) return [offBoard(layout, groove, at)];
  const inside = layout.spans.findIndex((span) => shiftInto(span, groove) === 0);
  const span = layout.spans[inside];
  if (span !== undefined) {
    const board = span.part === 'finger' ? 'one' : 'two';
    const number = layout.spans.slice(0, inside + 1).filter((one) => one.part === span.part).length;
    return [diagnostic('groove-in-finger', 'ok', `${at}.groove`, { board, number })];
  }
  const near = nearestSpan(layout.spans, groove);
  return [
    diagnostic('groove-across-fingers', 'caution', `${at}.groove`, {
      from: groove.from,
      to: groove.from + groove.width,
      ...(near && { shift: near.shift }),
    }),
  ];
}

/** The least move that brings the groove inside the span, signed; nothing when the span is too narrow. */
function shiftInto(span: Span, groove: Groove): number | undefined {
  if (groove.width > span.to - span.from + LAYOUT_ROUNDING) return undefined;
  if (groove.from < span.from - LAYOUT_ROUNDING) return span.from - groove.from;
  const past = groove.from + groove.width - span.to;
  return past > LAYOUT_ROUNDING ? -past : 0;
}

interface Near {
  readonly span: Span;
  readonly index: number;
  readonly shift: number;
}

function nearestSpan(spans: readonly Span[], groove: Groove): Near | undefined {
  return spans
    .flatMap((span, index) => {
      const shift = shiftInto(span, groove);
      return shift === undefined ? [] : [{ span, index, shift }];
    })
    .reduce<Near | undefined>(
      (best, one) => (best === undefined || Math.abs(one.shift) < Math.abs(best.shift) ? one : best),
      undefined,
    );
}

function isOffBoard(layout: Layout, groove: Groove): boolean {
  return groove.from + groove.width > layout.width + LAYOUT_ROUNDING;
}

function offBoard(layout: Layout, groove: Groove, at: string): Diagnostic {
  return diagnostic('groove-off-board', 'refused', `${at}.groove`, {
    from: groove.from,
    to: groove.from + groove.width,
    width: layout.width,
  });
}
