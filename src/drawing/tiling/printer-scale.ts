import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { barLengths } from './frame.js';

/** What one measured scale bar says of a printer along one edge of the paper. */
export interface BarReading {
  /** The bar that was measured, mm. */
  readonly nominal: number;
  /** As it was measured, mm. */
  readonly measured: number;
  /** What the file's lengths are to be multiplied by, to 1/100 000. */
  readonly factor: number;
}

/** A printer at 100 % is hardly ever this far out along either edge, share of the length; common practice, no source. */
const MAX_ERROR = 0.05;

/** Beyond this share a dialogue that fits the page to the paper is more likely than the printer's own error. */
const LIKELY_FIT = 0.01;

/** Steps of a factor: 0.0025 mm on the longest bar, under what a caliper reads. */
const FACTOR_STEPS = 1e5;

/**
 * The factor that makes a printed bar come out true: `made`, the factor that the page was made with, × nominal
 * ÷ measured. Lengths of bars lie so far apart that the measured one tells which bar it was. Refused when it
 * is none of them within 5 %, a caution over 1 %. `at` names the measurement in diagnostics.
 */
export function readBar(measured: number, made: number, at: string): Result<BarReading> {
  const nominal = barLengths.reduce((best, one) =>
    Math.abs(Math.log(measured / one)) < Math.abs(Math.log(measured / best)) ? one : best,
  );
  const off = Math.abs(measured / nominal - 1);
  if (!(off <= MAX_ERROR)) {
    return err([diagnostic('bar-unknown', 'refused', at, { measured, nominal, bars: [...barLengths] })]);
  }
  const factor = Math.round((made * nominal * FACTOR_STEPS) / measured) / FACTOR_STEPS;
  const diagnostics: readonly Diagnostic[] =
    off > LIKELY_FIT ? [diagnostic('bar-far-off', 'caution', at, { measured, nominal })] : [];
  return ok({ nominal, measured, factor }, diagnostics);
}
