/** What every file for a machine says; the machine's own manual and local rules always come first. */

export const LASER_CAUTIONS: readonly string[] = [
  'Never cut PVC or vinyl with a laser: the fumes are poisonous and eat the machine. Never leave a laser alone while it runs; keep an extinguisher at hand and the extraction on.',
];

export const CNC_CAUTIONS: readonly string[] = [
  'Clamp the sheet clear of the path, with a board under it that may be cut. Wear eye and ear protection, collect the dust, and stay at the machine with a hand at its stop.',
];

export const MACHINE_FIRST = 'The manual of the machine and local rules come first.';

/** For drawings that may go to a laser or to a router table. */
export const PLATE_CAUTIONS: readonly string[] = [
  ...LASER_CAUTIONS,
  'Wood dust harms: collect it, and wear a mask, eye and ear protection when the plate is milled or sanded.',
  MACHINE_FIRST,
];
