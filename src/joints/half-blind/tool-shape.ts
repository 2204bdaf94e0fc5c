import type { Bit, Bushing } from '../../input/types.js';
import type { HalfBlindJoint } from './fields.js';

/** The dovetail bit at its depth, as every half-blind joint needs it. */
export interface HalfBlindTools {
  readonly bit: Bit;
  readonly bushing: Bushing;
  /** h, mm. */
  readonly depth: number;
  /** hk: how much a wall leans over the depth of the cut, mm. */
  readonly lean: number;
}

export function halfBlindTools(joint: HalfBlindJoint, depth: number): HalfBlindTools | undefined {
  const { cutter, bushing } = joint;
  return cutter && bushing
    ? { bit: cutter, bushing, depth, lean: depth * Math.tan(cutter.angle) }
    : undefined;
}

/** How much of the front's length beyond its end is drawn as stock under the template, mm. */
export function frontShown(joint: HalfBlindJoint, tools: HalfBlindTools): number {
  return joint.boards.tails.thickness + tools.bit.diameter;
}
