import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Shop } from '../../input/types.js';
import type { HalfBlindJoint } from './fields.js';
import { boardFor, pitchOfTools } from './pitch-range.js';
import { halfBlindTools } from './tool-shape.js';

/**
 * Why no pitch can be cut under one template, at the depth and with the number of tails where least is missing: the
 * tools need more than the side's thickness takes, or more than the board's width gives.
 */
export function pitchNone(
  joint: HalfBlindJoint,
  shop: Shop,
  depths: readonly number[],
): readonly Diagnostic[] {
  const gaps = depths.flatMap((depth) => {
    const tools = halfBlindTools(joint, depth);
    if (!tools) return [];
    const { least, most } = pitchOfTools(joint, tools, shop);
    return [{ tools, least, most: most.pitch, gap: least.pitch - most.pitch }];
  });
  const first = gaps.reduce((one, other) => (other.gap < one.gap ? other : one));
  const at = `joints.${joint.name}`;
  if (first.gap > 0) {
    const { least, most, tools } = first;
    const { thickness } = joint.boards.tails;
    const data = {
      least: least.pitch,
      by: least.by === 'finger' ? ('finger' as const) : ('bushing' as const),
      bit: tools.bit.name,
      bushing: tools.bushing.name,
      most,
      thickness,
      thicker: (least.pitch / 2 + tools.lean) / 2,
    };
    return [diagnostic('pitch-none-for-side', 'refused', `${at}.boards.tails.thickness`, data)];
  }
  const boards = gaps
    .filter(({ gap }) => gap <= 0)
    .map(({ tools, least, most }) => ({ least, most, board: boardFor(joint, tools, shop) }));
  const { least, most, board } = boards.reduce((one, other) =>
    Math.abs(other.board - joint.width) < Math.abs(one.board - joint.width) ? other : one,
  );
  const data = { least: least.pitch, most, width: joint.width, board };
  return [diagnostic('pitch-none-for-board', 'refused', `${at}.width`, data)];
}
