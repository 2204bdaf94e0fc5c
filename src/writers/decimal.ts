/**
 * A number in plain decimals: at most `digits` after a point, no exponent, no comma, no trailing nought, no −0.
 * Throws on NaN, infinities and 1e21 and more: no drawing holds them.
 */
export function decimal(value: number, digits: number): string {
  if (!Number.isFinite(value) || Math.abs(value) >= 1e21)
    throw new Error(`not a number for a file: ${value}`);
  const text = value.toFixed(digits);
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return trimmed === '-0' ? '0' : trimmed;
}
