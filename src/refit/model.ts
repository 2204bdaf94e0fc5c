import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import type { Bit, Bushing, Joint } from '../job/types.js';
import type { BoxJoint } from '../joints/box-fields.js';
import type { EdgeJoint } from '../joints/edge-fields.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { EASY_LAP, LEAST_LAP, LEAST_LAP_MM } from '../joints/half-blind/depth.js';
import type { HalfBlindJoint } from '../joints/half-blind/fields.js';
import type { ThroughDovetailJoint } from '../joints/through-dovetail-fields.js';

/**
 * What a trial piece of each kind of joint can tell, and what can be moved. Everything is linear for the small
 * errors that a trial piece shows: an effect is how much a width grows for 1 mm more of a tool's diameter. With
 * k = tan θ and every width as a caliper finds it at a board's end:
 *
 *   through     socket +D −B    tail −D +B    pin (−d + B)/cos θ      pair +D + d/cos θ − B(1 + 1/cos θ)
 *   half-blind  socket +D −B    tail −D +B                             pair +2D −2B, and −2k a unit of depth
 *   box         slot +d −B      finger −d +B                           pair +2d −2B
 *   edge        both sides of a bump in its bay                        pair +d₁ +d₂ −2B
 *
 * Derivation: DEVELOPERS.md, "Geometry of the joints". A pin wall leans, so its plate stands back by
 * (B − d)/(2 cos θ) along x.
 */
export interface FitModel {
  readonly joint: string;
  /** Whole clearance wanted in one mating pair, mm. */
  readonly slack: number;
  readonly tools: readonly FitTool[];
  /** Widths by the word that names them, in the order from the reference edge. */
  readonly widths: Readonly<Record<string, FitWidth>>;
  /** Effects on the clearance of one pair, and of a half-pin, which has one glue line. */
  readonly pair: Effects;
  readonly endPair?: Effects;
  /** Set where a pair's clearance differs from place to place, so that none can be taken for it. */
  readonly gapTellsNothing?: true;
  readonly move?: FitMove;
  /** What stands proud or shy, by the board's name. */
  readonly faces: Readonly<Record<string, Face>>;
  /** The board whose stop is moved, and the other one. */
  readonly boards: readonly [moved: string, other: string];
}

/** `second` is the bit of board two where two straight bits cut one joint. */
export type ToolRole = 'dovetail' | 'straight' | 'second' | 'bushing';
export type Effects = Readonly<Partial<Record<ToolRole, number>>>;

/** A tool, and the word that measures it. */
export interface FitTool {
  readonly role: ToolRole;
  readonly key: string;
  readonly name: string;
  readonly size: number;
  /** Path of its size below the shop. */
  readonly path: readonly [string, string, string];
}

export interface FitWidth {
  readonly nominals: readonly number[];
  readonly effects: Effects;
  /** Where the caliper goes. */
  readonly where: string;
}

/** A setting that changes the fit with the plate as it is. Both limits are distances, mm. */
export interface FitMove {
  readonly kind: 'depth' | 'shift';
  /** How much one pair tightens for each mm: deeper, or wider finger over the board. */
  readonly perMm: number;
  /** Farthest that cures a loose joint, and a tight one. */
  readonly tighter: number;
  readonly looser: number;
  /** Beyond this a tighter setting wants care: the lap gets thin. */
  readonly easy: number;
  /** Depth as the job has it. */
  readonly depth?: number;
}

/** How far a board's end or face stands proud, and what sets it. */
export interface Face {
  readonly wanted: number;
  readonly by: 'depth' | 'template' | 'sockets-template';
  /** Change of the face for each mm of that. */
  readonly perMm: number;
}

