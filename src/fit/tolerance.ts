import { generalTolerance } from '../../shared/general-tolerances.js';
import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { SolvedJoint } from '../joints/family.js';
import { type Factors, type FitModel, type FitSize, factorOf, playOf } from '../joints/fit-model.js';
import { deviationOf, meanOf, normalShare, quasiRandom, uniformVariance } from './distribution.js';
import { fitOf } from './joint-fit.js';

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

/** What can be off by itself; how the fence is set is corrected on the trial piece. */
export type ErrorSource = Exclude<FitSize, 'fence' | 'scale'>;

/** One error and its part in how the play spreads. */
export interface ErrorShare {
  readonly source: ErrorSource;
  /** ± mm or radians; anywhere within alike. */
  readonly halfWidth: number;
  readonly from: 'given' | 'iso-2768-1';
  /** mm of play for each mm or radian: the derivative of the model's play. */
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
  /** The bushing is wider than an opening: nothing can be cut. */
  readonly uncut: number;
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
  /** The run's play where a pair is tightest, mm, in order of size; of joints that can be cut. */
  readonly play: readonly number[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Boards that want the same room have to be forced: play below this is too tight, mm. Common practice, no source. */
export const TIGHT = 0;

/** A play of this much shows as a line of glue at every pin, mm. Common practice, no source. */
export const LOOSE = 0.2;

const DEFAULT_COUNT = 4096;
const DEFAULT_SEED = 1;

/**
 * How the play of a mating pair spreads when sizes are off by no more than their tolerances, each anywhere
 * within alike and independent of the others. One bushing and one kerf serve both boards, so their errors count
 * in both. Bits, bushing, thickness and depth that are not given are taken from ISO 2768-1, class f for the
 * machined tools and m for wood and settings; kerf and angle have no such default: they are asked for and count
 * as exact until then.
 */
export function toleranceStudy(
  solved: SolvedJoint,
  tolerances: Tolerances,
  options: ToleranceOptions = {},
): Result<ToleranceStudy> {
  const at = `joints.${solved.name}`;
  const fit = fitOf(solved);
  if (!fit.ok) return fit;
  const model = fit.value;
  const limits = { tight: options.tight ?? TIGHT, loose: options.loose ?? LOOSE };
  if (limits.tight >= limits.loose) return err([diagnostic('tolerance-limits', 'refused', at, limits)]);
  const { errors, diagnostics } = errorsOf(solved, model, tolerances, at);
  const deviation = Math.sqrt(
    errors.reduce((sum, { partial, halfWidth }) => sum + uniformVariance(partial * halfWidth), 0),
  );
  const count = options.count ?? DEFAULT_COUNT;
  const play = sample(model, errors, count, options.seed ?? DEFAULT_SEED);
  const shares = errors.map((one) => ({
    ...one,
    share: deviation === 0 ? 0 : uniformVariance(one.partial * one.halfWidth) / deviation ** 2,
  }));
  const study: ToleranceStudy = {
    joint: model.joint,
    slack: model.slack,
    limits,
    errors: shares.toSorted((one, other) => other.share - one.share),
    linear: linearSpread(model, errors, limits),
    sampled: sampledSpread(play, count, limits),
    play,
    diagnostics: [],
  };
  return ok({ ...study, diagnostics: [...diagnostics, ...summary(study, at)] });
}

type SizeError = Omit<ErrorShare, 'share'>;

function errorsOf(
  solved: SolvedJoint,
  model: FitModel,
  tolerances: Tolerances,
  at: string,
): { readonly errors: readonly SizeError[]; readonly diagnostics: readonly Diagnostic[] } {
  const sources = (Object.keys(model.pair.factors) as FitSize[]).filter(
    (size): size is ErrorSource => size !== 'fence' && size !== 'scale',
  );
  const asked = (['kerf', 'angle'] as const).filter(
    (key) => tolerances[key] === undefined && sources.includes(key),
  );
  const errors = sources.flatMap((source): readonly SizeError[] => {
    const partial = factorOf(model.pair, source);
    const halfWidth = tolerances[toleranceKey(source)];
    if (halfWidth !== undefined) return [{ source, halfWidth, from: 'given', partial }];
    const tool = model.tools.find(({ role }) => role === source);
    const size = tool?.size ?? sizeOf(solved, source);
    const general = size === undefined ? undefined : generalTolerance(size, tool ? 'f' : 'm');
    return general === undefined ? [] : [{ source, halfWidth: general, from: 'iso-2768-1', partial }];
  });
  const assumed = errors.filter(({ from }) => from === 'iso-2768-1').map(({ source }) => source);
  return {
    errors,
    diagnostics: [
      ...(asked.length > 0 ? [diagnostic('tolerance-asked', 'caution', at, { keys: asked })] : []),
      ...(assumed.length > 0 ? [diagnostic('tolerance-assumed', 'ok', at, { sources: assumed })] : []),
    ],
  };
}

/** The size of a board or of a setting, mm; those without a default tolerance have none. */
function sizeOf({ markings, cuts }: SolvedJoint, source: ErrorSource): number | undefined {
  if (source === 'thickness') return Math.max(...markings.map(({ material }) => material.thickness));
  return source === 'depth' ? cuts[0]?.depth : undefined;
}

function toleranceKey(source: ErrorSource): keyof Tolerances {
  return source === 'dovetail' || source === 'straight' || source === 'second' ? 'bit' : source;
}

function sample(
  model: FitModel,
  errors: readonly SizeError[],
  count: number,
  seed: number,
): readonly number[] {
  return quasiRandom(count, errors.length, seed)
    .map((point) =>
      Object.fromEntries(
        errors.map(({ source, halfWidth }, index) => [source, (2 * (point[index] ?? 0) - 1) * halfWidth]),
      ),
    )
    .filter((off) => enters(model, off))
    .map((off) => playOf(model, off))
    .sort((one, other) => one - other);
}

/** Whether the bushing goes into the narrowest opening. */
function enters({ room }: FitModel, { kerf = 0, bushing = 0 }: Factors): boolean {
  return room === undefined || room + kerf - bushing >= -EXACT;
}

/** An opening as wide as its bushing takes it, whatever the last decimal says, mm. */
const EXACT = 1e-9;

type Limits = ToleranceStudy['limits'];

/** A taper takes from the play whichever way the bit's angle is off; so many angles stand for all of them. */
const ANGLES = 64;

/**
 * Variances add, and the sum is taken as normal. What a taper takes is no sum: the shares are the mean over the angles,
 * the deviation that of the normal part and of the taper together. Whether the bushing goes in is left to the run.
 */
function linearSpread(model: FitModel, errors: readonly SizeError[], { tight, loose }: Limits): Spread {
  const tapers = model.pair.taper !== undefined;
  const variance = errors
    .filter(({ source }) => !(tapers && source === 'angle'))
    .reduce((sum, { partial, halfWidth }) => sum + uniformVariance(partial * halfWidth), 0);
  const angle = tapers ? (errors.find(({ source }) => source === 'angle')?.halfWidth ?? 0) : 0;
  const means = Array.from({ length: angle > 0 ? ANGLES : 1 }, (_, i) =>
    playOf(model, { angle: angle * ((2 * i + 1) / ANGLES - 1) * Number(angle > 0) }),
  );
  const below = (limit: number) =>
    meanOf(
      means.map((mean) =>
        variance === 0 ? Number(mean < limit) : normalShare((limit - mean) / Math.sqrt(variance)),
      ),
    );
  const over = 1 - below(loose);
  return {
    mean: meanOf(means),
    deviation: Math.sqrt(variance + deviationOf(means) ** 2),
    tight: below(tight),
    good: 1 - below(tight) - over,
    loose: over,
    uncut: 0,
  };
}

function sampledSpread(
  play: readonly number[],
  count: number,
  { tight, loose }: Limits,
): ToleranceStudy['sampled'] {
  const tooTight = play.filter((one) => one < tight).length / count;
  const tooLoose = play.filter((one) => one > loose).length / count;
  const uncut = 1 - play.length / count;
  return {
    mean: play.length > 0 ? meanOf(play) : 0,
    deviation: play.length > 0 ? deviationOf(play) : 0,
    tight: tooTight,
    good: 1 - tooTight - tooLoose - uncut,
    loose: tooLoose,
    uncut,
    least: play[0] ?? 0,
    most: play.at(-1) ?? 0,
  };
}

function summary(study: ToleranceStudy, at: string): readonly Diagnostic[] {
  const { sampled, limits, errors } = study;
  const [worst] = errors;
  const idle = errors.filter(({ partial }) => Math.abs(partial) < 1e-6).map(({ source }) => source);
  return [
    diagnostic('tolerance-shares', 'ok', at, { ...sampled, under: limits.tight, over: limits.loose }),
    ...(worst && worst.share > 0
      ? [diagnostic('tolerance-worst', 'ok', at, { source: worst.source, share: worst.share })]
      : []),
    ...(idle.length > 0 ? [diagnostic('tolerance-idle', 'ok', at, { sources: idle })] : []),
  ];
}
