import type { Bit, Bushing } from '../../input/types.js';
import type { Layout } from '../../layout/types.js';
import { bitTool, bushingTool, type FitModel, partWidths } from '../fit-model.js';
import type { BoxJoint } from './fields.js';

/** How a box joint's fit changes with its tools: each pair has a slot wall and a finger wall on either side. */
export function boxFit(
  { slack }: BoxJoint,
  layout: Layout,
  { bit, bushing }: { readonly bit: Bit; readonly bushing: Bushing },
): FitModel {
  const where = 'on board one';
  return {
    slack,
    tools: [bitTool('straight', 'bit', bit), bushingTool(bushing)],
    widths: {
      slot: {
        nominals: partWidths(layout, 'slot').map((width) => width + slack / 2),
        factors: { straight: 1, bushing: -1 },
        where,
      },
      finger: {
        nominals: partWidths(layout, 'finger').map((width) => width - slack / 2),
        factors: { straight: -1, bushing: 1 },
        where,
      },
    },
    pair: { factors: { straight: 2, bushing: -2, kerf: 2, thickness: 0, depth: 0 } },
    faces: {
      one: { wanted: 0, by: 'depth', perMm: 1 },
      two: { wanted: 0, by: 'depth', perMm: 1 },
    },
    boards: ['one', 'two'],
  };
}
