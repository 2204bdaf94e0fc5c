import { clipLine } from '../geometry/clip.js';
import { bushingOpening, cutBy } from '../geometry/compensate.js';
import { offsetRegion } from '../geometry/offset.js';
import { extents } from '../geometry/outline.js';
import type { Region } from '../geometry/types.js';
import type { Cut, SolvedJoint } from '../joints/family.js';

/**
 * The play of one mating pair in the middle of the joint, cut with tools and settings that are a little off.
 * Errors in mm, the angle's in radians, each added to what the job has. `kerf` is how much wider than meant a
 * plate's openings are, both walls together.
 */
export const sources = ['dovetail', 'straight', 'bushing', 'kerf', 'thickness', 'depth', 'angle'] as const;
export type Source = (typeof sources)[number];
export type Errors = Readonly<Partial<Record<Source, number>>>;

/** What the formula of the play needs of a joint; k = tan θ, lengths in mm. */
export interface PlayModel {
  readonly kind: 'through-dovetail' | 'half-blind-dovetail' | 'box';
  readonly slack: number;
  /** θ of the dovetail bit. */
  readonly angle: number;
  /** Depth of cut of a half-blind joint. */
  readonly depth: number;
  /** Thickness of the pin board of a through joint. */
  readonly thickness: number;
}

/**
 * The play by formula, exact in every error. A through joint is looked at in the middle of its glue line, where
 * an error of the angle shows by half of what it does at the ends; its pin walls lean by the template's own
 * slope, so what moves them square to themselves counts 1/cos θ along x:
 *
 *   through     g + ΔD + Δd/cos θ − ΔB(1 + 1/cos θ) + Δw(1 + 1/cos θ) − t′(tan θ′ − tan θ)
 *   half-blind  g + 2ΔD − 2ΔB + 2Δw − 2(h′ tan θ′ − h tan θ)
 *   box         g + 2Δd − 2ΔB + 2Δw
 *
 * Derivation: DEVELOPERS.md, "Geometry of the joints"; `playByCutting` gives the same by cutting.
 */
export function playOf(model: PlayModel, errors: Errors): number {
  const { kind, slack, angle, depth, thickness } = model;
  const error = (source: Source) => errors[source] ?? 0;
  const opening = error('kerf') - error('bushing');
  if (kind === 'box') return slack + 2 * error('straight') + 2 * opening;
  const [k, changed] = [Math.tan(angle), Math.tan(angle + error('angle'))];
  if (kind === 'half-blind-dovetail') {
    return slack + 2 * error('dovetail') + 2 * opening - 2 * ((depth + error('depth')) * changed - depth * k);
  }
  const cos = Math.cos(angle);
  const across = error('dovetail') + error('straight') / cos + opening * (1 + 1 / cos);
  return slack + across - (thickness + error('thickness')) * (changed - k);
}

export const pairKinds = ['through-dovetail', 'half-blind-dovetail', 'box'] as const;

/** undefined for a joint cut by hand or of a kind whose pairs are not known. */
export function playModelOf(solved: SolvedJoint, slack: number): PlayModel | undefined {
  const kind = pairKinds.find((one) => one === solved.kind);
  const [cut] = solved.cuts;
  if (!kind || !cut) return undefined;
  const dovetail = solved.cuts.find(({ bit }) => bit.kind === 'dovetail');
  const pins = solved.cuts.find(({ board }) => board === 'pins');
  return {
    kind,
    slack,
    angle: dovetail?.bit.angle ?? 0,
    depth: cut.depth,
    thickness: pins ? thicknessOf(pins, 'pins') : 0,
  };
}

/**
 * The same play by cutting: plates as they are compensated for the nominal tools, their openings widened by the
 * kerf's error, the bushing that there is moved in them and the waste of the bit that there is read off along
 * two lines. undefined where the bushing does not go into an opening.
 */
export function playByCutting(solved: SolvedJoint, errors: Errors): number | undefined {
  return solved.kind === 'half-blind-dovetail' ? sunkPlay(solved, errors) : crossedPlay(solved, errors);
}

