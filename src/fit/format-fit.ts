import { type Formatter, formatterFor } from '../diagnostics/formatter.js';
import type { LengthUnit } from '../units/length.js';

/** Longer than any gap or move, mm: a size, which a caliper shows more finely than anyone sets a move. */
const SIZE = 3;

/** Fits and moves as gauges show them, in the job's unit alone: hundredths of a mm, thousandths of an inch; sizes finer. */
export function fitFormatter(units: LengthUnit): Formatter {
  const length = (mm: number) => {
    const finer = Math.abs(mm) >= SIZE ? 1 : 0;
    return units === 'in'
      ? `${Number((mm / 25.4).toFixed(3 + finer))} in`
      : `${Number(mm.toFixed(2 + finer))} mm`;
  };
  return { ...formatterFor(units), length, atLeast: length, atMost: length };
}