/** The model of a joint with its layout, or why there is none. */
export function fitModelOf(joint: Joint, solved: SolvedJoint): Result<FitModel> {
  const at = `joints.${joint.name}`;
  if (solved.cuts.length === 0)
    return refused([finding('refit-by-hand', 'refused', at, { joint: joint.name })]);
  switch (joint.kind) {
    case 'through-dovetail':
      return given(throughModel(joint as ThroughDovetailJoint, solved));
    case 'half-blind-dovetail':
      return given(halfBlindModel(joint as HalfBlindJoint, solved));
    case 'box':
      return given(boxModel(joint as BoxJoint, solved));
    case 'edge':
      return given(edgeModel(joint as EdgeJoint));
    default:
      return refused([unknownKind(joint.kind, at)]);
  }
}

function unknownKind(kind: string, at: string): Finding {
  const known = ['through-dovetail', 'half-blind-dovetail', 'box', 'edge'];
  return finding('refit-kind', 'refused', `${at}.kind`, { kind, known });
}

/** A finger's tip is rounded over the last of its nose; no work is guided there, mm. */
const ROUNDED_TIP = 1.5;

function throughModel(joint: ThroughDovetailJoint, solved: SolvedJoint): FitModel {
  const { cutters, bushing, boards, slack } = joint;
  const cut = cutOf(solved, 'pins');
  const angle = cutters?.tails.angle ?? 0;
  const [k, cos] = [Math.tan(angle), Math.cos(angle)];
  const lean = boards.pins.thickness * k;
  const inner = widthsOf(solved, 'pin').slice(1, -1);
  const pair: Effects = { dovetail: 1, straight: 1 / cos, bushing: -1 - 1 / cos };
  return {
    joint: joint.name,
    slack,
    tools: [
      ...bitTool('dovetail', 'bit-tails', cutters?.tails),
      ...bitTool('straight', 'bit-pins', cutters?.pins),
      ...bushingTool(bushing),
    ],
    widths: {
      socket: {
        nominals: inner.map((width) => width - 2 * lean),
        effects: { dovetail: 1, bushing: -1 },
        where: 'between two tails at the end of the tail board',
      },
      tail: {
        nominals: widthsOf(solved, 'tail').map((width) => width + 2 * lean),
        effects: { dovetail: -1, bushing: 1 },
        where: 'at the end of the tail board, where it is widest',
      },
      pin: {
        nominals: inner.map((width) => width - 2 * lean - slack),
        effects: { straight: -1 / cos, bushing: 1 / cos },
        where: 'on the outside face of the pin board, where it is narrowest',
      },
    },
    pair,
    endPair: { dovetail: 1 / 2, straight: 1 / (2 * cos), bushing: -1 / 2 - 1 / (2 * cos) },
    move: {
      kind: 'shift',
      perMm: 2 * k,
      tighter: topOf(cut) - cut.cutterRadius,
      looser: -boards.pins.thickness - cut.nearEdge - ROUNDED_TIP,
      easy: Number.POSITIVE_INFINITY,
    },
    faces: {
      tails: { wanted: 0, by: 'depth', perMm: 1 },
      pins: { wanted: joint.proud ?? 0, by: 'depth', perMm: 1 },
    },
    boards: ['tails', 'pins'],
  };
}

/** Sockets shallower than this hold no glue worth the name, mm. Common practice, no source. */
const LEAST_DEPTH = 3;

