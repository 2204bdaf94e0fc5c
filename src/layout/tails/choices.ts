import { MAX_TAILS } from '../../input/limits.js';
import type { LayoutRequest } from '../../input/types.js';
import { mostFingers } from '../fingers/finger-count.js';
import { fingerLimits, isNarrow, withWishes } from '../limits.js';
import { isListed } from '../request.js';
import { LAYOUT_ROUNDING } from '../rules.js';
import type { FingerBounds, TailBounds } from '../types.js';
import { proportionsOf } from './proportions.js';
import { mostTails, narrowestTail, type Proportions, type Row } from './row.js';
import { sharingOf } from './sharing.js';

/**
 * Ways to fill in the blank fields of a row, in order of preference: the number that proportion asks for, then the
 * numbers next to it; for each the pins of proportion, then the least ones. Only what the bounds allow is given.
 */
export function* tailChoices(
  width: number,
  request: LayoutRequest,
  bounds: TailBounds,
): Generator<LayoutRequest> {
  if (isListed(request)) {
    yield request;
    return;
  }
  const wished = withWishes(bounds, request);
  const row: Row = { width, request, bounds: wished, share: sharingOf(request).tails, at: '' };
  const liked = proportionsOf(row);
  const counts =
    request.tails === undefined
      ? nearestFirst(liked.ok ? liked.value.tails : 1, mostTailsOf(row))
      : [request.tails];
  for (const tails of counts) {
    for (const pins of pinsToTry(request, wished)) {
      const filled: Row = { ...row, request: { ...request, ...pins, tails } };
      const solved = proportionsOf(filled);
      if (!solved.ok || !proportionsFit(filled, solved.value)) continue;
      const { pin, endPin } = solved.value;
      yield { ...request, tails, endPin, ...(tails > 1 && { pin }) };
    }
  }
}

/** Ways to choose the number of fingers and slots: odd ones first, the number that proportion asks for, then fewer. */
export function* fingerChoices(
  width: number,
  request: LayoutRequest,
  bounds: FingerBounds,
): Generator<LayoutRequest> {
  if (!hasFreeCount(request)) return;
  const { least } = fingerLimits(bounds, request.start)(0, 2);
  const most = mostFingers({ width, request, least, at: '' });
  for (const odd of [1, 0]) {
    for (let fingers = most; fingers >= 2; fingers -= 1) {
      if (fingers % 2 === odd) yield { ...request, fingers };
    }
  }
}

/** Whether the number of tails or fingers is left to the solver. */
export function hasFreeCount(request: LayoutRequest): boolean {
  const asked = request.tails ?? request.fingers ?? request.finger ?? request.pitch;
  return !isListed(request) && asked === undefined;
}

/** Whole numbers from 1 to `most`, those next to `liked` first and the lesser of two first. */
export function nearestFirst(liked: number, most: number): readonly number[] {
  const from = Math.min(liked, most);
  return Array.from({ length: Math.max(0, most) }, (_, index) => index + 1).sort(
    (one, other) => Math.abs(one - from) - Math.abs(other - from) || one - other,
  );
}

/** As many tails as stand on the board beside the least pins. */
function mostTailsOf(row: Row): number {
  const { request, bounds, width } = row;
  const pin = request.pin ?? bounds.leastPin.width;
  const endPin = request.endPin ?? bounds.leastEndPin.width;
  if (request.pitch !== undefined) return Math.min(MAX_TAILS, Math.floor(width / request.pitch) + 1);
  return mostTails(row, pin, endPin, bounds.leastTail.width);
}

type Pins = Pick<LayoutRequest, 'pin' | 'endPin'>;

function pinsToTry(request: LayoutRequest, { leastPin, leastEndPin }: TailBounds): readonly Pins[] {
  const pins: readonly Pins[] =
    request.pin === undefined
      ? [{}, { pin: leastPin.roomy ?? leastPin.width }, { pin: leastPin.width }]
      : [{}];
  // At a wanted pitch the half-pins take what it leaves.
  const free = request.endPin === undefined && request.pitch === undefined;
  const ends: readonly Pins[] = free ? [{}, { endPin: leastEndPin.width }] : [{}];
  return pins.flatMap((pin) => ends.map((end) => ({ ...pin, ...end })));
}

function proportionsFit(row: Row, { tails, pin, endPin }: Proportions): boolean {
  const { leastPin, leastEndPin, leastTail } = row.bounds;
  return (
    tails <= MAX_TAILS &&
    !isNarrow(endPin, leastEndPin) &&
    (tails === 1 || !isNarrow(pin, leastPin)) &&
    narrowestTail(row, { tails, pin, endPin }) >= leastTail.width - LAYOUT_ROUNDING
  );
}
