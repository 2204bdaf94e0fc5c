import { generalTolerance } from '../../shared/general-tolerances.js';
import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import type { Joint } from '../job/types.js';
import type { SolvedJoint } from '../joints/family.js';
import { deviationOf, meanOf, normalShare, quasiRandom, uniformVariance } from './distribution.js';
import { type PlayModel, pairKinds, playByCutting, playModelOf, playOf, type Source } from './play.js';

/** How far sizes may be off, ± mm and radians: `bit` holds for each bit. What is left out is assumed or asked. */
export interface Tolerances {
  readonly bit?: number;
  readonly bushing?: number;
  /** Of an opening in the plate, both walls together. */
  readonly kerf?: number;
  readonly thickness?: number;
  readonly depth?: number;
  readonly angle?: number;
}

export interface ToleranceOptions {
  /** Points of the quasi-random run. */
  readonly count?: number;
  readonly seed?: number;
  /** Play under `tight` is too tight, over `loose` too loose, mm. */
  readonly tight?: number;
  readonly loose?: number;
}

/** One error and its part in how the play spreads. */
export interface ErrorShare {
  readonly source: Source;
  /** ± mm or radians; anywhere within alike. */
  readonly halfWidth: number;
  readonly from: 'given' | 'iso-2768-1';
  /** mm of play for each mm or radian, found by differencing the cut. */
  readonly partial: number;
  /** Part of the variance, 0 to 1. */
  readonly share: number;
}

export interface Spread {
  readonly mean: number;
  /** Standard deviation. */
  readonly deviation: number;
  /** Shares of all joints, together 1. */
  readonly tight: number;
  readonly good: number;
  readonly loose: number;
}

export interface ToleranceStudy {
  readonly joint: string;
  readonly slack: number;
  readonly limits: { readonly tight: number; readonly loose: number };
  /** Most telling first. */
  readonly errors: readonly ErrorShare[];
  /** By linear theory: variances add, and the sum is taken as normal. */
  readonly linear: Spread;
  /** By the quasi-random run through the exact formula. */
  readonly sampled: Spread & { readonly least: number; readonly most: number };
  /** The run's play, mm, in order of size. */
  readonly play: readonly number[];
  readonly findings: readonly Finding[];
}

/** Boards that want the same room have to be forced: play below this is too tight, mm. Common practice, no source. */
export const TIGHT = 0;

/** A play of this much shows as a line of glue at every pin, mm. Common practice, no source. */
export const LOOSE = 0.2;

const USUAL_COUNT = 4096;
const USUAL_SEED = 1;

/** Steps of the differences: far over the kernel's 1e-6 mm, far under what a joint's formula bends within. */
const STEP = 0.01;
const ANGLE_STEP = 0.002;

/**
 * How the play of a mating pair spreads when sizes are off by no more than their tolerances, each anywhere
 * within alike and independent of the others. One bushing and one kerf serve both boards, so their errors count
 * in both. Bits, bushing, thickness and depth that are not given are taken from ISO 2768-1, class f for the
 * machined tools and m for wood and settings; kerf and angle have no such default: they are asked for and count
 * as exact until then.
 */
export function toleranceStudy(
  joint: Joint,
  solved: SolvedJoint,
  tolerances: Tolerances,
  options: ToleranceOptions = {},
): Result<ToleranceStudy> {
  const at = `joints.${joint.name}`;
  const model = playModelOf(solved, joint.slack);
  if (!model) {
    return refused([finding('tolerance-kind', 'refused', at, { kind: solved.kind, known: pairKinds })]);
  }
  const limits = { tight: options.tight ?? TIGHT, loose: options.loose ?? LOOSE };
  if (limits.tight >= limits.loose) return refused([finding('tolerance-limits', 'refused', at, limits)]);
  const { errors, findings } = errorsOf(solved, model, tolerances, at);
  const deviation = Math.sqrt(
    errors.reduce((sum, { partial, halfWidth }) => sum + uniformVariance(partial * halfWidth), 0),
  );
  const play = sample(model, errors, options.count ?? USUAL_COUNT, options.seed ?? USUAL_SEED);
  const shares = errors.map((one) => ({
    ...one,
    share: deviation === 0 ? 0 : uniformVariance(one.partial * one.halfWidth) / deviation ** 2,
  }));
  const study: ToleranceStudy = {
    joint: joint.name,
    slack: joint.slack,
    limits,
    errors: shares.toSorted((one, other) => other.share - one.share),
    linear: linearSpread(joint.slack, deviation, limits),
    sampled: sampledSpread(play, limits),
    play,
    findings: [],
  };
  return given({ ...study, findings: [...findings, ...summary(study, at)] });
}

type SizeError = Omit<ErrorShare, 'share'>;

