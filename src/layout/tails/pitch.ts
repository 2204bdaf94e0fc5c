import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { LAYOUT_ROUNDING, LIST_TOLERANCE, MAX_SUITABLE, TAIL_TO_PIN } from '../rules.js';
import { halfPinFor, type Proportions, type Row } from './row.js';

/**
 * Proportions at a wanted pitch, mm from one tail's middle to the next (the mean one where tails differ). The
 * pitch is kept and the half-pins take what it leaves; or the pins do, where the half-pin is given. A width
 * suits when it is so many pitches, less a pin, and two proper half-pins.
 */
export function atPitch(row: Row, pitch: number): Result<Proportions> {
  const { pin, endPin } = row.request;
  return pin === undefined && endPin !== undefined
    ? pinsTakeTheRest(row, pitch, endPin)
    : halfPinsTakeTheRest(row, pitch);
}

/** Widths from half to one and a half times the joint's that suit the pitch, nearest first. */
function suitableWidths(row: Row, pitch: number, pin: number, endPin: number): readonly number[] {
  const { width, request } = row;
  const ends = 2 * endPin - pin;
  const nearest = Math.round((width - ends) / pitch);
  const counts =
    request.tails === undefined
      ? Array.from({ length: 2 * MAX_SUITABLE + 1 }, (_, i) => nearest - MAX_SUITABLE + i)
      : [request.tails];
  return counts
    .filter((tails) => tails >= 1)
    .map((tails) => tails * pitch + ends)
    .filter((one) => one >= width / 2 && one <= width * 1.5)
    .sort((one, other) => Math.abs(one - width) - Math.abs(other - width))
    .slice(0, MAX_SUITABLE);
}

function halfPinsTakeTheRest(row: Row, pitch: number): Result<Proportions> {
  const { width, request, bounds, at } = row;
  const pin = request.pin ?? pinAtPitch(row, pitch);
  if (pitch - pin < bounds.leastTail.width - LAYOUT_ROUNDING) return err([overPitch(row, pitch, pin)]);
  const proper = halfPinFor(row, pin);
  const tails = request.tails ?? tailsAtPitch(row, pitch, pin, proper);
  const endPin = (width - tails * pitch + pin) / 2;
  const widths = suitableWidths(row, pitch, pin, proper);
  if (request.endPin !== undefined && Math.abs(endPin - request.endPin) * 2 > LIST_TOLERANCE) {
    const sum = tails * pitch - pin + 2 * request.endPin;
    return err([
      diagnostic('layout-disagrees', 'refused', `${at}.end-pin`, {
        sum,
        width,
        leaveBlank: 'end-pin',
        widths,
      }),
    ]);
  }
  const suits = endPin > pin / 2 - LAYOUT_ROUNDING && endPin < pin + LAYOUT_ROUNDING;
  return ok({ tails, pin, endPin, suitableWidths: suits ? [] : widths }, [
    ...(request.tails === undefined
      ? [diagnostic('tails-by-pitch', 'ok', `${at}.tails`, { tails, pitch })]
      : []),
    ...(request.pin === undefined ? [pinReason(row, pitch, pin)] : []),
    ...(request.endPin === undefined
      ? [diagnostic('half-pin-chosen', 'ok', `${at}.end-pin`, { endPin, why: 'rest' })]
      : []),
    suits
      ? diagnostic('pitch-suits', 'ok', `${at}.pitch`, { pitch, tails, endPin })
      : diagnostic('pitch-suits-ill', 'caution', `${at}.pitch`, { pitch, tails, endPin, pin, width, widths }),
  ]);
}

/** As many tails as bring the half-pins nearest to proper ones without falling under what can be cut. */
function tailsAtPitch(row: Row, pitch: number, pin: number, proper: number): number {
  const nearest = Math.round((row.width - 2 * proper + pin) / pitch);
  const most = Math.floor((row.width - 2 * row.bounds.leastEndPin.width + pin) / pitch + LAYOUT_ROUNDING);
  return Math.max(1, Math.min(nearest, most));
}

/** A quarter of its tail, as wide as can be cut, and narrow enough to leave a tail that can. */
function pinAtPitch(row: Row, pitch: number): number {
  const { leastPin, leastTail } = row.bounds;
  return Math.max(leastPin.width, Math.min(pitch / (TAIL_TO_PIN + 1), pitch - leastTail.width));
}

function pinReason(row: Row, pitch: number, pin: number): Diagnostic {
  const { leastPin } = row.bounds;
  const quarter = pitch / (TAIL_TO_PIN + 1);
  const why = pin === quarter ? 'quarter' : pin === leastPin.width ? 'least' : 'room';
  return diagnostic('pin-chosen', 'ok', `${row.at}.pin`, { pin, why, because: leastPin.because });
}

function pinsTakeTheRest(row: Row, pitch: number, endPin: number): Result<Proportions> {
  const { width, request, bounds, at } = row;
  const least = bounds.leastPin.width;
  const most = pitch - bounds.leastTail.width;
  const fewest = Math.ceil((width - 2 * endPin + least) / pitch - LAYOUT_ROUNDING);
  const tails = request.tails ?? Math.max(1, fewest);
  const pin = 2 * endPin + tails * pitch - width;
  const widths = suitableWidths(row, pitch, pinAtPitch(row, pitch), endPin);
  if (pin < least - LAYOUT_ROUNDING || pin > most + LAYOUT_ROUNDING) {
    const { because } = pin > most ? bounds.leastTail : bounds.leastPin;
    const data = { pitch, endPin, tails, pin, least, most, because, widths };
    return err([diagnostic('pitch-leaves-pin', 'refused', `${at}.pitch`, data)]);
  }
  const suits = pin <= pitch / 2 + LAYOUT_ROUNDING;
  return ok({ tails, pin, endPin, suitableWidths: suits ? [] : widths }, [
    ...(request.tails === undefined
      ? [diagnostic('tails-by-pitch', 'ok', `${at}.tails`, { tails, pitch })]
      : []),
    ...(tails > 1 ? [diagnostic('pin-chosen', 'ok', `${at}.pin`, { pin, why: 'rest' })] : []),
    suits
      ? diagnostic('pitch-suits', 'ok', `${at}.pitch`, { pitch, tails, endPin })
      : diagnostic('pitch-suits-ill', 'caution', `${at}.pitch`, { pitch, tails, endPin, pin, width, widths }),
  ]);
}

function overPitch(row: Row, pitch: number, pin: number): Diagnostic {
  return diagnostic('pin-over-pitch', 'refused', `${row.at}.pitch`, {
    pin,
    pitch,
    leastTail: row.bounds.leastTail.width,
    because: row.bounds.leastTail.because,
  });
}
