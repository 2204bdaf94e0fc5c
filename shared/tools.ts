/**
 * Router bits and guide bushings in sizes that are commonly sold, mm and degrees, for people who want to know
 * what to buy. Nobody's catalogue: diameters, angles, shanks, bores and barrels are common practice, no source;
 * cutting heights are from memory of what is usual at that diameter. Measure what you buy.
 */
export interface CommonBit {
  readonly name: string;
  readonly kind: 'dovetail' | 'straight';
  readonly diameter: number;
  /** Degrees from the axis; 0 for a straight bit. */
  readonly angle: number;
  readonly height: number;
  readonly shank: number;
}

export interface CommonBushing {
  readonly name: string;
  readonly outside: number;
  readonly bore: number;
  readonly barrel: number;
}

const INCH = 25.4;

/** Dovetail bits of 7° to 14° and 1/4 to 3/4 in: common practice, no source. Heights from memory. */
const dovetailSizes: readonly (readonly [diameter: string, angle: number, height: number, shank: number])[] =
  [
    ['1/4', 7, 1 / 4, 1 / 4],
    ['5/16', 8, 3 / 8, 1 / 4],
    ['3/8', 9, 3 / 8, 1 / 4],
    ['1/2', 8, 13 / 16, 1 / 4],
    ['1/2', 14, 1 / 2, 1 / 4],
    ['5/8', 7, 7 / 8, 1 / 2],
    ['11/16', 8, 7 / 8, 1 / 2],
    ['3/4', 7, 7 / 8, 1 / 2],
    ['3/4', 14, 7 / 8, 1 / 2],
  ];

/** Straight bits: common practice, no source. Heights from memory. */
const straightInches: readonly (readonly [diameter: string, height: number, shank: number])[] = [
  ['1/4', 3 / 4, 1 / 4],
  ['5/16', 1, 1 / 4],
  ['3/8', 1, 1 / 4],
  ['7/16', 1, 1 / 4],
  ['1/2', 1, 1 / 4],
  ['1/2', 3 / 2, 1 / 2],
  ['5/8', 3 / 2, 1 / 2],
  ['3/4', 3 / 2, 1 / 2],
];

/** Diameter, cutting height and shank in mm: common practice, no source. Heights from memory. */
const straightMetric: readonly (readonly [diameter: number, height: number, shank: number])[] = [
  [6, 20, 6],
  [8, 25, 8],
  [10, 25, 8],
  [12, 32, 8],
  [16, 32, 12],
];

export const commonBits: readonly CommonBit[] = [
  ...dovetailSizes.map(
    ([size, angle, height, shank]): CommonBit => ({
      name: `common dovetail ${size} in ${angle}°`,
      kind: 'dovetail',
      diameter: inches(size),
      angle,
      height: height * INCH,
      shank: shank * INCH,
    }),
  ),
  ...straightInches.map(
    ([size, height, shank]): CommonBit => ({
      name: `common straight ${size} in, ${shank === 1 / 2 ? '1/2' : '1/4'} in shank`,
      kind: 'straight',
      diameter: inches(size),
      angle: 0,
      height: height * INCH,
      shank: shank * INCH,
    }),
  ),
  ...straightMetric.map(
    ([diameter, height, shank]): CommonBit => ({
      name: `common straight ${diameter} mm, ${shank} mm shank`,
      kind: 'straight',
      diameter,
      angle: 0,
      height,
      shank,
    }),
  ),
];

/** Outside diameters: common practice, no source. The bore is 1/16 to 3/32 in less; the tighter one stands here. */
const BORE_LESS = (3 / 32) * INCH;

/** Barrels run from 1/4 to 9/16 in and can be shortened; common practice, no source. */
const BARREL = INCH / 4;

export const commonBushings: readonly CommonBushing[] = [
  ...['5/16', '3/8', '7/16', '1/2', '5/8', '3/4', '1'].map((size) => bushing(`${size} in`, inches(size))),
  ...[10, 12, 14, 16, 17, 20, 24, 27, 30, 40].map((size) => bushing(`${size} mm`, size)),
];

function bushing(size: string, outside: number): CommonBushing {
  return { name: `common bushing ${size}`, outside, bore: outside - BORE_LESS, barrel: BARREL };
}

/** `3/4` or `1` inch in mm. */
function inches(size: string): number {
  const [top = 0, bottom = 1] = size.split('/').map(Number);
  return (top * 254) / (10 * bottom);
}