/** Socket or slot of the first board, pin or finger of the second, both at the same place along x. */
function crossedPlay(solved: SolvedJoint, errors: Errors): number | undefined {
  const through = solved.kind === 'through-dovetail';
  const x = middleOf(solved, through ? 'pin' : 'slot');
  const [first, second] = solved.cuts;
  if (!first || !second || x === undefined) return undefined;
  const [own, other] = [first.stock[0]?.board ?? '', second.stock[0]?.board ?? ''];
  const thickness = thicknessOf(second, other);
  const half = (thickness + (errors.thickness ?? 0)) / 2;
  const socket = runAround(cutAt(first, through ? half : 0, errors), x, -thicknessOf(first, own) / 2);
  const pin = gapAround(cutAt(second, 0, errors), x, through ? -half : -thickness / 2);
  return socket === undefined || pin === undefined ? undefined : socket - pin;
}

/** A tail's end in the bottom of its socket. */
function sunkPlay(solved: SolvedJoint, errors: Errors): number | undefined {
  const x = middleOf(solved, 'tail');
  const side = cutOfBoard(solved, 'tails');
  const front = cutOfBoard(solved, 'pins');
  if (x === undefined || !side || !front) return undefined;
  const box = boxOf(side, 'tails');
  const depth = side.depth + (errors.depth ?? 0);
  const socket = runAround(cutAt(front, 0, errors), x, A_LITTLE);
  const tail = gapAround(cutAt(side, depth, errors), box.minX + x, -A_LITTLE);
  return socket === undefined || tail === undefined ? undefined : socket - tail;
}

/** Beside the plane in which the front's end and the side's outside face lie: walls are straight there, mm. */
const A_LITTLE = 0.5;

/** What the bit clears at a height above its tip. */
function cutAt(cut: Cut, height: number, errors: Errors): Region {
  const { bit, bushing, waste, cutterRadius } = cut;
  const plate = bushingOpening(waste, cutterRadius, bushing.outside / 2);
  const kerf = errors.kerf ?? 0;
  const opening = kerf === 0 ? plate : offsetRegion(plate, kerf / 2);
  const angle = bit.kind === 'dovetail' ? bit.angle + (errors.angle ?? 0) : 0;
  const radius = (bit.diameter + (errors[bit.kind] ?? 0)) / 2 - height * Math.tan(angle);
  return cutBy(opening, (bushing.outside + (errors.bushing ?? 0)) / 2, radius);
}

/** The middle of an inner span of the layout, as near to the middle of the board as there is one. */
function middleOf({ layout, width }: SolvedJoint, part: string): number | undefined {
  const inner = layout.spans.slice(1, -1).filter((span) => span.part === part);
  const middles = inner.map(({ from, to }) => (from + to) / 2);
  return middles.sort((one, other) => Math.abs(one - width / 2) - Math.abs(other - width / 2))[0];
}

function cutOfBoard({ cuts }: SolvedJoint, board: string): Cut | undefined {
  return cuts.find(({ stock }) => stock.some((one) => one.board === board));
}

function boxOf({ stock }: Cut, board: string) {
  return extents(...stock.filter((one) => one.board === board).map(({ outline }) => outline));
}

function thicknessOf(cut: Cut, board: string): number {
  const { minY, maxY } = boxOf(cut, board);
  return maxY - minY;
}

function runsAlong(region: Region, y: number): readonly (readonly [number, number])[] {
  const { minX, maxX } = extents(...region);
  return clipLine({ x: minX - 1, y }, { x: maxX + 1, y }, region).map((part) => {
    const box = extents(part);
    return [box.minX, box.maxX] as const;
  });
}

function runAround(region: Region, x: number, y: number): number | undefined {
  const run = region.length > 0 && runsAlong(region, y).find(([from, to]) => from < x && x < to);
  return run ? run[1] - run[0] : undefined;
}

function gapAround(region: Region, x: number, y: number): number | undefined {
  const runs = region.length > 0 ? runsAlong(region, y) : [];
  const before = runs.filter(([, to]) => to <= x).at(-1);
  const after = runs.find(([from]) => from >= x);
  return before && after ? after[0] - before[1] : undefined;
}
