import { type Diagnostic, diagnostic, ok, type Result } from '../../diagnostics/diagnostic.js';
import { MAX_TAILS } from '../../input/limits.js';
import { HALF_PIN_SHARE, LAYOUT_ROUNDING, ORDINARY_TAIL, TAIL_TO_PIN } from '../rules.js';
import { atPitch } from './pitch.js';
import {
  halfPinFor,
  halfPinReason,
  mostTails,
  narrowestTail,
  type Proportions,
  type Row,
  spaceOf,
} from './row.js';

/** Fills in the number of tails, the pin and the half-pin where they are blank, with the reason for each. */
export function proportionsOf(row: Row): Result<Proportions> {
  return row.request.pitch === undefined ? withoutPitch(row) : atPitch(row, row.request.pitch);
}

function withoutPitch(row: Row): Result<Proportions> {
  const tailsAsked = row.request.tails;
  const pin = choosePin(row);
  const endPin = halfPinFor(row, pin.value);
  const tails =
    tailsAsked === undefined ? chooseTails(row, pin.value, endPin) : { value: tailsAsked, reasons: [] };
  return ok({ tails: tails.value, pin: pin.value, endPin, suitableWidths: [] }, [
    ...tails.reasons,
    ...(tails.value > 1 ? pin.reasons : []),
    ...halfPinReason(row, pin.value),
  ]);
}

interface Choice {
  readonly value: number;
  readonly reasons: readonly Diagnostic[];
}

/**
 * The pin asked for. Else, for a number of tails, a quarter of them; for a free number, a quarter of the
 * widest ordinary tail, or of one of two tails on a narrow board. Never under what can be cut.
 */
function choosePin(row: Row): Choice {
  const { request, bounds, at } = row;
  if (request.pin !== undefined) return { value: request.pin, reasons: [] };
  const quarter = pinBeside(row, request.tails ?? 2, { timesPin: TAIL_TO_PIN });
  const roomy =
    request.tails === undefined ? Infinity : pinBeside(row, request.tails, { wide: bounds.leastTail.width });
  const ordinary = request.tails === undefined ? ORDINARY_TAIL / TAIL_TO_PIN : Infinity;
  const value = Math.max(bounds.leastPin.roomy ?? bounds.leastPin.width, Math.min(quarter, roomy, ordinary));
  const why =
    value === quarter ? 'quarter' : value === roomy ? 'room' : value === ordinary ? 'ordinary' : 'least';
  return {
    value,
    reasons: [
      diagnostic('pin-chosen', 'ok', `${at}.pin`, { pin: value, why, because: bounds.leastPin.because }),
    ],
  };
}

/**
 * The fewest tails that keep within four times their pins and 1-3/4 in, for fewer tails are fewer passes;
 * held back where the narrowest would fall under what can be cut or under its pins.
 */
function chooseTails(row: Row, pin: number, endPin: number): Choice {
  const { width, bounds, at } = row;
  const widest = Math.min(TAIL_TO_PIN * pin, ORDINARY_TAIL);
  const fewest = Math.max(1, Math.ceil((width - 2 * endPin + pin) / (widest + pin) - LAYOUT_ROUNDING));
  const least = Math.max(bounds.leastTail.roomy ?? bounds.leastTail.width, pin);
  const most = Math.max(1, mostTails(row, pin, endPin, least));
  if (fewest <= most || fewest > MAX_TAILS) {
    const tail = spaceOf(width, { tails: fewest, pin, endPin }) / fewest;
    return {
      value: fewest,
      reasons: [
        diagnostic('tails-chosen', 'ok', `${at}.tails`, {
          tails: fewest,
          tail,
          alike: row.request.spacing === 'even',
          most: widest,
          ordinary: ORDINARY_TAIL,
        }),
      ],
    };
  }
  const narrowest = narrowestTail(row, { tails: most + 1, pin, endPin }, least);
  const because = bounds.leastTail.width >= pin ? { because: bounds.leastTail.because } : {};
  return {
    value: most,
    reasons: [diagnostic('tails-held', 'ok', `${at}.tails`, { tails: most, narrowest, least, ...because })],
  };
}

/** The pin that leaves each of so many tails `timesPin` pins, or `wide` mm; unlimited where no pin stands in the way. */
function pinBeside(
  row: Row,
  tails: number,
  tail: { readonly timesPin?: number; readonly wide?: number },
): number {
  const { width, request, bounds } = row;
  const withEnds = (ends: number, shareOfPin: number): number => {
    const pins = tails - 1 + 2 * shareOfPin + tails * (tail.timesPin ?? 0);
    return pins > 0 ? (width - 2 * ends - tails * (tail.wide ?? 0)) / pins : Infinity;
  };
  if (request.endPin !== undefined) return withEnds(request.endPin, 0);
  return Math.min(withEnds(0, HALF_PIN_SHARE), withEnds(bounds.leastEndPin.width, 0));
}
