import { type Finding, finding } from '../findings/finding.js';
import type { Bit, Bushing, Shop } from '../job/types.js';

/** What the bit and the bushing of one cut can and cannot do, whatever is cut with them. */

/** A cutter turning in a bore with less room than this all round is too near to call free. */
const FREE_ROOM = 0.2;

/** What a plate is thicker than it must be, so that nothing touches, mm. */
const A_LITTLE = 0.1;

/** A dovetail bit's neck thinner than this at the board's surface is too weak to be used. */
const LEAST_NECK = 2.5;

/** One cut to be judged: what the bit does, through which bushing. */
export interface ToolUse {
  readonly bit: Bit;
  readonly bushing: Bushing;
  /** How deep the tip runs below the surface that the template lies on, mm. */
  readonly depth: number;
  /** Dotted paths of the keys that name the two. */
  readonly bitAt: string;
  readonly bushingAt: string;
}

/** Radius of a bit at a height above its tip, mm. A straight bit has angle 0. */
export function radiusAt(bit: Bit, height: number): number {
  return bit.diameter / 2 - height * Math.tan(bit.angle);
}

/**
 * The bushing-to-bit offset of both sides together, B − d, mm: a template finger is so much narrower than the wood
 * that it stands over. Where pin walls lean, divided by the cosine.
 */
export function offsetOfBothSides(bit: Bit, bushing: Bushing): number {
  return bushing.outside - bit.diameter;
}

/** Past the finger tips by this much, the rounded end of an opening is clear of the plate, mm. */
export function clearOf(bit: Bit, bushing: Bushing): number {
  return bit.diameter + bushing.outside;
}

/** How far the bit stands out below the router's base: template thickness and cut depth. */
export function bitExtension(shop: Shop, depth: number): number {
  return shop.plate.thickness + depth;
}

/** Everything that speaks against a bit and a bushing for a cut of this depth, with the tools of the shop that would do. */
export function judgeTools(use: ToolUse, shop: Shop): readonly Finding[] {
  return [...judgeBit(use, shop), ...judgeBushing(use, shop)];
}

function judgeBit({ bit, depth, bitAt }: ToolUse, shop: Shop): readonly Finding[] {
  const found: Finding[] = [];
  if (depth > bit.height + 1e-9) {
    const others = bitsThat(shop, (other) => other.kind === bit.kind && other.height >= depth);
    found.push(finding('bit-short', 'refused', bitAt, { bit: bit.name, height: bit.height, depth, others }));
  }
  const neck = 2 * radiusAt(bit, Math.min(depth, bit.height));
  if (bit.kind === 'dovetail' && neck < LEAST_NECK) {
    found.push(finding('bit-neck', 'refused', bitAt, { bit: bit.name, neck, depth }));
  }
  return found;
}

function judgeBushing(use: ToolUse, shop: Shop): readonly Finding[] {
  const { bit, bushing, bushingAt } = use;
  const { bore, barrel } = bushing;
  const found: Finding[] = [];
  const others = bushingsThat(shop, (other) => other !== bushing && fits(bit, other, use.depth, shop));
  if (barrel !== undefined && barrel > shop.plate.thickness - 1e-9) {
    const data = {
      bushing: bushing.name,
      barrel,
      plate: shop.plate.thickness,
      others,
      thicker: barrel + A_LITTLE,
    };
    found.push(finding('barrel-long', 'refused', bushingAt, data));
  }
  if (bore === undefined) return found;
  if (bit.shank !== undefined && bit.shank >= bore) {
    const data = { bit: bit.name, shank: bit.shank, bushing: bushing.name, bore, others };
    found.push(finding('shank-in-bore', 'refused', bushingAt, data));
  }
  const cutter = cutterInBarrel(bit, bushing, use.depth, shop);
  if (cutter > bore - 2 * FREE_ROOM) {
    const level = cutter > bore + 1e-9 ? 'refused' : 'caution';
    const thicker = plateThatClears(bit, bushing, use.depth, bore);
    const data = { bit: bit.name, cutter, bushing: bushing.name, bore, others, thicker };
    found.push(finding('cutter-in-bore', level, bushingAt, data));
  }
  return found;
}

/** Largest diameter of the cutting edge inside the bushing's barrel, mm; 0 when the edge stays below it. */
function cutterInBarrel(bit: Bit, bushing: Bushing, depth: number, shop: Shop): number {
  const lowest = bitExtension(shop, depth) - (bushing.barrel ?? 0);
  return lowest < bit.height ? 2 * radiusAt(bit, lowest) : 0;
}

/** Thickness of the plate that keeps the bit's edge below the barrel, or where a dovetail bit is narrow enough for the bore, mm. */
function plateThatClears(
  { height, angle, diameter }: Bit,
  { barrel = 0 }: Bushing,
  depth: number,
  bore: number,
) {
  const narrow = (diameter / 2 - (bore / 2 - FREE_ROOM)) / Math.tan(angle);
  return barrel - depth + Math.min(height, angle > 0 ? narrow : height) + A_LITTLE;
}

function fits(bit: Bit, bushing: Bushing, depth: number, shop: Shop): boolean {
  const { bore, barrel } = bushing;
  if (barrel !== undefined && barrel >= shop.plate.thickness) return false;
  if (bore === undefined) return true;
  const room = bore - 2 * FREE_ROOM;
  return (bit.shank ?? 0) < bore && cutterInBarrel(bit, bushing, depth, shop) <= room;
}

/** Names of the shop's bits that pass a test, in the order of the shop file. */
export function bitsThat(shop: Shop, passes: (bit: Bit) => boolean): readonly string[] {
  return Object.values(shop.bits)
    .filter(passes)
    .map((bit) => bit.name);
}

/** Names of the shop's bushings that pass a test, in the order of the shop file. */
export function bushingsThat(shop: Shop, passes: (bushing: Bushing) => boolean): readonly string[] {
  return Object.values(shop.bushings)
    .filter(passes)
    .map((bushing) => bushing.name);
}
