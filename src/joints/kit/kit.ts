import { type Diagnostic, diagnostic, hasErrors, type Level } from '../../diagnostics/diagnostic.js';
import type { Bit, Bushing, Job, Joint, Shop } from '../../input/types.js';
import type { Cut, JointFamily, SolvedJoint } from '../family.js';
import { familyOf } from '../list.js';
import { narrowestFinger, passesOf, roomOf } from '../measure.js';
import { judgeFingers, solveWithoutOffers, unblamed } from '../search/choice.js';
import { BUSHING_ROOM, bitExtension } from '../tools.js';
import { candidatesOf, countSets, type Refusal, setsOf, type ToolSet, toolChoice } from './candidates.js';

/** One set of tools with which the joint can be cut. Lengths in mm. */
export interface KitChoice extends ToolSet {
  readonly level: Level;
  /** The narrowest finger of its templates; absent where no template has a finger between two openings. */
  readonly finger?: number;
  /** Passes through the widest opening of each template, all templates together. */
  readonly passes: number;
  /** How far each bit stands below the router's base, in the order of the bits. */
  readonly extensions: readonly number[];
  /** true for the tools that the job names. */
  readonly own: boolean;
  /** How many of the tools are not in the shop but from the common sizes. */
  readonly lacking: number;
  /** What speaks against it, weighed: cautions, a bit out of proportion to the stock, little room for the bushing. */
  readonly penalty: number;
  /** Cautions; refusals make no choice. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Which bits and bushings can cut one joint. */
export interface Kit {
  readonly joint: string;
  /** Keys of the bits under the joint, in the order of every choice's bits, e.g. `cutters.tails`. */
  readonly slots: readonly string[];
  /** Best first, see `kitOf`. */
  readonly choices: readonly KitChoice[];
  readonly refusals: readonly Refusal[];
  /** How many layouts were solved: one for each set that its tools alone did not rule out. */
  readonly solved: number;
  readonly diagnostics: readonly Diagnostic[];
}

export interface KitOptions {
  /** Try the common sizes table, too. */
  readonly common?: boolean;
  /** Most layouts to be solved; every pair of a bit and a bushing comes before any set with two bits changed. */
  readonly most?: number;
}

/** Enough for every pair of 200 bits and 40 bushings. */
export const MAX_SOLVES = 8000;

/** A finger this many times the least width is as good as any wider one. */
const AMPLE_FINGER = 2;

/** Fingers whose widths differ by less are equally strong, mm. */
const SAME_STRENGTH = 0.1;

/** The kit of every joint of a job, or of the one named. */
export function kitsOf(job: Job, only: string | undefined, options: KitOptions): readonly Kit[] {
  return job.joints
    .filter((joint) => only === undefined || joint.name === only)
    .map((joint) => {
      const family = familyOf(joint.kind);
      if (!family) throw new Error(`no joint family for kind ${joint.kind}`);
      return kitOf(family, joint, job.shop, options);
    });
}

/**
 * Tries every bit and bushing of the shop on a joint whose family says which of its tools are bits. Tools that
 * rule themselves out (cutting height, neck, barrel against plate, bore against shank and cutter) are never
 * tried; for the others the layout is solved again, the fingers of the templates measured, the passes counted.
 *
 * Order of the choices: what least speaks against (see `penaltyOf`); then the widest narrowest finger, in steps of 0.1 mm, where twice
 * the width that the plate allows is as good as any more; then fewest passes; then fewest tools that the shop
 * does not have; then the job's own tools; then the order of the shop file.
 */
export function kitOf<J extends Joint>(
  family: JointFamily<J>,
  joint: J,
  shop: Shop,
  { common = false, most = family.mostTries ?? MAX_SOLVES }: KitOptions = {},
): Kit {
  const slots = family.bitSlots?.(joint) ?? [];
  const { bushing } = joint;
  const at = `joints.${joint.name}`;
  const nothing = { joint: joint.name, slots: [], choices: [], refusals: [], solved: 0 };
  if (slots.length === 0 || !bushing) {
    return { ...nothing, diagnostics: [diagnostic('kit-by-hand', 'refused', at, { joint: joint.name })] };
  }
  const candidates = candidatesOf(joint, slots, toolChoice(shop, common), shop);
  const own = slots.map(({ bit }) => bit);
  const tried: (KitChoice | Refusal)[] = [];
  for (const set of setsOf(candidates, own)) {
    if (tried.length === most) break;
    const changed = slots.reduce<J>((to, slot, index) => slot.put(to, set.bits[index] ?? slot.bit), {
      ...joint,
      bushing: set.bushing,
    });
    const isOwn = set.bushing === bushing && set.bits.every((bit, index) => bit === own[index]);
    tried.push(tryTools(family, changed, shop, set, isOwn));
  }
  const choices = tried.filter(isChoice).map((choice, index) => ({ choice, index }));
  choices.sort((a, b) => compare(a.choice, b.choice, shop.plate.leastFinger) || a.index - b.index);
  const untried = countSets(candidates) - tried.length;
  return {
    joint: joint.name,
    slots: slots.map(({ key }) => key),
    choices: choices.map(({ choice }) => choice),
    refusals: [...candidates.refusals, ...tried.filter((one): one is Refusal => !isChoice(one))],
    solved: tried.length,
    diagnostics: [
      ...(choices.length === 0 ? [diagnostic('kit-none', 'refused', at, { joint: joint.name, common })] : []),
      ...(untried > 0 ? [diagnostic('kit-untried', 'caution', at, { tried: tried.length, untried })] : []),
    ],
  };
}

function isChoice(one: KitChoice | Refusal): one is KitChoice {
  return 'passes' in one;
}

/** The joint with these tools, and no others in the shop: a refusal does not have to name what else would do. */
function tryTools<J extends Joint>(
  family: JointFamily<J>,
  joint: J,
  shop: Shop,
  set: ToolSet,
  own: boolean,
): KitChoice | Refusal {
  const solved = solveWithoutOffers(family, joint, { ...shop, ...onlyTools(set) });
  if (!solved.ok) return { ...set, diagnostics: solved.diagnostics.filter((one) => one.level === 'refused') };
  const { cuts } = solved.value;
  const fingers = cuts.flatMap((cut) => narrowestFinger(cut) ?? []);
  const thin = judgeFingers(solved.value, joint, shop);
  if (hasErrors(thin)) return { ...set, diagnostics: thin };
  const diagnostics = unblamed([...solved.diagnostics, ...thin], family, joint);
  const cautions = diagnostics.filter((one) => one.level === 'caution');
  return {
    ...set,
    level: cautions.length > 0 ? 'caution' : 'ok',
    ...(fingers.length > 0 ? { finger: Math.min(...fingers.map(({ width }) => width)) } : {}),
    passes: cuts.reduce((sum, cut) => sum + passesOf(cut), 0),
    extensions: set.bits.map((bit) => extensionOf(bit, cuts, shop)),
    own,
    lacking: lackingIn(shop, set),
    penalty: penaltyOf(solved.value, set, cautions),
    diagnostics: cautions,
  };
}

/** How much a caution speaks against tools, beside others, which count 1. Common practice, no source. */
const WEIGHTS: Readonly<Record<string, number>> = {
  'cutter-in-bore': 3,
  'finger-thin': 3,
  'bushing-room': 2,
  'lap-thin': 2,
  // Said of the layout, not of the tools.
  'second-end-mirrored': 0,
};

/**
 * Cautions by their weight; how far each dovetail bit is from being as wide as its stock is thick, in doublings (common
 * practice, no source); and the room that a bushing lacks, as a share.
 */
function penaltyOf(
  { cuts, boards }: SolvedJoint,
  { bits }: ToolSet,
  cautions: readonly Diagnostic[],
): number {
  const weighed = cautions.reduce((sum, { code }) => sum + (WEIGHTS[code] ?? 1), 0);
  const proportions = bits
    .filter(({ kind }) => kind === 'dovetail')
    .map(({ name, diameter }) => {
      const under = cuts.filter(({ bit }) => bit.name === name).flatMap(({ stock }) => stock);
      const thick = boards.find(({ board }) => under.some((one) => one.board === board))?.material.thickness;
      return thick === undefined ? 0 : Math.abs(Math.log2(diameter / thick));
    });
  const rooms = cuts.map((cut) => 1 - Math.min(1, Math.max(0, roomOf(cut)) / BUSHING_ROOM));
  return weighed + Math.max(0, ...proportions) + Math.max(0, ...rooms);
}

/** Penalties that differ by less than half of this are alike. */
const SAME_PENALTY = 0.25;

function lackingIn(shop: Shop, { bits, bushing }: ToolSet): number {
  const lacking = bits.filter((bit) => shop.bits[bit.name] !== bit).length;
  return shop.bushings[bushing.name] === bushing ? lacking : lacking + 1;
}

function onlyTools({ bits, bushing }: ToolSet): Pick<Shop, 'bits' | 'bushings'> {
  return {
    bits: Object.fromEntries(bits.map((bit) => [bit.name, bit])),
    bushings: { [bushing.name]: bushing } satisfies Record<string, Bushing>,
  };
}

function extensionOf(bit: Bit, cuts: readonly Cut[], shop: Shop): number {
  const depths = cuts.filter((cut) => cut.bit === bit).map(({ depth }) => depth);
  return bitExtension(shop, Math.max(0, ...depths));
}

function compare(one: KitChoice, other: KitChoice, leastFinger: number): number {
  return (
    Math.round(one.penalty / SAME_PENALTY) - Math.round(other.penalty / SAME_PENALTY) ||
    strengthOf(other, leastFinger) - strengthOf(one, leastFinger) ||
    one.passes - other.passes ||
    one.lacking - other.lacking ||
    Number(other.own) - Number(one.own)
  );
}

function strengthOf({ finger = Number.POSITIVE_INFINITY }: KitChoice, leastFinger: number): number {
  return Math.round(Math.min(finger, AMPLE_FINGER * leastFinger) / SAME_STRENGTH);
}
