/**
 * A number in plain decimals: at most `digits` after a point, no exponent, no comma, no trailing nought, no −0.
 * Throws on NaN, infinities and 1e21 and more: no drawing holds them.
 */
export function decimal(value: number, digits: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e21)
    throw new Error(`not a number for a file: ${value}`);
  const text = value.toFixed(digits);
  if (digits === 0) return text === '-0' ? '0' : text;
  let end = text.length;
  while (text.charCodeAt(end - 1) === NOUGHT) end -= 1;
  if (text.charCodeAt(end - 1) === POINT) end -= 1;
  const trimmed = text.slice(0, end);
  return trimmed === '-0' ? '0' : trimmed;
}

const NOUGHT = '0'.charCodeAt(0);
const POINT = '.'.charCodeAt(0);
