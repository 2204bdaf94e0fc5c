import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { LayoutFix, LayoutPart } from '../diagnostics/wording/layout-fixes.js';
import type { LayoutRequest } from '../input/types.js';
import { LAYOUT_ROUNDING } from './rules.js';
import type { Bound, FingerBounds, TailBounds } from './types.js';

/** What one place in a row is called and the least width that it may have. */
export interface Limit {
  readonly part: LayoutPart;
  /** Counted among its kind from the reference edge, from 1. */
  readonly number: number;
  readonly least: Bound;
}

/** The limit at each place of a row of `count` spans. */
export type Limits = (index: number, count: number) => Limit;

/** Half-pin, tail, pin, tail, … half-pin. */
export function tailLimits(bounds: TailBounds): Limits {
  return (index, count) => {
    if (index % 2 === 1) return { part: 'tail', number: (index + 1) / 2, least: bounds.leastTail };
    if (index === 0) return { part: 'half-pin', number: 1, least: bounds.leastEndPin };
    if (index === count - 1) return { part: 'half-pin', number: 2, least: bounds.leastEndPin };
    return { part: 'pin', number: index / 2, least: bounds.leastPin };
  };
}

/** Finger, slot, finger, … of board one. What is a slot in one board is a finger of the other, so both bounds hold everywhere. */
export function fingerLimits(bounds: FingerBounds, start: LayoutRequest['start']): Limits {
  const least = greater(bounds.leastFinger, bounds.leastSlot);
  const first = start === 'two' ? 1 : 0;
  return (index) => ({
    part: (index + first) % 2 === 0 ? 'finger' : 'slot',
    number: Math.floor(index / 2) + 1,
    least,
  });
}

/** The bounds with the least pin that the maker asked for. */
export function withWishes(bounds: TailBounds, request: LayoutRequest): TailBounds {
  if (request.leastPin === undefined) return bounds;
  const wish = { width: request.leastPin, because: 'the least pin asked for' };
  return { ...bounds, leastPin: greater(bounds.leastPin, wish) };
}

export function isNarrow(width: number, least: Bound): boolean {
  return !(width >= least.width - LAYOUT_ROUNDING);
}

/** A span under its least width; `count` of its kind are. */
export function narrowDiagnostic(
  at: string,
  limit: Limit,
  width: number,
  cures: readonly LayoutFix[],
  count = 1,
): Diagnostic {
  return diagnostic('span-narrow', 'refused', at, {
    part: limit.part,
    number: limit.number,
    count,
    width,
    least: limit.least.width,
    because: limit.least.because,
    cures: [...cures, { do: 'tools', what: limit.part, least: width }],
  });
}

function greater(one: Bound, other: Bound): Bound {
  return other.width > one.width ? other : one;
}
