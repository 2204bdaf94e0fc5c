import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Layout } from '../../layout/types.js';
import { type EverySecond, everySecond, runsOf } from '../row.js';
import { moveDiagnostic } from '../second-stop.js';
import { templateName } from '../template-name.js';
import type { ThroughDovetailJoint } from './fields.js';

/** Templates of a through dovetail that carry every second slot and cut the board twice, one pitch apart. */

export type ThroughBoard = 'tails' | 'pins';

export function isEverySecond(joint: ThroughDovetailJoint): boolean {
  return joint.template.slots === 'every-second';
}

/**
 * The half of a board's slots that its template carries; undefined where it carries all. `slope` is θ, radians:
 * gaps between pins widen by t_P k toward the outside face and by half of the slack.
 */
export function halfOf(
  board: ThroughBoard,
  joint: ThroughDovetailJoint,
  layout: Layout,
  slope: number,
): EverySecond | undefined {
  if (!isEverySecond(joint)) return undefined;
  const spread = board === 'tails' ? 0 : joint.boards.pins.thickness * Math.tan(slope) + joint.slack / 2;
  return everySecond(runsOf(layout, lostOf(board)), joint.width, {
    spread,
    bit: joint.cutters?.[board].diameter ?? 0,
  });
}

/** What a board loses is what the other one keeps. */
function lostOf(board: ThroughBoard) {
  return board === 'tails' ? 'pin' : 'tail';
}

/** How both boards are moved, or why they cannot be cut in two goes. */
export function moveDiagnostics(
  joint: ThroughDovetailJoint,
  layout: Layout,
  slope: number,
): readonly Diagnostic[] {
  if (!isEverySecond(joint)) return [];
  const at = `joints.${joint.name}.template.slots`;
  return (['tails', 'pins'] as const).map((board) => {
    const slots = runsOf(layout, lostOf(board)).length;
    if (slots < 2) return diagnostic('every-second-needless', 'ok', at, { board, slots });
    const half = halfOf(board, joint, layout, slope);
    return half
      ? moveDiagnostic(at, templateName(joint, board), board, half)
      : diagnostic('every-second-uneven', 'refused', at, { board });
  });
}
