/**
 * Machine screws that register one part on another by their shanks: the largest and the least that a thread's outside
 * measures, and the head that is sunk below the face. All in mm. Diameters of metric screws are those of ISO 965-2,
 * coarse thread, class 6g; of inch screws those of ASME B1.1, coarse thread, class 2A; heads those of ISO 7046-1 and
 * ASME B18.6.3, flat. Numbers from memory of these standards: measure the screws that you have.
 */
export interface MachineScrew {
  /** `M5`, `No. 10`. */
  readonly name: string;
  readonly kind: 'metric' | 'inch';
  readonly most: number;
  readonly least: number;
  /** Diameter of a sunk head. */
  readonly head: number;
}

const INCH = 25.4;

type Row = readonly [name: string, most: number, least: number, head: number];

const metric: readonly Row[] = [
  ['M3', 2.98, 2.874, 5.5],
  ['M4', 3.978, 3.838, 8.4],
  ['M5', 4.976, 4.826, 9.3],
  ['M6', 5.974, 5.794, 11.3],
  ['M8', 7.972, 7.76, 15.8],
  ['M10', 9.968, 9.732, 18.3],
];

const inches: readonly Row[] = [
  ['No. 4', 0.1112, 0.1061, 0.225],
  ['No. 6', 0.1372, 0.1312, 0.279],
  ['No. 8', 0.1631, 0.1571, 0.332],
  ['No. 10', 0.189, 0.1818, 0.385],
  ['1/4 in', 0.2489, 0.2408, 0.507],
  ['5/16 in', 0.3113, 0.3026, 0.635],
  ['3/8 in', 0.3737, 0.3643, 0.762],
];

export const machineScrews: readonly MachineScrew[] = [
  ...metric.map(([name, most, least, head]) => ({ name, kind: 'metric' as const, most, least, head })),
  ...inches.map(([name, most, least, head]) => ({
    name,
    kind: 'inch' as const,
    most: most * INCH,
    least: least * INCH,
    head: head * INCH,
  })),
];
