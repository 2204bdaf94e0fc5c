import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { SolvedJoint } from '../joints/family.js';
import { type FitFace, type FitMove, factorOf } from '../joints/fit-model.js';
import type { LengthUnit } from '../units/length.js';
import { type BenchState, fitOf, type JointFit, type Settings } from './joint-fit.js';
import { type Measured, readMeasured } from './measured.js';
import { measuredSteps, plateChoices, plateDiagnostics } from './next-plate.js';
import { joined, NOTHING, type Part, type Step } from './steps.js';
import { stopPart } from './stops.js';
import { GOOD_ENOUGH, type Told, toldBy } from './told.js';

export type { NewSize, Step as RefitStep } from './steps.js';
export { GOOD_ENOUGH } from './told.js';

/** What to do after a trial piece. */
export interface Advice {
  readonly joint: string;
  readonly measured: readonly Measured[];
  /** How much looser than wanted a mating pair is, mm; below 0 it is too tight; absent where nothing told. */
  readonly looser?: number;
  /** One change that cures what was measured, in the order of work: settings first, a new plate last. */
  readonly steps: readonly Step[];
  /** Other ways to set the fit, each in place of the steps that set it, never beside them. */
  readonly either: readonly (readonly Step[])[];
  /** How the bench stands once the steps are done, for the next trial joint; as the sheet says after new plates. */
  readonly settings: Settings;
  /** A sentence for each step, and what is to be minded. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Ends that stand proud by no more than this are sanded flush, mm. Common practice, no source. */
const SANDED_FLUSH = 0.5;

/**
 * What the measurements of a trial piece say to change. The fit is set right first: by depth in a half-blind
 * joint (deeper is tighter, 2k a unit), by moving the fence under the pin template of a through joint (2k a
 * unit for a pin, k for a half-pin), as long as the board and the plate have room for it; where they have not,
 * or no setting changes the fit, by one change for a new plate. Then faces, as they are once that is done, then the
 * stops of the corner that was tried.
 */
export function refit(
  solved: SolvedJoint,
  words: readonly string[],
  units: LengthUnit,
  bench: BenchState = {},
): Result<Advice> {
  const model = fitOf(solved);
  if (!model.ok) return model;
  const read = readMeasured(words, model.value, units);
  return read.ok ? ok(adviceOf(model.value, read.value, bench)) : err(read.diagnostics);
}

/** What measurements of a joint whose model is known say to change. */
export function adviceOf(model: JointFit, measured: readonly Measured[], bench: BenchState = {}): Advice {
  const told = toldBy(model, measured, bench);
  const fit = fitParts(model, told, measured, bench);
  const parts = [
    fit.settings,
    ...measured.map((one) => facePart(model, one, fit)),
    stopPart(model, measured),
    fit.plates,
  ];
  return {
    joint: model.joint,
    measured,
    ...(told.looser !== undefined && { looser: told.looser }),
    ...joined(...parts),
    either: fit.either,
    settings: fit.plates.steps.length > 0 ? {} : settingsAfter(model, told, fit.settings.steps),
    diagnostics: [...told.diagnostics, ...parts.flatMap(({ diagnostics }) => diagnostics)],
  };
}

function settingsAfter({ move }: JointFit, { known }: Told, steps: readonly Step[]): Settings {
  if (!move) return {};
  const moved = steps.find((step) => step.do === 'depth' || step.do === 'shift')?.by ?? 0;
  const stands = (known[move.size] ?? 0) + moved;
  return stands === 0 ? {} : { [move.size]: stands };
}

// The fit

interface Fit {
  readonly settings: Part;
  readonly plates: Part;
  readonly either: readonly (readonly Step[])[];
}

/** What sets the fit on the plate that there is, or else what to change for another. */
function fitParts(model: JointFit, told: Told, measured: readonly Measured[], bench: BenchState): Fit {
  const { looser } = told;
  const at = `joints.${model.joint}`;
  const kerf = bench.kerf ?? 0;
  const none: Fit = { settings: NOTHING, plates: NOTHING, either: [] };
  const stuck = entryDiagnostics(model, told, measured);
  if (stuck.length > 0) {
    const steps = measuredSteps(model, told);
    const diagnostics = [...stuck, ...plateDiagnostics(model, [steps], { instead: false, kerf })];
    return { ...none, plates: { steps, diagnostics } };
  }
  if (looser === undefined) return none;
  const data = { looser, slack: model.slack };
  const own = measuredSteps(model, told);
  if (Math.abs(looser) <= GOOD_ENOUGH) {
    const kept = own.length > 0 ? [diagnostic('refit-keep', 'ok', at, {})] : [];
    return {
      ...none,
      settings: { steps: [], diagnostics: [diagnostic('refit-fits', 'ok', at, data), ...kept] },
    };
  }
  const looks = diagnostic('refit-looser', 'ok', at, data);
  const moved = model.move ? movePart(model, model.move, looser, told, bench) : undefined;
  const choices = plateChoices(model, told);
  if (moved && moved.steps.length > 0) {
    // Nobody asked after the next plate where no tool was measured.
    const other = own.length > 0 ? choices : [];
    return {
      settings: joined({ steps: [], diagnostics: [looks] }, moved),
      plates: { steps: [], diagnostics: plateDiagnostics(model, other, { instead: true, kerf }) },
      either: other,
    };
  }
  const without = moved?.diagnostics ?? [diagnostic('refit-no-setting', 'ok', at, {})];
  const [steps = [], ...either] = choices;
  const lost =
    steps.length > 0 ? [] : [diagnostic('refit-unexplained', 'caution', at, { looser, joint: model.joint })];
  return {
    settings: { steps: [], diagnostics: [looks, ...without, ...lost] },
    plates: { steps, diagnostics: plateDiagnostics(model, choices, { instead: false, kerf }) },
    either,
  };
}

/** The bushing is wider than an opening, by what was measured of either: nothing can be cut before that is mended. */
function entryDiagnostics(
  model: JointFit,
  { known }: Told,
  measured: readonly Measured[],
): readonly Diagnostic[] {
  const { room } = model;
  const felt = measured.some(({ key }) => /^(end-)?(gap|overlap)$/.test(key) || key in model.widths);
  if (room === undefined || felt) return [];
  const left = room + (known.kerf ?? 0) - (known.bushing ?? 0);
  return left >= -ENTERS
    ? []
    : [diagnostic('refit-no-entry', 'caution', `joints.${model.joint}`, { by: -left })];
}

/** A bushing that is wider than its opening by less goes in with a push, mm. */
const ENTERS = 0.005;

function movePart(
  model: JointFit,
  move: FitMove,
  looser: number,
  { known }: Told,
  { settings = {} }: BenchState,
): Part {
  const at = `joints.${model.joint}`;
  const by = looser / -factorOf(model.pair, move.size);
  const stands = known[move.size] ?? settings[move.size];
  const room = by > 0 ? move.tighter - (stands ?? 0) : move.looser + (stands ?? 0);
  const data = { by, room: Math.max(0, room), tighter: by > 0 };
  if (Math.abs(by) > room + SET_WITHIN) {
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
  const planned = move.depth ?? 0;
  const cuts = stands === undefined ? {} : { from: planned + stands, to: planned + stands + by };
  const to = planned + (stands ?? 0) + by;
  const easy = move.easy ?? Number.POSITIVE_INFINITY;
  const thin =
    by > 0 && to > planned + easy + 1e-9
      ? [diagnostic('refit-lap', 'caution', at, { depth: to, easy: planned + easy })]
      : [];
  return {
    steps: [{ do: 'depth', by, ...cuts }],
    diagnostics: [diagnostic('refit-depth', 'ok', at, { ...data, ...cuts }), ...thin],
  };
}

/** Nobody sets a depth or a fence any nearer, mm (common practice, no source). */
const SET_WITHIN = 0.02;

// Faces

/** What is left of a face once the fit is set: both come from the same error more often than not. */
function facePart(model: JointFit, { key, value }: Measured, fit: Fit): Part {
  const [way, board = ''] = key.split(/-(.*)/);
  const face = way === 'proud' || way === 'shy' ? model.faces[board] : undefined;
  if (!face) return NOTHING;
  const at = `joints.${model.joint}`;
  const seen = (way === 'proud' ? value : -value) - face.wanted;
  const change = changeWith(model, face, fit);
  const proud = outOf(face, seen + change);
  if (Math.abs(proud) <= GOOD_ENOUGH) {
    const after = Math.abs(outOf(face, seen)) > GOOD_ENOUGH;
    return {
      steps: [],
      diagnostics: [diagnostic('refit-flush', 'ok', at, { board, wanted: face.wanted, after })],
    };
  }
  const by = -proud / face.perMm;
  const sanded = proud > 0 && proud <= SANDED_FLUSH;
  if (face.by === 'depth') {
    return {
      steps: [{ do: 'board-depth', board, by }],
      diagnostics: [diagnostic('refit-board-depth', 'ok', at, { board, by, proud, sanded })],
    };
  }
  const alone = face.by === 'sockets-template';
  const data = { by, proud, alone, share: Math.abs(face.perMm), after: change !== 0 };
  return {
    steps: [{ do: 'template', by, alone }],
    diagnostics: [diagnostic('refit-template', 'ok', at, data)],
  };
}

/** A face may lie back by the joint's own slack. */
function outOf({ ease = 0 }: FitFace, proud: number): number {
  return proud > 0 ? proud : Math.min(0, proud + ease);
}

/** How far what sets the fit moves a face. */
function changeWith(
  { pair, move }: JointFit,
  { withMove = 0, withPlay = 0 }: FitFace,
  { settings, plates }: Fit,
): number {
  const moved = settings.steps.find((step) => step.do === 'depth' || step.do === 'shift');
  if (moved) return withMove * moved.by;
  const steps = plates.steps.map((step) => {
    if (step.do === 'openings') return (pair.factors.kerf ?? 0) * step.by;
    if (step.do !== 'size') return 0;
    const bushing = step.size.path[0] === 'bushings';
    const factor = (bushing ? pair.factors.bushing : pair.factors.dovetail) ?? 0;
    return factor * (step.size.to - step.size.from);
  });
  return move ? withPlay * steps.reduce((sum, one) => sum + one, 0) : 0;
}
