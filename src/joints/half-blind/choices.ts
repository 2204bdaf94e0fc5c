import type { Shop } from '../../input/types.js';
import { tailChoices } from '../../layout/tails/choices.js';
import type { TailBounds } from '../../layout/types.js';
import { withMargin } from '../search/choice.js';
import { depthOf } from './depth.js';
import type { HalfBlindJoint } from './fields.js';
import { countsAt, isOpen, pitchRange } from './pitch-range.js';
import { halfBlindTools } from './tool-shape.js';

/**
 * Ways to fill in the blanks of a half-blind joint: the depth of the sockets, and with it the number of tails and
 * their pitch, or their pins. Depths that leave a lap of a quarter to a third of the front come before others,
 * template fingers with a margin before thinner ones, then more tails before fewer.
 */
export interface DepthJudge {
  /** How many cautions speak against a depth; infinite where it can't be cut. */
  readonly trouble: (depth: number) => number;
  /** What bounds a row of tails at a depth, where each board has its own template or is cut by hand. */
  readonly bounds: (depth: number, shop: Shop) => TailBounds;
}

export function* halfBlindChoices(
  joint: HalfBlindJoint,
  shop: Shop,
  judge: DepthJudge,
): Generator<HalfBlindJoint> {
  if (isComb(joint) && joint.layout.spacing !== 'even') return;
  const { usual, others } = depthsToTry(joint, judge);
  for (const easy of [true, false]) {
    const plate = easy ? withMargin(shop) : shop;
    for (const depths of [usual, others]) {
      yield* isComb(joint) ? combsAt(joint, plate, depths, easy) : rowsAt(joint, plate, depths, judge);
    }
  }
}

/** Cut under one template for both boards. */
export function isComb({ method, cutter }: HalfBlindJoint): boolean {
  return method === 'together' && cutter !== undefined;
}

function* rowsAt(
  joint: HalfBlindJoint,
  shop: Shop,
  depths: readonly number[],
  { bounds }: DepthJudge,
): Generator<HalfBlindJoint> {
  for (const depth of depths) {
    for (const layout of tailChoices(joint.width, joint.layout, bounds(depth, shop))) {
      yield { ...joint, depth, layout };
    }
  }
}

function* combsAt(
  joint: HalfBlindJoint,
  shop: Shop,
  depths: readonly number[],
  easy: boolean,
): Generator<HalfBlindJoint> {
  const open = depths.flatMap((depth) => {
    const tools = halfBlindTools(joint, depth);
    const counts = tools && countsAt(joint, tools, shop);
    return tools && counts && counts.least <= counts.most ? [{ depth, tools, ...counts }] : [];
  });
  const most = Math.max(0, ...open.map((one) => one.most));
  const least = Math.max(1, Math.min(...open.map((one) => one.least)));
  for (let tails = most; tails >= least; tails -= 1) {
    for (const { depth, tools, ...counts } of open) {
      if (tails < counts.least || tails > counts.most) continue;
      const range = pitchRange(joint, tools, tails, shop, easy);
      if (!isOpen(range)) continue;
      const pitch = Math.min(Math.max(range.liked, range.least.pitch), range.most.pitch);
      yield { ...joint, depth, layout: { ...joint.layout, tails, pitch } };
    }
  }
}

/** Depths as shares of the front's thickness: sockets shallower than this hold little. Common practice, no source. */
const SHALLOWEST = 1 / 3;
const DEEPEST = 7 / 8;
const DEPTHS = 26;

/** A lap of a quarter to a third of the front is common practice, no source. */
const USUAL = { least: 2 / 3, most: 3 / 4 } as const;

/** The depth asked for, or those that can be cut, next to the wanted one first. */
export function depthsToTry(
  joint: HalfBlindJoint,
  { trouble }: DepthJudge,
): { readonly usual: readonly number[]; readonly others: readonly number[] } {
  if (joint.depth !== undefined) {
    return { usual: Number.isFinite(trouble(joint.depth)) ? [joint.depth] : [], others: [] };
  }
  const { thickness } = joint.boards.pins;
  const wanted = depthOf(joint);
  const even = Array.from(
    { length: DEPTHS + 1 },
    (_, index) => thickness * (SHALLOWEST + ((DEEPEST - SHALLOWEST) * index) / DEPTHS),
  );
  const judged = [wanted, ...even, ...limitsBetween(even, trouble)]
    .map((depth) => ({ depth, trouble: trouble(depth) }))
    .filter((one) => Number.isFinite(one.trouble))
    .sort((a, b) => a.trouble - b.trouble || Math.abs(a.depth - wanted) - Math.abs(b.depth - wanted));
  const isUsual = (one: { readonly depth: number; readonly trouble: number }) =>
    one.trouble === 0 &&
    (one.depth === wanted || (one.depth >= USUAL.least * thickness && one.depth <= USUAL.most * thickness));
  const depths = (all: typeof judged) => all.map(({ depth }) => depth);
  return { usual: depths(judged.filter(isUsual)), others: depths(judged.filter((one) => !isUsual(one))) };
}

/** Depths at the very limit of what can be cut, each inside it, where the limit lies between two of a row. */
function limitsBetween(row: readonly number[], trouble: (depth: number) => number): readonly number[] {
  const can = (depth: number) => Number.isFinite(trouble(depth));
  return row.slice(1).flatMap((high, index) => {
    const low = row[index] ?? high;
    if (can(low) === can(high)) return [];
    let [inside, outside] = can(low) ? [low, high] : [high, low];
    for (let halving = 0; halving < 24; halving += 1) {
      const middle = (inside + outside) / 2;
      if (can(middle)) inside = middle;
      else outside = middle;
    }
    return [inside];
  });
}
