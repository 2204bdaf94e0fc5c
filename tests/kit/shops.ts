import type { Bit, Bushing, Shop } from '../../src/input/types.js';

/** Workshops of any size, no two tools alike, for the tests and the measurements of the kit. */

const DEGREE = Math.PI / 180;

/** `count` bits, dovetail and straight by turns, from 5 mm up; shanks that turn in most bushings. */
export function manyBits(count: number, kinds: readonly Bit['kind'][]): Readonly<Record<string, Bit>> {
  const bits = Array.from({ length: count }, (_, index): Bit => {
    const kind = kinds[index % kinds.length] ?? 'straight';
    return {
      name: `bit-${index + 1}`,
      kind,
      diameter: 5 + (15 * index) / count,
      angle: kind === 'dovetail' ? (7 + (index % 8)) * DEGREE : 0,
      height: 14 + (index % 20),
      shank: [6.35, 8, 12.7][index % 3] ?? 8,
    };
  });
  return Object.fromEntries(bits.map((bit) => [bit.name, bit]));
}

/** `count` bushings from 8 mm outside up, some with a barrel too long for a 12.7 mm plate. */
export function manyBushings(count: number): Readonly<Record<string, Bushing>> {
  const bushings = Array.from({ length: count }, (_, index): Bushing => {
    const outside = 8 + (22 * index) / count;
    return { name: `bushing-${index + 1}`, outside, bore: outside - 2, barrel: index % 10 === 9 ? 14 : 5 };
  });
  return Object.fromEntries(bushings.map((one) => [one.name, one]));
}

export function bigShop(shop: Shop, bits: number, bushings: number, kinds: readonly Bit['kind'][]): Shop {
  return {
    ...shop,
    bits: { ...shop.bits, ...manyBits(bits - Object.keys(shop.bits).length, kinds) },
    bushings: { ...shop.bushings, ...manyBushings(bushings - Object.keys(shop.bushings).length) },
  };
}
