import type { Bit, Bushing } from '../../input/types.js';
import type { Layout } from '../../layout/types.js';
import type { Cut } from '../family.js';
import { bitTool, bushingTool, type FitModel, partWidths } from '../fit-model.js';
import type { ThroughDovetailJoint } from './fields.js';

/** A finger's tip is rounded over the last of its nose; no work is guided there, mm. */
const ROUNDED_TIP = 1.5;

/**
 * How a through dovetail's fit changes with its tools and with the fence under the pin template. Pin walls lean by
 * the template's own slope, so what moves them square to themselves counts 1/cos θ along x. The play is taken in
 * the middle of the glue line, where a wrong angle of the bit shows by half of what it does at the ends: a thicker
 * pin board has its walls lean further in both boards alike, unless the bit's angle is another than the template's.
 */
export function throughFit(
  joint: ThroughDovetailJoint,
  layout: Layout,
  {
    dovetail,
    straight,
    bushing,
  }: { readonly dovetail: Bit; readonly straight: Bit; readonly bushing: Bushing },
  pinCut: Cut,
): FitModel {
  const { boards, slack } = joint;
  const { angle } = dovetail;
  const { thickness } = boards.pins;
  const [k, cos] = [Math.tan(angle), Math.cos(angle)];
  const lean = thickness * k;
  const inner = partWidths(layout, 'pin').slice(1, -1);
  return {
    slack,
    tools: [
      bitTool('dovetail', 'bit-tails', dovetail),
      bitTool('straight', 'bit-pins', straight),
      bushingTool(bushing),
    ],
    widths: {
      socket: {
        nominals: inner.map((width) => width - 2 * lean),
        factors: { dovetail: 1, bushing: -1 },
        where: 'between two tails at the end of the tail board',
      },
      tail: {
        nominals: partWidths(layout, 'tail').map((width) => width + 2 * lean),
        factors: { dovetail: -1, bushing: 1 },
        where: 'at the end of the tail board, where it is widest',
      },
      pin: {
        nominals: inner.map((width) => width - 2 * lean - slack),
        factors: { straight: -1 / cos, bushing: 1 / cos },
        where: 'on the outside face of the pin board, where it is narrowest',
      },
    },
    pair: {
      factors: {
        dovetail: 1,
        bushing: -1 - 1 / cos,
        straight: 1 / cos,
        kerf: 1 + 1 / cos,
        thickness: k,
        depth: 0,
        angle: 0,
        fence: -2 * k,
      },
      lean: { factor: -1, over: 'thickness', length: thickness, angle },
    },
    endPair: { dovetail: 1 / 2, straight: 1 / (2 * cos), bushing: -1 / 2 - 1 / (2 * cos), fence: -k },
    move: {
      size: 'fence',
      tighter: topOf(pinCut) - pinCut.cutterRadius,
      looser: -thickness - pinCut.nearEdge - ROUNDED_TIP,
    },
    faces: {
      tails: { wanted: 0, by: 'depth', perMm: 1 },
      pins: { wanted: joint.proud ?? 0, by: 'depth', perMm: 1 },
    },
    boards: ['tails', 'pins'],
  };
}

/** Where the shortest opening ends, away from the operator. */
function topOf({ waste }: Cut): number {
  const tops = waste.map(({ segments }) => Math.max(...segments.map(({ to }) => to.y)));
  return Math.min(...tops);
}
