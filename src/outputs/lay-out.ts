import { err, type Result } from '../diagnostics/diagnostic.js';
import { readJob } from '../input/read-job.js';
import type { JointFamily, SolvedJoint } from '../joints/family.js';
import { families } from '../joints/list.js';
import type { LengthUnit } from '../units/length.js';
import { solveAligned } from './joint.js';

/** Keys and values as a job file holds them: plain data. */
export type Plain = Readonly<Record<string, unknown>>;

export interface LayOutOptions {
  /** Of lengths that are numbers; mm when left out. */
  readonly units?: LengthUnit;
  /** Bits, bushings and plate, as a shop file holds them; a joint that is cut by hand needs none. */
  readonly shop?: Plain;
  readonly known?: readonly JointFamily[];
}

/**
 * One joint laid out by itself, from the keys that it has in a job file: its spans, cuts and what is marked on its
 * boards, mm. Places in diagnostics are keys under `joints.joint`. Draws nothing.
 */
export function layOut(
  joint: Plain,
  { units = 'mm', shop, known = families }: LayOutOptions = {},
): Result<SolvedJoint> {
  const text = JSON.stringify({ units, ...(shop && { shop: { units, ...shop } }), joints: { joint } });
  const { result } = readJob({ name: 'joint', text }, known, () => undefined);
  if (!result.ok) return result;
  const [read] = result.value.joints;
  return read ? solveAligned(read, result.value, known) : err(result.diagnostics);
}
