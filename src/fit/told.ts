import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { type Factors, type FitSize, type FitTool, playOf, sumOf } from '../joints/fit-model.js';
import { explanationsOf } from './explain.js';
import type { BenchState, JointFit } from './joint-fit.js';
import { type Equation, leastChange, residuals } from './least-change.js';
import { keyOf, type Measured, placeOf } from './measured.js';

/** What the measurements of a trial piece tell of tools, plate and play. */

/** A pair nearer to what is wanted than this is left alone, mm: calipers show no less (common practice, no source). */
export const GOOD_ENOUGH = 0.02;

/** Measurements that miss one another by more than this don't come from the tools alone, mm. */
const DISAGREEMENT = 0.06;

export interface Told {
  /** How much looser than wanted a mating pair is, mm; absent where nothing told, or not enough. */
  readonly looser?: number;
  /** What was measured of tools, plate and settings, less what the job has. */
  readonly known: Factors;
  readonly measuredTools: ReadonlyMap<FitTool, number>;
  /** Errors of what wasn't measured, any of which explains the rest; the least first. Empty where nothing does. */
  readonly explanations: readonly Factors[];
  readonly diagnostics: readonly Diagnostic[];
}

interface Observation {
  readonly factors: Factors;
  /** Measured less wanted. */
  readonly error: number;
  /** Of a feeler: 1 for a pair, 1/2 for a half-pin. */
  readonly felt?: number;
}

export function toldBy(model: JointFit, measured: readonly Measured[], bench: BenchState): Told {
  const measuredTools = new Map<FitTool, number>();
  for (const tool of model.tools) {
    const found = measured.find(({ key }) => key === tool.key);
    if (found) measuredTools.set(tool, found.value);
  }
  const known = knownOf(model, measured, measuredTools, bench);
  const unknown: readonly FitSize[] = [
    ...model.tools.filter((tool) => !measuredTools.has(tool)).map(({ role }) => role),
    ...(known.kerf === undefined ? (['kerf'] as const) : []),
  ];
  const seen = measured.flatMap((one) => {
    const observed = observationOf(model, one);
    return observed ? [{ one, observed }] : [];
  });
  const equations = seen.map(
    ({ observed }): Equation => ({
      coefficients: unknown.map((size) => observed.factors[size] ?? 0),
      value: observed.error - sumOf(observed.factors, known),
    }),
  );
  const felt = seen.filter(({ observed }) => observed.felt !== undefined);
  const looser =
    felt.length > 0
      ? feltLooser(felt.map(({ observed }) => observed))
      : predicted(model, known, unknown, equations, measuredTools.size > 0 || known.kerf !== undefined);
  const undecided = looser === undefined && equations.length > 0;
  const ways = explanationsOf(equations, unknown);
  const missed = ways[0]?.missed ?? [];
  return {
    ...(looser !== undefined && { looser }),
    known,
    measuredTools,
    explanations: looser === undefined ? [] : scaled(model, known, unknown, equations, looser),
    diagnostics: [
      ...settingsSaid(model, measured, bench),
      ...(undecided
        ? [diagnostic('refit-undecided', 'caution', `joints.${model.joint}`, wanted(model, measured))]
        : []),
      ...seen.flatMap(({ one }, index) => {
        const miss = missed[index] ?? 0;
        if (Math.abs(miss) <= DISAGREEMENT) return [];
        return [
          diagnostic('refit-disagree', 'caution', placeOf(model.joint, one), { key: keyOf(one), miss }),
        ];
      }),
    ],
  };
}

/** Settings that were read from the log rather than measured. */
function settingsSaid(
  { move, joint }: JointFit,
  measured: readonly Measured[],
  { settings = {} }: BenchState,
): readonly Diagnostic[] {
  const { fence } = settings;
  const measuredDepth = measured.some(({ key }) => key === 'depth');
  const depth =
    measuredDepth || settings.depth === undefined ? undefined : (move?.depth ?? 0) + settings.depth;
  if (depth === undefined && fence === undefined) return [];
  const data = { ...(depth !== undefined && { depth }), ...(fence !== undefined && { fence }) };
  return [diagnostic('refit-settings', 'ok', `joints.${joint}`, data)];
}

/** Widths that were not measured, of which one more would tell. */
function wanted(model: JointFit, measured: readonly Measured[]) {
  const seen = measured.map(({ key }) => key).filter((key) => key in model.widths);
  return { seen, more: Object.keys(model.widths).filter((key) => !seen.includes(key)) };
}

/** Everything that was measured itself, or is known from earlier advice. */
function knownOf(
  model: JointFit,
  measured: readonly Measured[],
  tools: ReadonlyMap<FitTool, number>,
  { settings = {}, kerf: allowed = 0 }: BenchState,
): Factors {
  const wordOf = (key: string) => measured.find((one) => one.key === key);
  const scale = wordOf('scale');
  const share = scale ? scale.value - 1 : 0;
  const kerf = wordOf('kerf');
  const openings = measured
    .filter(({ key }) => key === 'opening')
    .map((one) => {
      const nominal = model.openings?.nominals[(one.number ?? 1) - 1] ?? one.value;
      return one.value - nominal * (1 + share);
    });
  const thickness = checkOf(model, measured, 'thickness');
  return {
    ...Object.fromEntries([...tools].map(([tool, value]) => [tool.role, value - tool.size])),
    ...(settings.depth !== undefined && { depth: settings.depth }),
    ...(settings.fence !== undefined && { fence: settings.fence }),
    ...depthByFace(model, measured, thickness.thickness),
    ...thickness,
    ...checkOf(model, measured, 'depth'),
    ...checkOf(model, measured, 'angle'),
    ...(scale && { scale: share }),
    ...(kerf && { kerf: kerf.value - allowed }),
    ...(openings.length > 0 && { kerf: openings.reduce((sum, one) => sum + one, 0) / openings.length }),
  };
}

