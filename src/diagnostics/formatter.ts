import { formatDegrees } from '../units/angle.js';
import { formatLength, type LengthUnit } from '../units/length.js';

/** How wording writes quantities: in the reader's own units, with the other unit beside it. */
export interface Formatter {
  /** A length in mm as text, e.g. `12.7 mm (1/2 in)`. */
  length(mm: number): string;
  /** The least length that works: rounded up, so that what is typed from it works. */
  atLeast(mm: number): string;
  /** The greatest length that works: rounded down. */
  atMost(mm: number): string;
  /** An angle in radians as text, e.g. `8°`. */
  angle(radians: number): string;
}

export function formatterFor(units: LengthUnit): Formatter {
  return {
    length: (mm) => formatLength(mm, units),
    atLeast: (mm) => formatLength(mm, units, 'up'),
    atMost: (mm) => formatLength(mm, units, 'down'),
    angle: formatDegrees,
  };
}
