import { type LengthUnit, MM_PER_INCH } from './length.js';

/** Lengths as a person at the bench sets or cuts them, in the job's own unit alone. */

/** Fractions of an inch as rules and blocks have them, and what is near enough to one, inches. */
const FINEST = 64;
const NEAR = 0.001;

/** A number to set, and the mark of a rule that it lies beside where it is on none. */
export interface ToSet {
  readonly value: string;
  /** `just over 17/32`. */
  readonly beside?: string;
}

/**
 * Inches as a fraction where one is within a thousandth, else in thousandths beside the nearest 1/32; mm in tenths.
 */
export function toSet(mm: number, units: LengthUnit): ToSet {
  if (units === 'mm') return { value: `${trimmed(mm, 1)} mm` };
  const inches = mm / MM_PER_INCH;
  if (Math.abs(inches - nearest(inches, FINEST)) <= NEAR) {
    return { value: `${fraction(nearest(inches, FINEST))} in` };
  }
  const mark = nearest(inches, FINEST / 2);
  const beside = mark === 0 ? {} : { beside: `just ${inches > mark ? 'over' : 'under'} ${fraction(mark)}` };
  return { value: `${inches.toFixed(3)} in`, ...beside };
}

/** `17/32 in`, `0.534 in (just over 17/32)`, `13.6 mm`. */
export function lengthToSet(mm: number, units: LengthUnit): string {
  const { value, beside } = toSet(mm, units);
  return beside === undefined ? value : `${value} (${beside})`;
}

/** Gaps and moves as feeler gauges have them: thousandths of an inch, hundredths of a mm. */
export function fitToSet(mm: number, units: LengthUnit): string {
  return units === 'in' ? `${(mm / MM_PER_INCH).toFixed(3)} in` : `${mm.toFixed(2)} mm`;
}

const nearest = (value: number, parts: number): number => Math.round(value * parts) / parts;

/** `1-1/2`, `3/64`, `2`, of a number of sixty-fourths. */
function fraction(inches: number): string {
  const whole = Math.floor(inches + 1e-9);
  let [top, bottom] = [Math.round((inches - whole) * FINEST), FINEST];
  if (top === 0) return `${whole}`;
  while (top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return whole === 0 ? `${top}/${bottom}` : `${whole}-${top}/${bottom}`;
}

function trimmed(value: number, decimals: number): string {
  return `${Number(value.toFixed(decimals))}`;
}
