import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { LayoutPart } from '../diagnostics/wording/layout-fixes.js';
import type { Layout } from '../layout/types.js';

/** What the parts of a layout are called, counted among their kind from the reference edge. */
export function nameOfSpan({ spans }: Layout, index: number): string {
  const span = spans[index];
  if (!span) return '';
  if (span.part === 'pin' && index === 0) return 'half-pin at the reference edge';
  if (span.part === 'pin' && index === spans.length - 1) return 'half-pin at the far edge';
  const number = spans
    .slice(0, index + 1)
    .filter((one, at) => one.part === span.part && !(one.part === 'pin' && at === 0)).length;
  return `${span.part} ${number}`;
}

/** The span that a diagnostic speaks of, where it speaks of one. */
export function spanOf(one: Diagnostic, { spans }: Layout): number | undefined {
  const listed = /\.spans\.(\d+)$/.exec(one.at);
  if (listed) return Number(listed[1]);
  switch (one.code) {
    case 'half-pin-slight':
      return 0;
    case 'tail-under-pin':
      return positionOf('tail', one.data.number, spans);
    case 'span-narrow':
      return positionOf(one.data.part, one.data.number, spans);
    default:
      return undefined;
  }
}

function positionOf(part: LayoutPart, number: number, spans: Layout['spans']): number | undefined {
  if (part === 'half-pin') return number === 1 ? 0 : spans.length - 1;
  const first = part === 'pin' ? 1 : 0;
  return spans.flatMap((span, index) => (span.part === part && index >= first ? [index] : []))[number - 1];
}
