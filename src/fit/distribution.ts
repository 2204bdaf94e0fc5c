import { seededUniform } from '../layout/random.js';

/** How a sum of small errors spreads: by a quasi-random run and by linear theory. */

/** The first seven primes: one base for each direction. */
const bases = [2, 3, 5, 7, 11, 13, 17] as const;

/** As many directions as the run has points for. */
export const MAX_DIMENSIONS: number = bases.length;

/**
 * `count` points of the unit cube that fill it more evenly than chance: the sequence of Halton (Numerische
 * Mathematik 2, 1960), turned round in each direction by a seeded amount (Cranley and Patterson, 1976). The same
 * seed gives the same points. Refuses more directions than `MOST_DIMENSIONS` as a mistake of the caller's.
 */
export function quasiRandom(count: number, dimensions: number, seed: number): readonly (readonly number[])[] {
  if (dimensions > MAX_DIMENSIONS) throw new Error(`no more than ${MAX_DIMENSIONS} directions`);
  const turns = seededUniform(seed, dimensions);
  return Array.from({ length: count }, (_, index) =>
    turns.map((turn, direction) => (radicalInverse(index + 1, bases[direction] ?? 2) + turn) % 1),
  );
}

/** The digits of a whole number in a base, mirrored at the point: 6 in base 2 is 110, so 0.011 = 3/8. */
export function radicalInverse(index: number, base: number): number {
  let [rest, scale, sum] = [index, 1 / base, 0];
  while (rest > 0) {
    sum += (rest % base) * scale;
    rest = Math.floor(rest / base);
    scale /= base;
  }
  return sum;
}

/**
 * Variance of an error that lies anywhere within ±a alike: a²/3 (JCGM 100:2008, GUM, 4.3.7, rectangular
 * distribution).
 */
export function uniformVariance(halfWidth: number): number {
  return (halfWidth * halfWidth) / 3;
}

/** Share of a normal distribution below z standard deviations; within 7.5e-8 (Abramowitz and Stegun, 26.2.17). */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * poly;
  return z >= 0 ? 1 - tail : tail;
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Standard deviation of values that are the whole of what is looked at. */
export function deviationOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)));
}
