/** Numbers as people type them. */

/** A decimal number without a sign: `12`, `1.375`, `.5`, `19,05`, `8.9e1`. */
const DECIMAL = /^(?:(?:\d+[.,]?\d*|[.,]\d+)(?:e[-+]?\d{1,3})?)$/i;

/** `1,500`: three digits behind one to three others may be thousandths or a thousand. */
const MAYBE_THOUSANDS = /^[1-9]\d{0,2},\d{3}(?:e|$)/i;

/** Whether a comma stands where it may divide thousands as well as decimals. */
export function isCommaUnclear(text: string): boolean {
  return MAYBE_THOUSANDS.test(text) || /,.*[.,]|\..*,/.test(text);
}

/** The value of a decimal number with point or comma, with or without a power of ten; undefined for any other text. */
export function decimalOf(text: string): number | undefined {
  if (!DECIMAL.test(text) || isCommaUnclear(text)) return undefined;
  return Number(text.replace(',', '.'));
}

/** The same with a sign before it. */
export function signedDecimalOf(text: string): number | undefined {
  const [, sign = '', number = ''] = /^([-+]?)(.*)$/s.exec(text.trim()) ?? [];
  const value = decimalOf(number);
  return value === undefined ? undefined : sign === '-' ? -value : value;
}
