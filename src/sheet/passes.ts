import type { LengthUnit } from '../units/length.js';

/** What depths in between are set by, mm: a router's own scale has no finer marks. */
const MARKS: Readonly<Record<LengthUnit, number>> = { in: 25.4 / 32, mm: 0.5 };

/** Depths of passes as they are set: those in between on a mark, which needn't be exact, the last as it is. */
export function passesToSet(passes: readonly number[], units: LengthUnit): readonly number[] {
  const mark = MARKS[units];
  return passes.map((depth, i) => (i < passes.length - 1 ? Math.round(depth / mark) * mark : depth));
}
