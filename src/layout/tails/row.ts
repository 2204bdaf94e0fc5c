import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { MAX_TAILS } from '../../input/limits.js';
import type { LayoutRequest } from '../../input/types.js';
import { HALF_PIN_SHARE, LAYOUT_ROUNDING } from '../rules.js';
import { largestThat } from '../search.js';
import type { TailBounds } from '../types.js';
import type { Share } from './sharing.js';

/** What settles a row of tails and pins before its room is shared out. Lengths in mm, at the baseline. */
export interface Row {
  readonly width: number;
  readonly request: LayoutRequest;
  readonly bounds: TailBounds;
  readonly share: Share;
  /** Path of the layout's keys in the job file. */
  readonly at: string;
}

/** The tails share what is left of the width. */
export interface Proportions {
  readonly tails: number;
  /** Mean width of an inner pin. */
  readonly pin: number;
  readonly endPin: number;
  /** Board widths that suit a wanted pitch better, nearest first. */
  readonly suitableWidths: readonly number[];
}

/** Room that the tails share, mm. */
export function spaceOf(width: number, row: Pick<Proportions, 'tails' | 'pin' | 'endPin'>): number {
  return width - 2 * row.endPin - (row.tails - 1) * row.pin;
}

/** The greatest number of tails whose narrowest is `least` or more; 0 when even one is not. */
export function mostTails(row: Row, pin: number, endPin: number, least: number): number {
  const even = Math.floor((row.width - 2 * endPin + pin) / (least + pin) + LAYOUT_ROUNDING);
  return largestThat(
    Math.max(0, Math.min(even, MAX_TAILS)),
    (tails) => narrowestTail(row, { tails, pin, endPin }, least) >= least - LAYOUT_ROUNDING,
  );
}

/**
 * Width of the narrowest of a row of tails; negative when the pins alone overfill the board. An irregular row
 * stays at `floor` or more where it can.
 */
export function narrowestTail(
  row: Row,
  proportions: Pick<Proportions, 'tails' | 'pin' | 'endPin'>,
  floor = row.bounds.leastTail.width,
): number {
  const room = spaceOf(row.width, proportions);
  if (room <= 0) return room;
  return row.share(room, proportions.tails, floor).reduce((one, other) => Math.min(one, other));
}

/** The half-pin that goes with a pin: the one asked for, or five eighths of the pin, or the least. */
export function halfPinFor(row: Row, pin: number): number {
  return row.request.endPin ?? Math.max(HALF_PIN_SHARE * pin, row.bounds.leastEndPin.width);
}

/** Why the half-pin is what it is; nothing when it was asked for. */
export function halfPinReason(row: Row, pin: number): readonly Diagnostic[] {
  if (row.request.endPin !== undefined) return [];
  const endPin = halfPinFor(row, pin);
  const { width, because } = row.bounds.leastEndPin;
  const why = width > HALF_PIN_SHARE * pin ? 'least' : 'share';
  return [diagnostic('half-pin-chosen', 'ok', `${row.at}.end-pin`, { endPin, why, because })];
}
