import type { LengthUnit } from '../units/length.js';
import { lengthToSet } from '../units/to-set.js';
import { type Formatter, formatterFor } from './formatter.js';

/** How a sheet writes lengths that are set or cut to at the bench. */
export const formatToSet = (units: LengthUnit): Formatter => ({
  ...formatterFor(units),
  length: (mm) => lengthToSet(mm, units),
});
