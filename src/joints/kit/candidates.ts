import { commonBits, commonBushings } from '../../../shared/tools.js';
import { type Diagnostic, hasErrors } from '../../diagnostics/diagnostic.js';
import type { Bit, Bushing, Joint, Shop } from '../../input/types.js';
import type { BitSlot } from '../family.js';
import { judgeTools } from '../tools.js';

/** Which bits and bushings may be tried together, judged by themselves before any layout is solved. */

/** The bits of one joint, in the order of its slots, and the bushing that they all run in. */
export interface ToolSet {
  readonly bits: readonly Bit[];
  readonly bushing: Bushing;
}

/** Tools that will not do. No bushing: in no bushing at all; no bits: with no bit at all. */
export interface Refusal {
  readonly bits: readonly Bit[];
  readonly bushing?: Bushing;
  readonly diagnostics: readonly Diagnostic[];
}

/** What there is to choose from. */
export interface ToolChoice {
  readonly bits: readonly Bit[];
  readonly bushings: readonly Bushing[];
}

/** The tools of the shop file, and after them the common sizes where those are wanted. */
export function toolChoice(shop: Shop, common: boolean): ToolChoice {
  const bits = Object.values(shop.bits);
  const bushings = Object.values(shop.bushings);
  if (!common) return { bits, bushings };
  return {
    bits: [...bits, ...commonBits.map((bit) => ({ ...bit, angle: (bit.angle * Math.PI) / 180 }))],
    bushings: [...bushings, ...commonBushings],
  };
}

export interface Candidates {
  /** For each bushing the bits that turn in it, one list a slot. */
  readonly byBushing: readonly { readonly bushing: Bushing; readonly bits: readonly (readonly Bit[])[] }[];
  readonly refusals: readonly Refusal[];
}

/**
 * Judges each bit alone (height, neck), each bushing alone (barrel against plate), then each pair of what is
 * left (bore against shank and cutter). Every reason is found once, where it arises.
 */
export function candidatesOf(
  joint: Joint,
  slots: readonly BitSlot[],
  tools: ToolChoice,
  shop: Shop,
): Candidates {
  const bare: Shop = { ...shop, bits: {}, bushings: {} };
  const judge = (slot: BitSlot, bit: Bit, bushing: Bushing): readonly Diagnostic[] =>
    judgeTools(
      {
        bit,
        bushing,
        depth: slot.depth(bit),
        bitAt: `joints.${joint.name}.${slot.key}`,
        bushingAt: `joints.${joint.name}.bushing`,
      },
      bare,
    ).filter((one) => one.level === 'refused');
  const refusals: Refusal[] = [];
  const alone = slots.map((slot) =>
    tools.bits.filter((bit) => {
      if (bit.kind !== slot.kind) return false;
      const diagnostics = judge(slot, bit, NO_BUSHING);
      if (diagnostics.length > 0) refusals.push({ bits: [bit], diagnostics });
      return diagnostics.length === 0;
    }),
  );
  const byBushing = tools.bushings.flatMap((bushing) => {
    const [slot] = slots;
    const barrel = slot ? judge(slot, THIN_BIT, bushing) : [];
    if (hasErrors(barrel)) {
      refusals.push({ bits: [], bushing, diagnostics: barrel });
      return [];
    }
    const bits = slots.map((each, index) =>
      (alone[index] ?? []).filter((bit) => {
        const diagnostics = judge(each, bit, bushing);
        if (diagnostics.length > 0) refusals.push({ bits: [bit], bushing, diagnostics });
        return diagnostics.length === 0;
      }),
    );
    return [{ bushing, bits }];
  });
  return { byBushing, refusals };
}

/** Speaks against no bit. */
const NO_BUSHING: Bushing = { name: '', outside: Number.POSITIVE_INFINITY };

/** Speaks against no bushing: it is nowhere thick and never too short. */
const THIN_BIT: Bit = { name: '', kind: 'straight', diameter: 0, angle: 0, height: Number.POSITIVE_INFINITY };

/**
 * Every set of bits and bushing, those first that keep all of the job's own bits but one. So every pair of a
 * bit and a bushing has its turn, however many sets there are.
 */
export function* setsOf({ byBushing }: Candidates, own: readonly Bit[]): Generator<ToolSet> {
  for (const few of [true, false]) {
    for (const { bushing, bits } of byBushing) {
      for (const chosen of few ? oneChanged(bits, own) : manyChanged(bits, own)) {
        yield { bits: chosen, bushing };
      }
    }
  }
}

/** How many sets there are in all. */
export function countSets({ byBushing }: Candidates): number {
  return byBushing.reduce(
    (sum, { bits }) => sum + bits.reduce((product, slot) => product * slot.length, 1),
    0,
  );
}

function* oneChanged(bits: readonly (readonly Bit[])[], own: readonly Bit[]): Generator<readonly Bit[]> {
  if (own.every((bit, slot) => bits[slot]?.includes(bit))) yield own;
  for (const [slot, choices] of bits.entries()) {
    if (own.some((bit, other) => other !== slot && !bits[other]?.includes(bit))) continue;
    for (const bit of choices) {
      if (bit !== own[slot]) yield own.map((each, other) => (other === slot ? bit : each));
    }
  }
}

function* manyChanged(
  bits: readonly (readonly Bit[])[],
  own: readonly Bit[],
  chosen: readonly Bit[] = [],
): Generator<readonly Bit[]> {
  const choices = bits[chosen.length];
  if (choices === undefined) {
    if (chosen.filter((bit, slot) => bit !== own[slot]).length > 1) yield chosen;
    return;
  }
  for (const bit of choices) yield* manyChanged(bits, own, [...chosen, bit]);
}
