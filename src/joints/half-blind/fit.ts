import type { Layout } from '../../layout/types.js';
import { bitTool, bushingTool, type FitModel, partWidths } from '../fit-model.js';
import { deepest, EASY_LAP } from './depth.js';
import type { HalfBlindJoint } from './fields.js';
import type { HalfBlindTools } from './tool-shape.js';

/** Sockets shallower than this hold no glue worth the name, mm. Common practice, no source. */
const MIN_DEPTH = 3;

/** How a half-blind dovetail's fit changes with its tools and with the depth: 2k tighter for each mm deeper. */
export function halfBlindFit(
  joint: HalfBlindJoint,
  layout: Layout,
  { bit, bushing, depth, lean }: HalfBlindTools,
): FitModel {
  const { slack, method, lip } = joint;
  const { angle } = bit;
  const tails = partWidths(layout, 'tail');
  // Cut together the slack is shared between both boards; cut apart the tails carry all of it.
  const moreSocket = method === 'together' ? slack / 2 : 0;
  const oneSetUp = method === 'together' && lip === undefined;
  return {
    slack,
    tools: [bitTool('dovetail', 'bit', bit), bushingTool(bushing)],
    widths: {
      socket: {
        nominals: tails.map((width) => width + moreSocket),
        factors: { dovetail: 1, bushing: -1 },
        where: 'on the inside face of the front',
      },
      tail: {
        nominals: tails.map((width) => width + 2 * lean - (slack - moreSocket)),
        factors: { dovetail: -1, bushing: 1 },
        where: 'at the end of the side, where it is widest',
      },
    },
    pair: {
      factors: { dovetail: 2, bushing: -2, kerf: 2, thickness: 0, depth: 0, angle: 0 },
      lean: { factor: -2, over: 'depth', length: depth, angle },
    },
    move: {
      size: 'depth',
      tighter: Math.max(0, Math.min(deepest(joint), lip?.rabbet ?? Number.POSITIVE_INFINITY) - depth),
      looser: Math.max(0, depth - MIN_DEPTH),
      easy: Math.max(0, (1 - EASY_LAP) * joint.boards.pins.thickness - depth),
      depth,
    },
    faces: {
      side: oneSetUp
        ? { wanted: 0, by: 'template', perMm: -2 }
        : { wanted: 0, by: 'sockets-template', perMm: -1 },
    },
    boards: ['tails', 'pins'],
  };
}
