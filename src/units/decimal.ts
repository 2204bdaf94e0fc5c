/**
 * A number in plain decimals: at most `digits` (0 to 10) after a point, no exponent, no comma, no trailing
 * nought, no −0. Throws on NaN, infinities and 1e21 and more: no drawing holds them.
 */
export function decimal(value: number, digits: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e21)
    throw new Error(`not a number for a file: ${value}`);
  const scale = scales[digits];
  const units = scale === undefined ? Number.POSITIVE_INFINITY : Math.round(Math.abs(value) * scale);
  // Files hold little else than numbers: whole ones are written twice as fast as toFixed writes fractions, and
  // a tie in decimals (2.4999995 to six places) goes up whatever its last bit says.
  return scale !== undefined && units < MAX_UNITS
    ? ofUnits(value < 0, units, digits, scale)
    : trimmed(value.toFixed(digits));
}

/** Powers of ten that a double holds exactly, and above which units of the last digit would not all be whole. */
const scales = Array.from({ length: 11 }, (_, digits) => 10 ** digits);
const MAX_UNITS = 1e15;

function ofUnits(negative: boolean, units: number, digits: number, scale: number): string {
  if (units === 0) return '0';
  const whole = Math.floor(units / scale);
  const sign = negative ? '-' : '';
  let rest = units - whole * scale;
  if (rest === 0) return `${sign}${whole}`;
  let places = digits;
  while (rest % 10 === 0) {
    rest /= 10;
    places -= 1;
  }
  const fraction = String(rest);
  return `${sign}${whole}.${NOUGHTS.slice(0, places - fraction.length)}${fraction}`;
}

const NOUGHTS = '0000000000';

function trimmed(text: string): string {
  if (!text.includes('.')) return text === '-0' ? '0' : text;
  const short = text.replace(/\.?0+$/, '');
  return short === '-0' ? '0' : short;
}
