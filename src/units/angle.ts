import { decimalOf, signedDecimalOf } from './number.js';

/** Angles as text. Inside halfpin an angle is radians from square, that is from the bit's axis. */

export type AngleReading =
  | { readonly ok: true; readonly radians: number }
  | {
      readonly ok: false;
      readonly read: string /** The slope that was meant; empty where that can't be known. */;
      readonly wouldDo: readonly string[];
    };

/** Reads a number of degrees: `8`, `7,5`, `8°`, `8 deg`, `8 degrees`. Gives radians, always finite. */
export function readDegrees(written: string | number): AngleReading {
  const [, number = ''] = /^(.*?)\s*(?:°|deg|degree|degrees)?$/is.exec(String(written).trim()) ?? [];
  const degrees = signedDecimalOf(number);
  if (degrees !== undefined && Number.isFinite(degrees)) {
    return { ok: true, radians: (degrees * Math.PI) / 180 };
  }
  return { ok: false, read: String(written), wouldDo: likelySlope(String(written)) };
}

/** Reads a slope, `1:8` (one across to eight along), or a number of degrees. Gives radians: atan(1/8). */
export function readSlope(written: string | number): AngleReading {
  if (typeof written === 'number') return readDegrees(written);
  const [first = '', second, more] = written.split(':').map((part) => part.trim());
  if (second === undefined) return readDegrees(written);
  const [across, along] = [decimalOf(first), decimalOf(second)];
  if (across && along && more === undefined) return { ok: true, radians: Math.atan2(across, along) };
  return { ok: false, read: written, wouldDo: [] };
}

/** An angle in radians as degrees to 0.01°: `8°`, `7.13°`. */
export function formatDegrees(radians: number): string {
  return `${Number(((radians * 180) / Math.PI).toFixed(2)) + 0}°`;
}

/** An angle in radians as a slope to a hundredth: `1:8`, `1:4.8`. */
export function formatSlope(radians: number): string {
  return `1:${Number((1 / Math.tan(radians)).toFixed(2))}`;
}

/** `1/8`, `1 in 8`, `1 to 8` and `1:8` as the slope that they mean. */
function likelySlope(text: string): readonly string[] {
  const parts = /^(\d+\.?\d*)\s*(?:\/|in|to|:|-)\s*(\d+\.?\d*)$/i.exec(text.trim());
  return parts === null || Number(parts[1]) === 0 || Number(parts[2]) === 0
    ? []
    : [`${parts[1]}:${parts[2]}`];
}
