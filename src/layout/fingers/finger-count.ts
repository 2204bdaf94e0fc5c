import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { MAX_SPANS } from '../../input/limits.js';
import type { LayoutRequest } from '../../input/types.js';
import { isNarrow } from '../limits.js';
import { FEWEST_FINGERS, LAYOUT_ROUNDING, LIST_TOLERANCE, MAX_SUITABLE, ORDINARY_FINGER } from '../rules.js';
import { largestThat } from '../search.js';
import { sharingOf } from '../tails/sharing.js';
import type { Bound } from '../types.js';

/** What settles how many fingers and slots fill a joint. Lengths in mm. */
export interface FingerRow {
  readonly width: number;
  readonly request: LayoutRequest;
  /** Least width of any finger or slot. */
  readonly least: Bound;
  readonly at: string;
}

export interface FingerCount {
  /** Fingers and slots together. */
  readonly count: number;
  /** Board widths that suit the wanted finger better, nearest first. */
  readonly suitableWidths: readonly number[];
}

/**
 * The number of fingers and slots: the one asked for; the one whose fingers come nearest to the wanted width;
 * or one of the solver's own. Odd wherever it is free, with the reason.
 */
export function fingerCount(row: FingerRow): Result<FingerCount> {
  const { request } = row;
  const wanted = wantedFinger(request);
  if (request.fingers !== undefined) return asked(row, request.fingers, wanted);
  if (wanted !== undefined) return byFinger(row, wanted);
  return ofOurOwn(row);
}

/** The greatest number of fingers and slots that the request's rule shares out without one under the least. */
export function mostFingers({ width, request, least }: FingerRow): number {
  const share = sharingOf(request).tails;
  const even = Math.floor(width / least.width + LAYOUT_ROUNDING);
  return largestThat(Math.min(even, MAX_SPANS), (count) =>
    share(width, count, least.width).every((finger) => !isNarrow(finger, least)),
  );
}

function wantedFinger(request: LayoutRequest): number | undefined {
  return request.finger ?? (request.pitch === undefined ? undefined : request.pitch / 2);
}

function asked(row: FingerRow, count: number, wanted: number | undefined): Result<FingerCount> {
  const { width, at } = row;
  const sum = count * (wanted ?? width / count);
  if (Math.abs(sum - width) > LIST_TOLERANCE) {
    return err([
      diagnostic('layout-disagrees', 'refused', `${at}.fingers`, {
        sum,
        width,
        leaveBlank: 'fingers',
        widths: [sum],
      }),
    ]);
  }
  return ok({ count, suitableWidths: [] });
}

/** An exact fill, odd or even, since the width was asked for; else the nearest odd number that can be cut. */
function byFinger(row: FingerRow, wanted: number): Result<FingerCount> {
  const { width, at } = row;
  const whole = Math.round(width / wanted);
  if (whole > MAX_SPANS) {
    const what = 'fingers and slots';
    return err([
      diagnostic('layout-too-many', 'refused', `${at}.finger`, { what, read: whole, most: MAX_SPANS }),
    ]);
  }
  if (whole >= 2 && Math.abs(whole * wanted - width) <= LIST_TOLERANCE) {
    return ok({ count: whole, suitableWidths: [] }, [reason(row, whole, 'exact')]);
  }
  const count = nearestOdd(row, wanted);
  const widths = suitableWidths(width, wanted);
  return ok({ count, suitableWidths: widths }, [
    reason(row, count, 'nearest'),
    diagnostic('finger-not-as-wanted', 'caution', `${at}.finger`, {
      wanted,
      finger: width / count,
      count,
      widths,
    }),
  ]);
}

function nearestOdd(row: FingerRow, wanted: number): number {
  const below = Math.max(3, greatestOdd(row.width / wanted));
  const above = below + 2;
  const miss = (count: number): number => Math.abs(row.width / count - wanted);
  return miss(above) < miss(below) && above <= mostFingers(row) ? above : below;
}

/** Fingers about 1/2 in, at least five on a narrow board, as far as the tools can cut them. */
function ofOurOwn(row: FingerRow): Result<FingerCount> {
  const ordinary = Math.min(ORDINARY_FINGER, row.width / FEWEST_FINGERS);
  const most = greatestOdd(mostFingers(row));
  const fit = greatestOdd(row.width / ordinary);
  const count = Math.max(3, Math.min(fit, most));
  const why = most < fit ? 'least' : ordinary === ORDINARY_FINGER ? 'ordinary' : 'fewest';
  return ok({ count, suitableWidths: [] }, [reason(row, count, why)]);
}

type Why = 'exact' | 'nearest' | 'least' | 'ordinary' | 'fewest';

function reason({ width, request, least, at }: FingerRow, count: number, why: Why): Diagnostic {
  const finger = width / count;
  return diagnostic('fingers-chosen', 'ok', `${at}.fingers`, {
    count,
    finger,
    alike: request.spacing === 'even',
    why,
    because: least.because,
  });
}

/** Odd numbers of the wanted finger from half to one and a half times the width, nearest first. */
function suitableWidths(width: number, finger: number): readonly number[] {
  const middle = greatestOdd(width / finger);
  return Array.from({ length: 2 * MAX_SUITABLE + 1 }, (_, i) => middle + 2 * (i - MAX_SUITABLE))
    .filter((count) => count >= 3)
    .map((count) => count * finger)
    .filter((one) => one >= width / 2 && one <= width * 1.5)
    .sort((one, other) => Math.abs(one - width) - Math.abs(other - width))
    .slice(0, MAX_SUITABLE);
}

/** The greatest odd whole number up to `limit`. */
export function greatestOdd(limit: number): number {
  const whole = Math.floor(limit + LAYOUT_ROUNDING);
  return whole % 2 === 0 ? whole - 1 : whole;
}
