import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Bit, Bushing, Shop } from '../input/types.js';
import { boreOf, clearsAll, cutterRooms, plateToClear, type Stand } from './cutter-room.js';

/** What the bit and the bushing of one cut can and cannot do, whatever is cut with them. */

/** What a plate is thicker than it must be, so that nothing touches, mm. */
const A_LITTLE = 0.1;

/** A dovetail bit's neck thinner than this at the board's surface is too weak to be used. */
const MIN_NECK = 2.5;

/**
 * So much wider than its bushing an opening is made where halfpin chooses, mm: with bit, bushing and kerf each 0.05 off
 * the bushing still goes in. Common practice, no source.
 */
export const BUSHING_ROOM = 0.2;

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

/** Everything that speaks against the bits and the bushing of a joint, each said once: at the depth where it is worst. */
export function judgeUses(uses: readonly ToolUse[], shop: Shop): readonly Diagnostic[] {
  const all = uses.flatMap((use) => judgeTools(use, shop));
  const same = (one: Diagnostic, other: Diagnostic) => one.code === other.code && one.at === other.at;
  const worst = (one: Diagnostic) =>
    all.filter((other) => same(one, other)).find(({ level }) => level === 'refused') ?? one;
  return all.filter((one, i) => all.findIndex((other) => same(one, other)) === i).map(worst);
}

/** Everything that speaks against a bit and a bushing for a cut of this depth, with the tools of the shop that would do. */
export function judgeTools(use: ToolUse, shop: Shop): readonly Diagnostic[] {
  return [...judgeBit(use, shop), ...judgeBushing(use, shop)];
}

function judgeBit({ bit, depth, bitAt }: ToolUse, shop: Shop): readonly Diagnostic[] {
  const found: Diagnostic[] = [];
  if (depth > bit.height + 1e-9) {
    const others = bitsThat(shop, (other) => other.kind === bit.kind && other.height >= depth);
    found.push(
      diagnostic('bit-short', 'refused', bitAt, { bit: bit.name, height: bit.height, depth, others }),
    );
  }
  const neck = neckOf(bit, depth);
  if (isWeak(bit, depth)) {
    found.push(diagnostic('bit-neck', 'refused', bitAt, { bit: bit.name, neck, depth }));
  }
  return found;
}

/** Diameter of a bit at the surface of the board, mm. */
function neckOf(bit: Bit, depth: number): number {
  return 2 * radiusAt(bit, Math.min(depth, bit.height));
}

function isWeak(bit: Bit, depth: number): boolean {
  return bit.kind === 'dovetail' && neckOf(bit, depth) < MIN_NECK;
}

function judgeBushing(use: ToolUse, shop: Shop): readonly Diagnostic[] {
  const { bit, bushing, bushingAt } = use;
  const { barrel } = bushing;
  const bore = boreOf(bushing);
  const found: Diagnostic[] = [];
  const others = bushingsThat(shop, (other) => other !== bushing && pairFits(bit, other, use.depth, shop));
  if (barrel !== undefined && barrel > shop.plate.thickness - 1e-9) {
    const data = {
      bushing: bushing.name,
      barrel,
      plate: shop.plate.thickness,
      others,
      thicker: barrel + A_LITTLE,
    };
    found.push(diagnostic('barrel-long', 'refused', bushingAt, data));
  }
  if (bit.shank !== undefined && bit.shank >= bore) {
    const data = { bit: bit.name, shank: bit.shank, bushing: bushing.name, bore, others };
    found.push(diagnostic('shank-in-bore', 'refused', bushingAt, data));
  }
  return [...found, ...cutterDiagnostics(use, others, shop)];
}

/** An edge that is wider than the bushing's bore where it turns in it, or that would cut the plate. */
function cutterDiagnostics(use: ToolUse, others: readonly string[], shop: Shop): readonly Diagnostic[] {
  const { bit, bushing, depth, bushingAt } = use;
  const stand = standOf(bit, bushing, depth, shop);
  const worst = cutterRooms(stand).find(({ fits }) => fits === 'no') ?? cutterRooms(stand).find(isNear);
  if (!worst) return [];
  const { where, cutter, room } = worst;
  const bits = bitsThat(
    shop,
    (other) =>
      other !== bit &&
      other.kind === bit.kind &&
      other.height >= depth &&
      clears(other, bushing, depth, shop) &&
      !isWeak(other, depth),
  );
  const plate = where === 'barrel' && worst.fits === 'no' ? plateToClear(stand) : undefined;
  const data = {
    ...{
      bit: bit.name,
      bushing: bushing.name,
      cutter,
      room,
      where,
      touches: worst.fits === 'no',
      others,
      bits,
    },
    ...{ boreGiven: bushing.bore !== undefined, outside: bushing.outside },
    ...(plate !== undefined && plate <= THICKEST_SHEET && { thicker: plate }),
  };
  return [diagnostic('cutter-in-bore', worst.fits === 'no' ? 'refused' : 'caution', bushingAt, data)];
}

/** Sheet for templates is sold no thicker than this, mm. Common practice, no source. */
const THICKEST_SHEET = 26;

const isNear = ({ fits }: { readonly fits: string }): boolean => fits === 'near';

function standOf(bit: Bit, bushing: Bushing, depth: number, { plate }: Shop): Stand {
  return { bit, bushing, depth, plate: plate.thickness };
}

/** Whether a bit turns in a bushing, shank and edge, and cuts neither it nor the plate. */
function clears(bit: Bit, bushing: Bushing, depth: number, shop: Shop): boolean {
  return (bit.shank ?? 0) < boreOf(bushing) && clearsAll(standOf(bit, bushing, depth, shop));
}

function pairFits(bit: Bit, bushing: Bushing, depth: number, shop: Shop): boolean {
  const { barrel } = bushing;
  return (barrel === undefined || barrel < shop.plate.thickness) && clears(bit, bushing, depth, shop);
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
