import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { BUSHING_ROOM } from '../tools.js';
import type { HalfBlindJoint } from './fields.js';

/** How deep the sockets go, and what of the front is left over them: the lap. */

/** A lap of a quarter to a third of the front is common practice, no source. This much is aimed at. */
const WANTED_LAP = 0.3;

/** Under this share of the front's thickness a lap is spoken of, under the next it is refused. */
export const EASY_LAP = 1 / 4;
export const MIN_LAP = 1 / 8;

/** A lap thinner than this splits off when the joint is driven home, whatever the front, mm. Common practice, no source. */
export const MIN_LAP_MM = 1.5;

/** The depth asked for, or the one that leaves the wanted lap and that the bit can cut, mm. */
export function depthOf(joint: HalfBlindJoint): number {
  if (joint.depth !== undefined) return joint.depth;
  const byLap = (1 - WANTED_LAP) * joint.boards.pins.thickness;
  const byPitch = depthForPitch(joint);
  return Math.min(byPitch ?? byLap, joint.cutter?.height ?? Number.POSITIVE_INFINITY);
}

/**
 * Cut together at a wanted pitch, a slot a little wider than the bushing fixes the depth: h = (2D − p − g + 2a) / 2k, with a
 * the room beside the bushing. It is
 * taken where the lap comes out as commonly made, or where any less would leave no room for the bushing.
 */
function depthForPitch({ method, cutter, layout, boards, slack }: HalfBlindJoint): number | undefined {
  if (method !== 'together' || !cutter || layout.pitch === undefined) return undefined;
  const depth =
    (2 * cutter.diameter - layout.pitch - slack + 2 * BUSHING_ROOM) / (2 * Math.tan(cutter.angle));
  const { thickness } = boards.pins;
  return depth >= (2 / 3) * thickness && depth <= (1 - MIN_LAP) * thickness ? depth : undefined;
}

/** The deepest sockets that the bit can cut and that leave a lap, mm. */
export function deepest({ cutter, boards }: HalfBlindJoint): number {
  const { thickness } = boards.pins;
  const lap = Math.max(MIN_LAP * thickness, MIN_LAP_MM);
  return Math.min(thickness - lap, cutter?.height ?? Number.POSITIVE_INFINITY);
}

/** What is to be said of the depth and the lap. */
export function depthDiagnostics(joint: HalfBlindJoint, depth: number): readonly Diagnostic[] {
  const at = `joints.${joint.name}`;
  const { thickness } = joint.boards.pins;
  const lap = thickness - depth;
  const data = { depth, lap, thickness, greatest: (1 - EASY_LAP) * thickness };
  const chosen = joint.depth === undefined ? [diagnostic('depth-chosen', 'ok', at, { depth, lap })] : [];
  const where = joint.depth === undefined ? `${at}.boards.pins.thickness` : `${at}.depth`;
  if (lap < Math.max(MIN_LAP * thickness, MIN_LAP_MM) - 1e-9) {
    return [...chosen, diagnostic('lap-thin', 'refused', where, data)];
  }
  if (lap < EASY_LAP * thickness - 1e-9) return [...chosen, diagnostic('lap-thin', 'caution', where, data)];
  return chosen;
}
