import type { LayoutRequest } from '../../input/types.js';
import { seededUniform } from '../random.js';
import { GRADUATED_GROWTH, VARIED_SEED, VARIED_SPREAD } from '../rules.js';

/**
 * Shares `room` (mm) out among `count` widths that sum to it. The irregular share keeps every width at
 * `least` or more where an even one would; the others follow their rule and leave judgement to the bounds.
 */
export type Share = (room: number, count: number, least: number) => readonly number[];

/** How a spacing shares out the room of the tails (or fingers) and that of the inner pins. */
export interface Sharing {
  readonly tails: Share;
  readonly pins: Share;
}

/** The sharing that a request's spacing asks for; mirrored here means growing from both edges to the middle. */
export function sharingOf(request: LayoutRequest): Sharing {
  switch (request.spacing) {
    case 'graduated':
      return { tails: graduated(request.ratio), pins: even };
    case 'mirrored':
      return { tails: mirrored(request.ratio), pins: even };
    case 'varied': {
      const seed = request.seed ?? VARIED_SEED;
      const spread = request.spread ?? VARIED_SPREAD;
      return { tails: varied(seed, spread), pins: varied(seed + 1, spread) };
    }
    default:
      return { tails: even, pins: even };
  }
}

/** All alike. */
export const even: Share = (room, count) => byWeight(room, Array(count).fill(1));

/** Each width is `ratio` times the one before it, away from the reference edge. */
export function graduated(ratio?: number): Share {
  return (room, count) => {
    const step = ratio ?? defaultRatio(count);
    return byWeight(room, powers(step, count));
  };
}

/** Each width is `ratio` times its outer neighbour, from both edges to the middle. */
export function mirrored(ratio?: number): Share {
  return (room, count) => {
    const half = Math.ceil(count / 2);
    const rising = powers(ratio ?? defaultRatio(half), half);
    return byWeight(room, [...rising, ...rising.slice(0, Math.floor(count / 2)).reverse()]);
  };
}

/**
 * Irregular, as by hand: every width within `spread` (a share of the even width) of even and at `least` or
 * more. The same seed gives the same widths.
 */
export function varied(seed: number, spread: number): Share {
  return (room, count, least) => {
    const mean = room / count;
    const strays = centred(seededUniform(seed, count));
    const lowest = Math.max(0, ...strays.map((stray) => -stray));
    const slack = Math.max(0, 1 - least / mean);
    const scale = lowest * spread > slack ? slack / lowest : spread;
    return byWeight(
      room,
      strays.map((stray) => 1 + scale * stray),
    );
  };
}

/** The ratio by which the last of `count` is twice the first. */
export function defaultRatio(count: number): number {
  return count > 1 ? GRADUATED_GROWTH ** (1 / (count - 1)) : 1;
}

function byWeight(room: number, weights: readonly number[]): readonly number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => (room * weight) / sum);
}

/** 1 is the greatest, so that a long row can't overflow. */
function powers(ratio: number, count: number): readonly number[] {
  const greatest = ratio > 1 ? count - 1 : 0;
  return Array.from({ length: count }, (_, i) => ratio ** (i - greatest));
}

/** Numbers from 0 to 1 moved to sum to 0 and, where needed, drawn in to lie within −1 and 1. */
function centred(numbers: readonly number[]): readonly number[] {
  const mean = numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
  const strays = numbers.map((one) => 2 * (one - mean));
  const farthest = Math.max(1, ...strays.map(Math.abs));
  return strays.map((stray) => stray / farthest);
}
