import type { Bit, Bushing } from '../job/types.js';
import type { Layout } from '../layout/types.js';
import type { BoxJoint } from './box-fields.js';
import { bitTool, bushingTool, type FitModel, widthsOf } from './fit-model.js';

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
        nominals: widthsOf(layout, 'slot').map((width) => width + slack / 2),
        factors: { straight: 1, bushing: -1 },
        where,
      },
      finger: {
        nominals: widthsOf(layout, 'finger').map((width) => width - slack / 2),
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
