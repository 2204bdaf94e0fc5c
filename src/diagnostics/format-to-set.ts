import type { LengthUnit } from '../units/length.js';
import { type Formatter, formatterFor } from './formatter.js';

/** Fractions of an inch as rules and blocks have them, and what is near enough to one, inches. */
const FINEST = 64;
const NEAR = 0.001;

/**
 * How a sheet writes lengths that are set or cut to at the bench: in the job's own unit alone. Inches as a fraction
 * where one is within a thousandth, else in thousandths with the fraction that they lie beside; mm in hundredths.
 */
export function formatToSet(units: LengthUnit): Formatter {
  return { ...formatterFor(units), length: units === 'in' ? inchesToSet : (mm) => `${trimmed(mm, 2)} mm` };
}

function inchesToSet(mm: number): string {
  const inches = mm / 25.4;
  if (Math.abs(inches - nearestPart(inches, FINEST)) <= NEAR)
    return `${fraction(nearestPart(inches, FINEST))} in`;
  const beside = nearestPart(inches, FINEST / 2);
  const side = inches > beside ? 'over' : 'under';
  return `${inches.toFixed(3)} in${beside === 0 ? '' : ` (just ${side} ${fraction(beside)})`}`;
}

const nearestPart = (value: number, parts: number): number => Math.round(value * parts) / parts;

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
