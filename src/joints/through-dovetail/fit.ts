import type { Bit, Bushing } from '../../input/types.js';
import type { Layout } from '../../layout/types.js';
import type { Cut } from '../family.js';
import { bitTool, bushingTool, type FitModel, partWidths } from '../fit-model.js';
import { BUSHING_ROOM, offsetOfBothSides } from '../tools.js';
import type { ThroughDovetailJoint } from './fields.js';

/** A finger's tip is rounded over the last of its nose; no work is guided there, mm. */
const ROUNDED_TIP = 1.5;

/**
 * How a through dovetail's fit changes with its tools and with the fence under the pin template. Pin walls lean by
 * the template's own slope, so what moves them square to themselves counts 1/cos θ along x. A wrong angle
 * of the bit opens or closes the pair from the baseline to the board's end; a thicker pin board has its walls lean
 * further in both boards alike.
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
  const [tailOffset, pinOffset] = [
    offsetOfBothSides(dovetail, bushing),
    offsetOfBothSides(straight, bushing) / cos,
  ];
  // A bit of another angle has turned by the whole depth where a caliper measures.
  const turned = (2 * thickness) / cos ** 2;
  return {
    slack,
    tools: [
      bitTool('dovetail', 'bit-tails', dovetail),
      bitTool('straight', 'bit-pins', straight),
      bushingTool(bushing),
    ],
    checks: [
      { role: 'depth', size: thickness },
      { role: 'thickness', size: thickness },
      { role: 'angle', size: angle },
    ],
    widths: {
      socket: {
        nominals: inner.map((width) => width - 2 * lean),
        factors: { dovetail: 1, bushing: -1, kerf: 1, depth: -2 * k, angle: -turned },
        drawnWider: 2 * lean + tailOffset,
        where: 'between two tails at the end of the tail board',
      },
      tail: {
        nominals: partWidths(layout, 'tail').map((width) => width + 2 * lean),
        factors: { dovetail: -1, bushing: 1, kerf: -1, depth: 2 * k, angle: turned },
        drawnWider: -2 * lean - tailOffset,
        where: 'at the end of the tail board, where it is widest',
      },
      pin: {
        nominals: inner.map((width) => width - 2 * lean - slack),
        factors: {
          straight: -1 / cos,
          bushing: 1 / cos,
          kerf: -1 / cos,
          thickness: -2 * k,
          fence: 2 * k,
        },
        drawnWider: 2 * lean - pinOffset,
        where: 'on the outside face of the pin board, where it is narrowest',
      },
    },
    openings: {
      nominals: inner.map((width) => width + tailOffset),
      where: 'on the plate for the tails',
    },
    pair: {
      factors: {
        dovetail: 1,
        bushing: -1 - 1 / cos,
        straight: 1 / cos,
        kerf: 1 + 1 / cos,
        thickness: 0,
        depth: 0,
        angle: 0,
        fence: -2 * k,
        scale: tailOffset + pinOffset + slack,
      },
      taper: { length: thickness, angle },
    },
    endPair: {
      dovetail: 1 / 2,
      straight: 1 / (2 * cos),
      bushing: -1 / 2 - 1 / (2 * cos),
      kerf: 1 / 2 + 1 / (2 * cos),
      fence: -k,
    },
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

/** A tail beside which the bushing has room between the pins, mm: their walls lean, and the bit goes on by half its width. */
export function roomyTail({
  dovetail,
  straight,
}: {
  readonly dovetail: Bit;
  readonly straight: Bit;
}): number {
  const { angle } = dovetail;
  return (straight.diameter + BUSHING_ROOM) / Math.cos(angle) + straight.diameter * Math.tan(angle);
}
