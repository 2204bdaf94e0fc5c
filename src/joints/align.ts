import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Joint } from '../input/types.js';
import type { SolvedJoint } from './family.js';

/**
 * Joints that line up when one board stands over the other: the same pitch, pins and half-pins at both edges,
 * as on the fronts of a chest of drawers. The lead is solved first; the others take its numbers.
 */
export interface AlignedRow {
  /** From one tail's middle to the next, mm; absent where the lead has one tail. */
  readonly pitch?: number;
  /** Widths at the baseline, mm. */
  readonly pin?: number;
  readonly endPin: number;
  readonly tail: number;
}

/** The numbers that others take; undefined for a joint without pins and tails. */
export function rowOf({ layout }: SolvedJoint): AlignedRow | undefined {
  const widths = layout.spans.map(({ from, to }) => to - from);
  const [endPin, tail, pin] = widths;
  if (endPin === undefined || tail === undefined || layout.spans[0]?.part !== 'pin') return undefined;
  return {
    endPin,
    tail,
    ...(pin !== undefined && widths.length > 3 && { pin, pitch: tail + pin }),
  };
}

/** The joint with the lead's numbers in its layout. */
export function alignedTo<J extends Joint>(joint: J, { pitch, pin, endPin }: AlignedRow): J {
  const { tails: _, ...layout } = joint.layout;
  return {
    ...joint,
    layout: { ...layout, endPin, ...(pitch !== undefined && { pitch }), ...(pin !== undefined && { pin }) },
  };
}

/** Widths may differ by this much and still line up to the eye and under a rule, mm. */
const LINED_UP = 0.01;

/** Whether a solved joint does line up, or which widths of board would. */
export function alignDiagnostics(
  joint: Joint,
  solved: SolvedJoint | undefined,
  lead: string,
  row: AlignedRow,
): readonly Diagnostic[] {
  const { pitch, pin, endPin, tail } = row;
  const at = `joints.${joint.name}.align`;
  const own = solved && rowOf(solved);
  const last = solved?.layout.spans.at(-1);
  const same = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined || Math.abs(a - b) <= LINED_UP;
  const lined =
    own !== undefined &&
    last !== undefined &&
    same(own.endPin, endPin) &&
    same(last.to - last.from, endPin) &&
    same(own.pitch, pitch) &&
    same(own.tail, tail);
  const step = pitch ?? 0;
  if (lined) return [diagnostic('align-done', 'ok', at, { lead, pitch: step || tail, endPin })];
  if (solved === undefined && suits(joint.width, row)) return [];
  return [
    diagnostic('align-off', 'refused', at, {
      lead,
      width: joint.width,
      pitch: step || tail,
      pin: pin ?? 0,
      endPin,
      widths: suitable(joint.width, row),
    }),
  ];
}

function suits(width: number, row: AlignedRow): boolean {
  return suitable(width, row).some((one) => Math.abs(one - width) <= LINED_UP);
}

/** The widths next to the one given at which the row ends in the same half-pin: 2 half-pins, a tail, n pitches. */
function suitable(width: number, { pitch, endPin, tail }: AlignedRow): readonly number[] {
  const least = 2 * endPin + tail;
  if (pitch === undefined) return [least];
  const steps = Math.max(0, (width - least) / pitch);
  return [...new Set([Math.floor(steps + 1e-6), Math.ceil(steps - 1e-6)])].map((n) => least + n * pitch);
}
