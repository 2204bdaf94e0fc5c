import type { LengthUnit } from '../units/length.js';
import type { PlateStock, Printer } from './types.js';

/**
 * What a shop file may leave out. Kerf, feeds and speeds are not here: nobody knows them but the person at the
 * machine, so halfpin never assumes them.
 */

/** Paper of the place where the units are used, no ink nearer to its edge than 10 mm, true scale. */
export function defaultPrinter(units: LengthUnit): Printer {
  return { paper: { name: units === 'in' ? 'letter' : 'a4' }, margin: 10, scaleX: 1, scaleY: 1 };
}

/** Fingers of 3/16 in or 5 mm hold in common sheet; common practice, no source. */
export function defaultLeastFinger(units: LengthUnit): number {
  return units === 'in' ? 4.7625 : 5;
}

/** For jobs that make no template and so name no plate: 1/2 in or 12 mm plywood, for markers. */
export function defaultPlate(units: LengthUnit): PlateStock {
  return {
    material: 'plywood',
    thickness: units === 'in' ? 12.7 : 12,
    leastFinger: defaultLeastFinger(units),
  };
}
