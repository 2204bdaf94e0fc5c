import type { Bit } from '../input/types.js';
import type { LengthUnit } from '../units/length.js';

/** A straight bit goes no deeper in one pass than it is wide, and never more than this, mm: common practice, no source. */
const MAX_IN_ONE = 9.6;

/**
 * Depths to be cut to, one after the other, mm: whole steps that a rule has (1/16 in or 1 mm), the last to the whole depth. A
 * dovetail bit can only go in one.
 */
export function passesOf(bit: Bit, depth: number, units: LengthUnit): readonly number[] {
  if (bit.kind === 'dovetail') return [depth];
  const unit = units === 'in' ? 25.4 / 16 : 1;
  const most = Math.max(unit, Math.floor(Math.min(bit.diameter, MAX_IN_ONE) / unit + 1e-6) * unit);
  const count = Math.ceil(depth / most - 1e-6);
  const even = Math.ceil(depth / count / unit - 1e-6) * unit;
  return Array.from({ length: count }, (_, i) => (i < count - 1 ? (i + 1) * Math.min(even, most) : depth));
}
