import { type LengthUnit, MM_PER_INCH } from '../units/length.js';

/** The steps of a rule that an edge falls on when it is dragged, mm: a thirty-second of an inch, or half a mm. */
export function ruleStep(units: LengthUnit): number {
  return units === 'mm' ? 0.5 : MM_PER_INCH / 32;
}

/** The step of an arrow key with Shift held, mm: fine enough to tune a fit. */
export function fineStep(units: LengthUnit): number {
  return units === 'mm' ? 0.1 : MM_PER_INCH / 128;
}