function checkOf(
  model: JointFit,
  measured: readonly Measured[],
  role: 'depth' | 'thickness' | 'angle',
): Factors {
  const check = model.checks?.find((one) => one.role === role);
  const found = measured.find(({ key }) => key === role);
  return check && found ? { [role]: found.value - check.size } : {};
}

/** The ends of a board that is cut right through stand out by what its cut is deeper than the other board is thick. */
function depthByFace(model: JointFit, measured: readonly Measured[], thicker = 0): Factors {
  const [first] = model.boards;
  const face = model.faces[first];
  if (face?.by !== 'depth' || !model.checks?.some(({ role }) => role === 'depth')) return {};
  const proud = measured.find(({ key }) => key === `proud-${first}`)?.value;
  const shy = measured.find(({ key }) => key === `shy-${first}`)?.value;
  const out = proud ?? (shy === undefined ? undefined : -shy);
  return out === undefined ? {} : { depth: out - face.wanted + thicker };
}

function observationOf(model: JointFit, { key, number, value }: Measured): Observation | undefined {
  const { pair, endPair, slack } = model;
  if (key === 'gap') return { factors: pair.factors, error: value - slack, felt: 1 };
  if (key === 'overlap') return { factors: pair.factors, error: -value - slack, felt: 1 };
  if (key === 'end-gap' && endPair) return { factors: endPair, error: value - slack / 2, felt: 1 / 2 };
  if (key === 'end-overlap' && endPair) return { factors: endPair, error: -value - slack / 2, felt: 1 / 2 };
  const width = model.widths[key];
  if (!width) return undefined;
  const nominal = width.nominals[(number ?? 1) - 1] ?? value;
  const share = width.shares?.[(number ?? 1) - 1] ?? 1;
  const factors = Object.fromEntries(
    (Object.keys(width.factors) as FitSize[]).map((size) => [size, share * (width.factors[size] ?? 0)]),
  );
  return { factors: { ...factors, scale: nominal + share * width.drawnWider }, error: value - nominal };
}

/** What a feeler found counts before what the tools let expect; a half-pin has half of a pin's share in it. */
function feltLooser(felt: readonly Observation[]): number {
  const share = ({ felt: one = 0 }: Observation) => one;
  const top = felt.reduce((sum, one) => sum + share(one) * one.error, 0);
  return top / felt.reduce((sum, one) => sum + share(one) ** 2, 0);
}

/**
 * The play that widths let expect: the sum of equations that makes up a pair, whatever is off; undefined where none does,
 * since the same socket then goes with more than one play.
 */
function predicted(
  model: JointFit,
  known: Factors,
  unknown: readonly FitSize[],
  equations: readonly Equation[],
  toolsMeasured: boolean,
): number | undefined {
  const expected = playOf(model, known) - model.slack;
  if (equations.length === 0) return toolsMeasured ? expected : undefined;
  const columns = unknown.map(
    (size, index): Equation => ({
      coefficients: equations.map(({ coefficients }) => coefficients[index] ?? 0),
      value: model.pair.factors[size] ?? 0,
    }),
  );
  const weights = leastChange(columns, equations.length);
  if (residuals(columns, weights).some((miss) => Math.abs(miss) > 1e-3)) return undefined;
  return equations.reduce((sum, { value }, index) => sum + value * (weights[index] ?? 0), expected);
}

/** Explanations of a pair that is out, each brought to just that play. */
function scaled(
  model: JointFit,
  known: Factors,
  unknown: readonly FitSize[],
  equations: readonly Equation[],
  looser: number,
): readonly Factors[] {
  // A bit of another angle stays as it is, so the sizes make up for it; depth and fence go back to what the sheet says.
  const { angle, thickness, ...mended } = known;
  const leans = Math.abs(playOf(model, known) - playOf(model, mended)) > 1e-6;
  const rest = looser - (playOf(model, mended) - model.slack);
  if (Math.abs(rest) <= GOOD_ENOUGH) return [{}];
  const pair: Equation = {
    coefficients: unknown.map((size) => model.pair.factors[size] ?? 0),
    value: rest,
  };
  return explanationsOf([...(leans ? [] : equations), pair], unknown).flatMap(({ errors }) => {
    const play = sumOf(model.pair.factors, errors);
    const share = play === 0 ? 0 : rest / play;
    if (share < 1 / 2 || share > 2) return [];
    return [
      Object.fromEntries(
        (Object.keys(errors) as FitSize[]).map((size) => [size, (errors[size] ?? 0) * share]),
      ),
    ];
  });
}
