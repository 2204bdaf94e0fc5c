import type { Finding } from '../findings/finding.js';
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

/** The span that a finding speaks of, where it speaks of one. */
export function spanOf(one: Finding, { spans }: Layout): number | undefined {
  const listed = /\.spans\.(\d+)$/.exec(one.at);
  if (listed) return Number(listed[1]);
  const data = one.data as { part?: string; number?: number; tail?: unknown; endPin?: number };
  if (one.code === 'half-pin-slight') return 0;
  const part = one.code === 'tail-under-pin' ? 'tail' : data.part;
  if (part === undefined || data.number === undefined) return undefined;
  if (part === 'half-pin') return data.number === 1 ? 0 : spans.length - 1;
  const first = part === 'pin' ? 1 : 0;
  const places = spans.flatMap((span, index) => (span.part === part && index >= first ? [index] : []));
  return places[data.number - 1];
}