function halfBlindModel(joint: HalfBlindJoint, solved: SolvedJoint): FitModel {
  const { cutter, bushing, boards, slack, method } = joint;
  const [cut] = solved.cuts;
  const depth = cut?.depth ?? 0;
  const k = Math.tan(cutter?.angle ?? 0);
  const front = boards.pins.thickness;
  const tails = widthsOf(solved, 'tail');
  const deepest = Math.min(
    front - Math.max(LEAST_LAP * front, LEAST_LAP_MM),
    cutter?.height ?? Number.POSITIVE_INFINITY,
    joint.lip?.rabbet ?? Number.POSITIVE_INFINITY,
  );
  // Cut together the slack is shared between both boards; cut apart the tails carry all of it.
  const moreSocket = method === 'together' ? slack / 2 : 0;
  const lessTail = slack - moreSocket;
  const oneSetUp = method === 'together' && joint.lip === undefined;
  return {
    joint: joint.name,
    slack,
    tools: [...bitTool('dovetail', 'bit', cutter), ...bushingTool(bushing)],
    widths: {
      socket: {
        nominals: tails.map((width) => width + moreSocket),
        effects: { dovetail: 1, bushing: -1 },
        where: 'on the inside face of the front',
      },
      tail: {
        nominals: tails.map((width) => width + 2 * depth * k - lessTail),
        effects: { dovetail: -1, bushing: 1 },
        where: 'at the end of the side, where it is widest',
      },
    },
    pair: { dovetail: 2, bushing: -2 },
    move: {
      kind: 'depth',
      perMm: 2 * k,
      tighter: Math.max(0, deepest - depth),
      looser: Math.max(0, depth - LEAST_DEPTH),
      easy: Math.max(0, (1 - EASY_LAP) * front - depth),
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

function boxModel(joint: BoxJoint, solved: SolvedJoint): FitModel {
  const { cutter, bushing, slack } = joint;
  const where = 'on board one';
  return {
    joint: joint.name,
    slack,
    tools: [...bitTool('straight', 'bit', cutter), ...bushingTool(bushing)],
    widths: {
      slot: {
        nominals: widthsOf(solved, 'slot').map((width) => width + slack / 2),
        effects: { straight: 1, bushing: -1 },
        where,
      },
      finger: {
        nominals: widthsOf(solved, 'finger').map((width) => width - slack / 2),
        effects: { straight: -1, bushing: 1 },
        where,
      },
    },
    pair: { straight: 2, bushing: -2 },
    faces: {
      one: { wanted: 0, by: 'depth', perMm: 1 },
      two: { wanted: 0, by: 'depth', perMm: 1 },
    },
    boards: ['one', 'two'],
  };
}

/**
 * Along a drawn line a gap tells nothing: boards that are pushed home close an error e where the line runs along
 * the joint and keep e(1 − cos φ) of it where it leans by φ. What tells is a caliper on the tools.
 */
function edgeModel({ name, cutters, bushing, slack }: EdgeJoint): FitModel {
  const [one, two] = [cutters?.one, cutters?.two];
  const alike = one?.name === two?.name;
  return {
    joint: name,
    slack,
    tools: [
      ...bitTool('straight', alike ? 'bit' : 'bit-one', one),
      ...(alike ? [] : bitTool('second', 'bit-two', two)),
      ...bushingTool(bushing),
    ],
    widths: {},
    pair: alike ? { straight: 2, bushing: -2 } : { straight: 1, second: 1, bushing: -2 },
    gapTellsNothing: true,
    faces: {},
    boards: ['one', 'two'],
  };
}

function bitTool(role: ToolRole, key: string, bit: Bit | undefined): readonly FitTool[] {
  return bit
    ? [{ role, key, name: bit.name, size: bit.diameter, path: ['bits', bit.name, 'diameter'] as const }]
    : [];
}

function bushingTool(bushing: Bushing | undefined): readonly FitTool[] {
  if (!bushing) return [];
  const { name, outside } = bushing;
  return [{ role: 'bushing', key: 'bushing', name, size: outside, path: ['bushings', name, 'outside'] }];
}

function widthsOf({ layout }: SolvedJoint, part: string): readonly number[] {
  return layout.spans.filter((span) => span.part === part).map(({ from, to }) => to - from);
}

function cutOf({ cuts }: SolvedJoint, board: string): Cut {
  const cut = cuts.find((one) => one.board === board);
  if (!cut) throw new Error(`no cut for board ${board}`);
  return cut;
}

/** Where the shortest opening ends, away from the operator. */
function topOf({ waste }: Cut): number {
  const tops = waste.map(({ segments }) => Math.max(...segments.map(({ to }) => to.y)));
  return Math.min(...tops);
}
