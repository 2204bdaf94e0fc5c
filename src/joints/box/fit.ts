import type { Bit, Bushing } from '../../input/types.js';
import type { Layout } from '../../layout/types.js';
import { bitTool, bushingTool, type FitModel } from '../fit-model.js';
import { offsetOfBothSides } from '../tools.js';
import type { BoxJoint } from './fields.js';

/** How a box joint's fit changes with its tools: each pair has a slot wall and a finger wall on either side. */
export function boxFit(
  { slack }: BoxJoint,
  layout: Layout,
  { bit, bushing }: { readonly bit: Bit; readonly bushing: Bushing },
): FitModel {
  const where = 'on board one';
  const offset = offsetOfBothSides(bit, bushing);
  const slots = rowOf(layout, 'slot', slack / 2);
  const fingers = rowOf(layout, 'finger', -slack / 2);
  return {
    slack,
    tools: [bitTool('straight', 'bit', bit), bushingTool(bushing)],
    widths: {
      slot: {
        ...slots,
        factors: { straight: 1, bushing: -1, kerf: 1 },
        drawnWider: offset,
        where,
      },
      finger: {
        ...fingers,
        factors: { straight: -1, bushing: 1, kerf: -1 },
        drawnWider: -offset,
        where,
      },
    },
    openings: {
      nominals: slots.nominals.filter((_, i) => slots.shares[i] === 1).map((width) => width + offset),
      where: 'on the plate for board one',
    },
    pair: {
      factors: { straight: 2, bushing: -2, kerf: 2, thickness: 0, depth: 0, scale: 2 * offset + slack },
    },
    faces: {
      one: { wanted: 0, by: 'depth', perMm: 1 },
      two: { wanted: 0, by: 'depth', perMm: 1 },
    },
    boards: ['one', 'two'],
  };
}

/** Widths of a row as cut; at a board's edge there is one wall to move. */
function rowOf({ spans }: Layout, part: string, wider: number) {
  const row = spans.flatMap((span, i) =>
    span.part === part ? [{ span, share: i === 0 || i === spans.length - 1 ? 1 / 2 : 1 }] : [],
  );
  return {
    nominals: row.map(({ span, share }) => span.to - span.from + share * wider),
    shares: row.map(({ share }) => share),
  };
}
