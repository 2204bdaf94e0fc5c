import { extents } from '../../geometry/outline.js';
import type { JointBoard } from '../contract.js';
import type { Cut } from '../family.js';
import type { HalfBlindJoint } from './fields.js';

/**
 * The side stands on end, inside face toward the operator, and the front lies flat, inside face up. `depth` is that of
 * the sockets, mm; where the layout's 0 lies under a template is read from its cut.
 */
export function halfBlindBoards(
  { boards: { tails, pins }, lip }: HalfBlindJoint,
  cuts: readonly Cut[],
  depth: number,
  slope: number,
): readonly JointBoard[] {
  const side = cuts.flatMap(({ stock }) => stock).find(({ board }) => board === 'tails');
  const lean = depth * Math.tan(slope);
  // What the sockets leave of the front: the side ends short of the front's face by it.
  const lap = pins.thickness - depth;
  return [
    {
      board: 'tails',
      material: tails,
      hold: { posture: 'on end', face: 'inside', shows: 'toward you' },
      wanted: {
        part: 'pin',
        x: side ? extents(side.outline).minX : 0,
        y: [-tails.thickness, 0],
        out: [0, 0],
      },
      ...(lap > 0 && { reach: { by: -lap, one: 'the lap', both: 'both laps' } }),
    },
    {
      board: 'pins',
      material: pins,
      hold: { posture: 'flat', face: 'inside', shows: 'up' },
      wanted: { part: 'tail', x: 0, y: [0, tails.thickness], out: [lean, lean] },
      ...(lip && { reach: { by: lip.end, one: 'the lip', both: 'both lips' }, lip }),
    },
  ];
}
