/**
 * ISO 2768-1, general tolerances for linear dimensions without tolerances of their own, ± mm, classes f (fine)
 * and m (medium). Seen in copies of the table, not in the standard itself: check before you quote it.
 */
export type ToleranceClass = 'f' | 'm';

const rows: readonly (readonly [over: number, upTo: number, fine: number, medium: number])[] = [
  [0.5, 3, 0.05, 0.1],
  [3, 6, 0.05, 0.1],
  [6, 30, 0.1, 0.2],
  [30, 120, 0.15, 0.3],
  [120, 400, 0.2, 0.5],
];

/** ± mm for a size in mm; undefined for sizes that the part of the table above does not cover. */
export function generalTolerance(size: number, toleranceClass: ToleranceClass): number | undefined {
  const row = rows.find(([over, upTo]) => (size > over || (size === over && over === 0.5)) && size <= upTo);
  return row?.[toleranceClass === 'f' ? 2 : 3];
}
