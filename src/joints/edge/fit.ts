import type { Bit, Bushing } from '../../input/types.js';
import { bitTool, bushingTool, type FitModel } from '../fit-model.js';
import type { EdgeJoint } from './fields.js';

/**
 * How the fit of two edges along a drawn line changes with the tools. A pair is a bump in its bay, square to the
 * line. A gap tells nothing: boards that are pushed home close an error e where the line runs along the joint and
 * keep e(1 − cos φ) of it where it leans by φ. What tells is a caliper on the tools.
 */
export function edgeFit(
  { slack }: EdgeJoint,
  {
    bits: { one, two },
    bushing,
  }: { readonly bits: { readonly one: Bit; readonly two: Bit }; readonly bushing: Bushing },
): FitModel {
  const rest = { bushing: -2, kerf: 2, thickness: 0, depth: 0 };
  const alike = one.name === two.name;
  return {
    slack,
    tools: alike
      ? [bitTool('straight', 'bit', one), bushingTool(bushing)]
      : [bitTool('straight', 'bit-one', one), bitTool('second', 'bit-two', two), bushingTool(bushing)],
    widths: {},
    pair: { factors: alike ? { straight: 2, ...rest } : { straight: 1, second: 1, ...rest } },
    gapTellsNothing: true,
    faces: {},
    boards: ['one', 'two'],
  };
}
