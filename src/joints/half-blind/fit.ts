import type { Layout } from '../../layout/types.js';
import { bitTool, bushingTool, type FitModel, partWidths } from '../fit-model.js';
import { offsetOfBothSides } from '../tools.js';
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
  const k = Math.tan(angle);
  const tails = partWidths(layout, 'tail');
  // Cut together the slack is shared between both boards; cut apart the tails carry all of it.
  const moreSocket = method === 'together' ? slack / 2 : 0;
  const offset = offsetOfBothSides(bit, bushing);
  const turned = (2 * depth) / Math.cos(angle) ** 2;
  const square = joint.tailsInside === 'square';
  return {
    slack,
    tools: [bitTool('dovetail', 'bit', bit), bushingTool(bushing)],
    checks: [
      { role: 'depth', size: depth },
      { role: 'angle', size: angle },
    ],
    widths: {
      socket: {
        nominals: tails.map((width) => width + moreSocket),
        factors: { dovetail: 1, bushing: -1, kerf: 1, depth: -2 * k, angle: -turned },
        drawnWider: 2 * lean + offset,
        where: 'on the inside face of the front',
      },
      tail: {
        nominals: tails.map((width) => width + 2 * lean - (slack - moreSocket)),
        factors: { dovetail: -1, bushing: 1, kerf: -1, depth: 2 * k, angle: turned },
        drawnWider: -2 * lean - offset,
        where: 'at the end of the side, where it is widest',
      },
    },
    openings: {
      nominals: tails.map((width) => width + moreSocket + 2 * lean + offset),
      where: method === 'together' ? 'on the plate' : 'on the plate for the sockets',
    },
    pair: {
      factors: {
        dovetail: 2,
        bushing: -2,
        kerf: 2,
        thickness: 0,
        depth: 0,
        angle: 0,
        scale: 2 * offset + 2 * lean + slack,
      },
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
      side: {
        wanted: 0,
        ...(method === 'together' && lip === undefined
          ? ({ by: 'template', perMm: -2 } as const)
          : ({ by: 'sockets-template', perMm: -1 } as const)),
        // Round tails cut apart are as much shorter than their sockets as they are narrower on one side.
        ...(method === 'apart' && !square && { ease: slack / 2 }),
        withMove: k,
        // Square tails keep the face of the board, so that only the sockets' ends move.
        withPlay: square ? 1 / 4 : 1 / 2,
      },
    },
    boards: ['tails', 'pins'],
  };
}