function errorsOf(
  solved: SolvedJoint,
  model: PlayModel,
  tolerances: Tolerances,
  at: string,
): { readonly errors: readonly SizeError[]; readonly findings: readonly Finding[] } {
  const asked = (['kerf', 'angle'] as const).filter(
    (key) => tolerances[key] === undefined && (key === 'kerf' || model.angle > 0),
  );
  const wanted = [...sizesOf(solved, model)].flatMap(
    ([source, size]): readonly Omit<SizeError, 'partial'>[] => {
      const halfWidth = tolerances[keyOf(source)];
      if (halfWidth !== undefined) return [{ source, halfWidth, from: 'given' }];
      const tool = source === 'dovetail' || source === 'straight' || source === 'bushing';
      const general = size === undefined ? undefined : generalTolerance(size, tool ? 'f' : 'm');
      return general === undefined ? [] : [{ source, halfWidth: general, from: 'iso-2768-1' }];
    },
  );
  const assumed = wanted.filter(({ from }) => from === 'iso-2768-1').map(({ source }) => source);
  return {
    errors: wanted.map((one) => ({ ...one, partial: partialOf(solved, one.source) })),
    findings: [
      ...(asked.length > 0 ? [finding('tolerance-asked', 'caution', at, { keys: asked })] : []),
      ...(assumed.length > 0 ? [finding('tolerance-assumed', 'ok', at, { sources: assumed })] : []),
    ],
  };
}

/** The sizes that can be off, mm; those without a default have none. */
function sizesOf(solved: SolvedJoint, model: PlayModel): ReadonlyMap<Source, number | undefined> {
  const sizes = new Map<Source, number | undefined>();
  for (const { bit, bushing } of solved.cuts) {
    sizes.set(bit.kind, bit.diameter);
    sizes.set('bushing', bushing.outside);
  }
  sizes.set('kerf', undefined);
  sizes.set('thickness', Math.max(...solved.markings.map(({ material }) => material.thickness)));
  sizes.set('depth', model.depth);
  if (model.angle > 0) sizes.set('angle', undefined);
  return sizes;
}

function keyOf(source: Source): keyof Tolerances {
  return source === 'dovetail' || source === 'straight' ? 'bit' : source;
}

/** ∂play by differencing the cut itself, from both sides where the bushing allows it. */
function partialOf(solved: SolvedJoint, source: Source): number {
  const step = source === 'angle' ? ANGLE_STEP : STEP;
  const here = playByCutting(solved, {});
  const more = playByCutting(solved, { [source]: step });
  const less = playByCutting(solved, { [source]: -step });
  if (more !== undefined && less !== undefined) return (more - less) / (2 * step);
  if (here !== undefined && less !== undefined) return (here - less) / step;
  if (here !== undefined && more !== undefined) return (more - here) / step;
  throw new Error(`the ${solved.kind} ${solved.name} has no pair to look at`);
}

function sample(
  model: PlayModel,
  errors: readonly SizeError[],
  count: number,
  seed: number,
): readonly number[] {
  return quasiRandom(count, errors.length, seed)
    .map((point) =>
      playOf(
        model,
        Object.fromEntries(
          errors.map(({ source, halfWidth }, index) => [source, (2 * (point[index] ?? 0) - 1) * halfWidth]),
        ),
      ),
    )
    .sort((one, other) => one - other);
}

type Limits = ToleranceStudy['limits'];

function linearSpread(mean: number, deviation: number, { tight, loose }: Limits): Spread {
  const below = (limit: number) =>
    deviation === 0 ? Number(mean < limit) : normalShare((limit - mean) / deviation);
  const over = 1 - below(loose);
  return { mean, deviation, tight: below(tight), good: 1 - below(tight) - over, loose: over };
}

function sampledSpread(play: readonly number[], { tight, loose }: Limits): ToleranceStudy['sampled'] {
  const tooTight = play.filter((one) => one < tight).length / play.length;
  const tooLoose = play.filter((one) => one > loose).length / play.length;
  return {
    mean: meanOf(play),
    deviation: deviationOf(play),
    tight: tooTight,
    good: 1 - tooTight - tooLoose,
    loose: tooLoose,
    least: play[0] ?? 0,
    most: play.at(-1) ?? 0,
  };
}

function summary(study: ToleranceStudy, at: string): readonly Finding[] {
  const { sampled, limits, errors } = study;
  const [worst] = errors;
  const idle = errors.filter(({ partial }) => Math.abs(partial) < 1e-6).map(({ source }) => source);
  return [
    finding('tolerance-shares', 'ok', at, { ...sampled, under: limits.tight, over: limits.loose }),
    ...(worst && worst.share > 0
      ? [finding('tolerance-worst', 'ok', at, { source: worst.source, share: worst.share })]
      : []),
    ...(idle.length > 0 ? [finding('tolerance-idle', 'ok', at, { sources: idle })] : []),
  ];
}
