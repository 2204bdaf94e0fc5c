import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { SolvedJoint } from '../joints/family.js';
import { type Factors, type FitMove, type FitTool, factorOf, sumOf } from '../joints/fit-model.js';
import type { LengthUnit } from '../units/length.js';
import { fitOf, type JointFit } from './joint-fit.js';
import { type Equation, leastChange, residuals } from './least-change.js';
import { type Measured, readMeasured } from './measured.js';

/** One thing to change, mm. Depth: above 0 is deeper. Shift: above 0 sets the fence back. */
export type RefitStep =
  | { readonly do: 'depth'; readonly by: number; readonly from: number; readonly to: number }
  | { readonly do: 'shift'; readonly by: number }
  | { readonly do: 'board-depth'; readonly board: string; readonly by: number }
  | { readonly do: 'template'; readonly by: number; readonly alone: boolean }
  | { readonly do: 'shim'; readonly board: string; readonly by: number }
  | { readonly do: 'size'; readonly size: NewSize };

/** A tool's size for the shop file. It takes effect with the next plate. */
export interface NewSize {
  readonly tool: string;
  /** Path below the shop, e.g. `bits`, `half-8`, `diameter`. */
  readonly path: readonly [string, string, string];
  readonly from: number;
  readonly to: number;
  /** false for a size worked out from the trial piece: what the tool cuts like, whatever a caliper says. */
  readonly measured: boolean;
}

