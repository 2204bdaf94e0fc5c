import { formatInches, type LengthUnit, MM_PER_INCH, readLength } from './length.js';

/**
 * A length in mm as a job file in these units writes it: a fraction where that is exact, decimals elsewhere.
 * `toward` is where the last decimal goes, for a length that is the least or the most that will do.
 */
export function writeLength(
  mm: number,
  units: LengthUnit,
  toward: 'nearest' | 'up' | 'down' = 'nearest',
): string {
  if (units === 'mm') return decimals(mm, 4, toward);
  const rule = formatInches(mm).replace(/ in$/, '');
  const read = readLength(rule, 'in');
  if (read.ok && isAsGood(read.mm - mm, toward)) return rule;
  return decimals(mm / MM_PER_INCH, 5, toward);
}

function isAsGood(off: number, toward: 'nearest' | 'up' | 'down'): boolean {
  const least = toward === 'up' ? -1e-9 : -EXACT;
  const most = toward === 'down' ? 1e-9 : EXACT;
  return off >= least && off <= most;
}

/** A sum of thirty spans must come out within the 0.01 mm that a list may miss its board by, mm. */
const EXACT = 1e-6;

/** A number that is whole but for this is whole: rounding in a product. */
const WRITTEN_ROUNDING = 1e-7;

function decimals(value: number, places: number, toward: 'nearest' | 'up' | 'down'): string {
  const unit = 10 ** places;
  const rounded =
    toward === 'up'
      ? Math.ceil(value * unit - WRITTEN_ROUNDING)
      : toward === 'down'
        ? Math.floor(value * unit + WRITTEN_ROUNDING)
        : 0;
  return String(Number((toward === 'nearest' ? value : rounded / unit).toFixed(places)) + 0);
}
