import type { Result } from '../diagnostics/diagnostic.js';
import { parseLayout } from '../input/fields/layout-request.js';
import type { LayoutRequest } from '../input/types.js';
import { layFingers } from './fingers/fingers.js';
import { layTails } from './tails/tails.js';
import type { FingerBounds, LaidOut, TailBounds } from './types.js';

/** What a row is of, and what its tools and its wood allow. */
export type RowRequest =
  | { readonly of: 'tails'; readonly bounds: TailBounds }
  | { readonly of: 'fingers'; readonly bounds: FingerBounds };

/**
 * Lays out a row without a job file: the request is held to the reader's limits, then solved.
 *
 * @param width joint width W, mm, from the reference edge
 * @param at what the places of diagnostics begin with
 */
export function layOutRow(
  row: RowRequest,
  width: number,
  request: LayoutRequest,
  at = 'layout',
): Result<LaidOut> {
  const parsed = parseLayout(width, request, at);
  if (!parsed.ok) return parsed;
  return row.of === 'tails'
    ? layTails(width, parsed.value, row.bounds, at)
    : layFingers(width, parsed.value, row.bounds, at);
}