/** What to do after a trial piece. */
export interface Advice {
  readonly joint: string;
  readonly measured: readonly Measured[];
  /** How much looser than wanted a mating pair is, mm; below 0 it is too tight; absent where nothing told. */
  readonly looser?: number;
  /** In the order in which they are to be done: settings first, a new plate last. */
  readonly steps: readonly RefitStep[];
  /** A sentence for each step, and what is to be minded. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A pair nearer to what is wanted than this is left alone, mm: calipers show no less (common practice, no source). */
export const GOOD_ENOUGH = 0.02;

/** Measurements that miss one another by more than this don't come from the tools alone, mm. */
const DISAGREEMENT = 0.06;

/** A size that differs by less is the same size, mm. */
const SAME_SIZE = 0.005;

/** Ends that stand proud by no more than this are sanded flush, mm. Common practice, no source. */
const SANDED_FLUSH = 0.5;

/**
 * What the measurements of a trial piece say to change. The fit is set right first: by depth in a half-blind
 * joint (deeper is tighter, 2k a unit), by moving the fence under the pin template of a through joint (2k a
 * unit for a pin, k for a half-pin), as long as the board and the plate have room for it; where they have not,
 * or no setting changes the fit, by sizes for the shop file and a new plate. Among sizes that explain what was
 * measured those are taken that change least. Then faces, then the sideways stop.
 */
export function refit(solved: SolvedJoint, words: readonly string[], units: LengthUnit): Result<Advice> {
  const model = fitOf(solved);
  if (!model.ok) return model;
  const read = readMeasured(words, model.value, units);
  return read.ok ? ok(adviceOf(model.value, read.value)) : err(read.diagnostics);
}

interface Part {
  readonly steps: readonly RefitStep[];
  readonly diagnostics: readonly Diagnostic[];
}

const NOTHING: Part = { steps: [], diagnostics: [] };

/** What measurements of a joint whose model is known say to change. */
export function adviceOf(model: JointFit, measured: readonly Measured[]): Advice {
  const told = errorsOf(model, measured);
  const looser = looserOf(model, measured, told);
  const { settings, sizes } = fitParts(model, told, looser);
  const parts = [
    settings,
    ...measured.map((one) => facePart(model, one)),
    ...measured.map((one) => stopPart(model, one)),
    sizes,
  ];
  return {
    joint: model.joint,
    measured,
    ...(looser === undefined ? {} : { looser }),
    steps: parts.flatMap(({ steps }) => steps),
    diagnostics: [...told.diagnostics, ...parts.flatMap(({ diagnostics }) => diagnostics)],
  };
}

// What the measurements tell of the tools

interface Told {
  /** How much larger each tool is, or cuts like, than the job has it. */
  readonly errors: Factors;
  readonly measuredTools: ReadonlyMap<FitTool, number>;
  /** false when no width and no gap was measured. */
  readonly fitSeen: boolean;
  readonly diagnostics: readonly Diagnostic[];
}

function errorsOf(model: JointFit, measured: readonly Measured[]): Told {
  const measuredTools = new Map<FitTool, number>();
  for (const tool of model.tools) {
    const found = measured.find(({ key }) => key === tool.key);
    if (found) measuredTools.set(tool, found.value);
  }
  const unknown = model.tools.filter((tool) => !measuredTools.has(tool));
  const seen = measured.flatMap((one) => {
    const observed = observationOf(model, one);
    return observed ? [{ one, observed }] : [];
  });
  const known: Factors = Object.fromEntries(
    [...measuredTools].map(([tool, value]) => [tool.role, value - tool.size]),
  );
  const equations = seen.map(
    ({ observed }): Equation => ({
      coefficients: unknown.map(({ role }) => observed.factors[role] ?? 0),
      value: observed.error - sumOf(observed.factors, known),
    }),
  );
  const found = leastChange(equations, unknown.length);
  const errors = { ...known, ...Object.fromEntries(unknown.map(({ role }, i) => [role, found[i] ?? 0])) };
  const missed = residuals(equations, found);
  return {
    errors,
    measuredTools,
    fitSeen: seen.length > 0,
    diagnostics: seen.flatMap(({ one }, index) => {
      const miss = missed[index] ?? 0;
      if (Math.abs(miss) <= DISAGREEMENT) return [];
      return [
        diagnostic('refit-disagree', 'caution', sizePlace(model, one), { key: measuredKey(one), miss }),
      ];
    }),
  };
}

interface Observation {
  readonly factors: Factors;
  /** Measured less wanted. */
  readonly error: number;
}

function observationOf(model: JointFit, { key, number, value }: Measured): Observation | undefined {
  const { pair, endPair, slack } = model;
  if (key === 'gap') return { factors: pair.factors, error: value - slack };
  if (key === 'overlap') return { factors: pair.factors, error: -value - slack };
  if (key === 'end-gap' && endPair) return { factors: endPair, error: value - slack / 2 };
  if (key === 'end-overlap' && endPair) return { factors: endPair, error: -value - slack / 2 };
  const width = model.widths[key];
  return width && { factors: width.factors, error: value - (width.nominals[(number ?? 1) - 1] ?? value) };
}

/** What a feeler found counts before what the tools let expect; a half-pin has half of a pin's share in it. */
function looserOf(model: JointFit, measured: readonly Measured[], told: Told): number | undefined {
  const felt = measured.flatMap((one) => {
    const observed = one.key in model.widths ? undefined : observationOf(model, one);
    return observed
      ? [{ share: observed.factors === model.pair.factors ? 1 : 1 / 2, error: observed.error }]
      : [];
  });
  if (felt.length > 0) {
    const top = felt.reduce((sum, { share, error }) => sum + share * error, 0);
    return top / felt.reduce((sum, { share }) => sum + share * share, 0);
  }
  if (!told.fitSeen && told.measuredTools.size === 0) return undefined;
  return sumOf(model.pair.factors, told.errors);
}

// The fit

/** What sets the fit on the plate that there is, and sizes for another: those measured, and what else it takes. */
function fitParts(
  model: JointFit,
  told: Told,
  looser: number | undefined,
): { readonly settings: Part; readonly sizes: Part } {
  if (looser === undefined) return { settings: NOTHING, sizes: NOTHING };
  const at = `joints.${model.joint}`;
  const measured = sizesOf(model, told, true);
  const data = { looser, slack: model.slack };
  const says = (...more: readonly Diagnostic[]): Part => ({ steps: [], diagnostics: more });
  if (Math.abs(looser) <= GOOD_ENOUGH) {
    return { settings: says(diagnostic('refit-fits', 'ok', at, data)), sizes: sizePart(model, measured) };
  }
  const looks = diagnostic('refit-looser', 'ok', at, data);
  const moved = model.move ? movePart(model, model.move, looser) : undefined;
  if (moved && moved.steps.length > 0) {
    return { settings: joinParts(says(looks), moved), sizes: sizePart(model, measured) };
  }
  const sizes = [...measured, ...sizesOf(model, told, false)];
  const stuck =
    sizes.length > 0 ? [] : [diagnostic('refit-unexplained', 'refused', at, { looser, joint: model.joint })];
  const without = moved?.diagnostics ?? [diagnostic('refit-no-setting', 'ok', at, {})];
  return { settings: says(looks, ...without, ...stuck), sizes: sizePart(model, sizes) };
}

function movePart(model: JointFit, move: FitMove, looser: number): Part {
  const at = `joints.${model.joint}`;
  const by = looser / -factorOf(model.pair, move.size);
  const room = by > 0 ? move.tighter : move.looser;
  const data = { by, room, tighter: by > 0 };
  if (Math.abs(by) > room + 1e-9) {
    return {
      steps: [],
      diagnostics: [
        diagnostic('refit-no-room', 'caution', at, {
          ...data,
          kind: move.size === 'depth' ? 'depth' : 'shift',
        }),
      ],
    };
  }
  if (move.size === 'fence') {
    return { steps: [{ do: 'shift', by }], diagnostics: [diagnostic('refit-shift', 'ok', at, data)] };
  }
  const from = move.depth ?? 0;
  const to = from + by;
  const thin =
    move.easy !== undefined && by > move.easy + 1e-9
      ? [diagnostic('refit-lap', 'caution', at, { depth: to, easy: from + move.easy })]
      : [];
  return {
    steps: [{ do: 'depth', by, from, to }],
    diagnostics: [diagnostic('refit-depth', 'ok', at, { ...data, from, to }), ...thin],
  };
}

/** New sizes: of the tools that were measured, or what the others cut like. */
function sizesOf(model: JointFit, { errors, measuredTools }: Told, measured: boolean): readonly NewSize[] {
  return model.tools.flatMap((tool) => {
    if (measuredTools.has(tool) !== measured) return [];
    const error = errors[tool.role] ?? 0;
    if (Math.abs(error) < SAME_SIZE) return [];
    const to = measuredTools.get(tool) ?? Math.round((tool.size + error) * 1000) / 1000;
    return [{ tool: tool.name, path: tool.path, from: tool.size, to, measured }];
  });
}

function sizePart(model: JointFit, sizes: readonly NewSize[]): Part {
  const at = `joints.${model.joint}`;
  return {
    steps: sizes.map((size) => ({ do: 'size', size })),
    diagnostics: [
      ...sizes.map(({ tool, path, from, to, measured }) =>
        diagnostic('refit-size', 'ok', `shop.${path.join('.')}`, { tool, key: path[2], from, to, measured }),
      ),
      ...(sizes.length > 0 ? [diagnostic('refit-new-plate', 'ok', at, {})] : []),
    ],
  };
}

// Faces and stop

function facePart(model: JointFit, { key, value }: Measured): Part {
  const [way, board = ''] = key.split(/-(.*)/);
  const face = way === 'proud' || way === 'shy' ? model.faces[board] : undefined;
  if (!face) return NOTHING;
  const at = `joints.${model.joint}`;
  const proud = (way === 'proud' ? value : -value) - face.wanted;
  if (Math.abs(proud) <= GOOD_ENOUGH) {
    return { steps: [], diagnostics: [diagnostic('refit-flush', 'ok', at, { board, wanted: face.wanted })] };
  }
  const by = -proud / face.perMm;
  const sanded = proud > 0 && proud <= SANDED_FLUSH;
  if (face.by === 'depth') {
    const data = { board, by, proud, sanded };
    return {
      steps: [{ do: 'board-depth', board, by }],
      diagnostics: [diagnostic('refit-board-depth', 'ok', at, data)],
    };
  }
  const alone = face.by === 'sockets-template';
  return {
    steps: [{ do: 'template', by, alone }],
    diagnostics: [diagnostic('refit-template', 'ok', at, { by, proud, alone, share: Math.abs(face.perMm) })],
  };
}

function stopPart(model: JointFit, { key, value }: Measured): Part {
  if (key !== 'mismatch') return NOTHING;
  const at = `joints.${model.joint}`;
  const [moved, other] = model.boards;
  if (Math.abs(value) <= GOOD_ENOUGH)
    return { steps: [], diagnostics: [diagnostic('refit-in-line', 'ok', at, {})] };
  const board = value > 0 ? moved : other;
  const by = Math.abs(value);
  const against = value > 0 ? other : moved;
  return {
    steps: [{ do: 'shim', board, by }],
    diagnostics: [diagnostic('refit-shim', 'ok', at, { board, by, against })],
  };
}

function joinParts(...parts: readonly Part[]): Part {
  return {
    steps: parts.flatMap(({ steps }) => steps),
    diagnostics: parts.flatMap(({ diagnostics }) => diagnostics),
  };
}

function measuredKey({ key, number }: Measured): string {
  return number === undefined ? key : `${key}-${number}`;
}

function sizePlace(model: JointFit, { text }: Measured): string {
  return `joints.${model.joint} --measured ${text}`;
}
