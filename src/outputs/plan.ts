import { paperSize } from '../../shared/paper.js';
import { type Diagnostic, hasErrors } from '../diagnostics/diagnostic.js';
import { judgePaper } from '../drawing/tiling/paper.js';
import type { Job } from '../input/types.js';
import type { MadeJoint } from '../sheet/input.js';
import { hasMarker } from '../template/patterns/marker.js';
import {
  type Artifact,
  artifact,
  type MadeFile,
  type Outputs,
  outputs,
  ownerOf,
  together,
} from './artifact.js';
import {
  type Ask,
  askedDiagnostics,
  defaultFormats,
  defaultProducts,
  type Product,
  unknownAsked,
} from './ask.js';
import { carrierOutputs } from './carrier.js';
import { contextsOf, type MadeContext } from './context.js';
import { printOf } from './drawn.js';
import { fingerOutputs } from './finger.js';
import { type JointOutcome, solveJob } from './joint.js';
import { markerOutputs } from './marker.js';
import { patternOutputs } from './pattern.js';
import { indexArtifacts, sheetArtifacts } from './sheet.js';
import type { TestCutOptions, TestCutOutcome } from './testcut.js';

/**
 * What there will be of a job: every joint solved, every plate prepared once, every file that is asked for listed.
 * `check` says what is said of it, `make` proves and renders it, the page shows it. Nothing here touches a disk.
 */
export interface Plan {
  readonly job: Job;
  readonly ask: Ask;
  /** Refused ones too. */
  readonly joints: readonly JointOutcome[];
  /** In a fixed order; none of a refused joint. */
  readonly artifacts: readonly Artifact[];
  /** What speaks for care with, or against, the files that are asked for, beyond the joints themselves. */
  readonly fileDiagnostics: readonly Diagnostic[];
  /** All of it: of the joints in their order and, where all of them can be made, of their files. */
  readonly diagnostics: readonly Diagnostic[];
}

/** Solves a job, or the joint that is asked for, and prepares its files. Renders none. */
export async function plan(job: Job, ask: Ask = {}): Promise<Plan> {
  const unknown = unknownAsked(job, ask);
  if (unknown.length > 0) {
    return { job, ask, joints: [], artifacts: [], fileDiagnostics: unknown, diagnostics: unknown };
  }
  return planOf(job, solveJob(job, ask.joint, ask.known), ask);
}

/** The plan of joints that are solved already. */
export async function planOf(job: Job, joints: readonly JointOutcome[], ask: Ask = {}): Promise<Plan> {
  const as = ask.as ?? defaultFormats;
  const contexts = contextsOf(job, joints);
  const drawn = together(await Promise.all(contexts.map((one) => drawnOutputs(one, ask))));
  const nested = asks(ask, 'nest')
    ? await (await import('./nest.js')).nestOutputs(job, contexts, as, ask.only?.includes('carrier') ?? false)
    : outputs([]);
  const paper = as.includes('pdf') ? paperDiagnostics(job) : [];
  const said = [...paper, ...unmadeDiagnostics(joints, ask), ...drawn.diagnostics, ...nested.diagnostics];
  return completed({ job, ask, joints, fileDiagnostics: distinct(said) }, [
    ...drawn.artifacts,
    ...nested.artifacts,
  ]);
}

/** Whether everything can be made as it is asked for. */
export const canBeMade = ({ joints, fileDiagnostics }: Plan): boolean =>
  joints.every(({ made }) => made) && !hasErrors(fileDiagnostics);

/** What stands before writing: every joint is cut and closed on paper under its templates, and one that does not close is refused. */
export async function prove(planned: Plan): Promise<Plan> {
  return withCuts(planned, await testCuts(planned));
}

/** Cuts every joint that can be made on paper, by the DXF of its templates that the plan renders. */
export async function testCuts(
  planned: Plan,
  options: TestCutOptions = {},
): Promise<readonly TestCutOutcome[]> {
  const { readBack, testCutJob, writtenTemplates } = await import('./testcut.js');
  const written = (outcome: JointOutcome) => {
    const own = planned.artifacts.filter(
      ({ joint, product, path }) =>
        joint === outcome.joint.name && product === 'finger' && path.endsWith('.dxf'),
    );
    return own.length > 0 ? readBack(own) : writtenTemplates(planned.job, outcome);
  };
  return testCutJob(planned.job, planned.joints, { written, ...options });
}

/** The plan with what test cuts found; files of joints that are refused by them are gone. */
export async function withCuts(planned: Plan, cuts: readonly TestCutOutcome[]): Promise<Plan> {
  const { withTestCuts } = await import('./testcut.js');
  const { job, ask, artifacts } = planned;
  const joints = withTestCuts(job, planned.joints, cuts);
  const isLost = joints.some(({ made }, i) => !made && planned.joints[i]?.made);
  // Plates of a joint that is lost lie on sheets among the others.
  return isLost
    ? planOf(job, joints, ask)
    : completed(
        { ...planned, joints },
        artifacts.filter(({ product }) => !fromReports.includes(product)),
      );
}

/** Every file of a plan, in its order. `onJoint` is told after each joint: how many are done, of how many, and which one it was. */
export async function renderAll(
  { artifacts, joints }: Plan,
  onJoint: (done: number, of: number, name: string) => void = () => undefined,
): Promise<readonly MadeFile[]> {
  const files: MadeFile[] = [];
  for (const [i, { path, joint, render }] of artifacts.entries()) {
    files.push({ path, content: await render() });
    if (joint === undefined || artifacts[i + 1]?.joint === joint) continue;
    const at = joints.findIndex((one) => one.joint.name === joint);
    onJoint(at + 1, joints.length, joint);
  }
  return files;
}

const asks = ({ only = defaultProducts }: Ask, product: Product): boolean => only.includes(product);

/** Drawings, programs and solids of a joint, format by format. */
async function drawnOutputs(context: MadeContext, ask: Ask): Promise<Outputs> {
  const products = [
    ...(asks(ask, 'finger') ? [fingerOutputs(context)] : []),
    ...(asks(ask, 'carrier') ? [carrierOutputs(context)] : []),
    ...(asks(ask, 'marker') ? [markerOutputs(context, ask.only !== undefined)] : []),
    ...(asks(ask, 'pattern') ? [patternOutputs(context)] : []),
  ];
  const all: Outputs[] = [];
  for (const format of ask.as ?? defaultFormats) {
    for (const product of products) all.push(await product(format));
  }
  return together(all);
}

/** What tells how a joint was judged, and so waits for its test cut. */
const fromReports: readonly Artifact['product'][] = ['sheet', 'report', 'index'];

/** A plan with reports, set-up sheets and index among what is drawn. */
function completed(about: Omit<Plan, 'artifacts' | 'diagnostics'>, drawn: readonly Artifact[]): Plan {
  const { job, ask, joints, fileDiagnostics } = about;
  const made = madeJoints(joints);
  const as = ask.as ?? defaultFormats;
  const wantsSheets = asks(ask, 'sheet');
  const ofJoints = joints.flatMap((outcome) => {
    const { name } = outcome.joint;
    const settled = made.find(({ joint }) => joint.name === name);
    if (!outcome.made || !settled) return [];
    const { report } = outcome.made;
    return [
      ...drawn.filter(({ joint }) => joint === name),
      ...(wantsSheets ? sheetArtifacts(job, settled, made, as) : []),
      artifact(ownerOf('report', name), 'report.json', () => `${JSON.stringify(report, null, 2)}\n`),
    ];
  });
  const paths = ofJoints.map(({ path }) => path);
  const index = wantsSheets ? indexArtifacts(job, made, as, paths) : [];
  const isWhole = joints.every((one) => one.made);
  return {
    ...about,
    artifacts: [...ofJoints, ...drawn.filter(({ joint }) => joint === undefined), ...index],
    diagnostics: [...joints.flatMap(({ diagnostics }) => diagnostics), ...(isWhole ? fileDiagnostics : [])],
  };
}

/** What is asked for by name and that a joint, or every joint, has none of. */
function unmadeDiagnostics(outcomes: readonly JointOutcome[], ask: Ask): readonly Diagnostic[] {
  const joints = outcomes.flatMap(({ joint, made }) => {
    if (!made) return [];
    const plates = made.templates.length > 0;
    const marked = made.solved.markings.length > 0;
    const marker = hasMarker(made.solved);
    const carrier = made.templates.some((one) => one.carrier);
    const there = { finger: plates, carrier, marker, pattern: marked, sheet: true, nest: plates };
    return [
      {
        name: joint.name,
        has: (product: Product) => there[product],
        markerHooks: joint.marker?.form === 'hook',
      },
    ];
  });
  return askedDiagnostics(joints, ask);
}

/** The reader has looked the paper's name up, so it has a size; whether a drawing finds room on it is asked here. */
function paperDiagnostics({ shop }: Job): readonly Diagnostic[] {
  const size = paperSize(shop.printer.paper);
  return size ? judgePaper(size, printOf(shop), 'shop.printer') : [];
}

/** The joints that can be made, as sheets take them. */
function madeJoints(outcomes: readonly JointOutcome[]): readonly MadeJoint[] {
  return outcomes.flatMap(({ joint, made, diagnostics }) =>
    made ? [{ joint, diagnostics, solved: made.solved, templates: made.templates }] : [],
  );
}

/** The same said once, however many joints and formats it holds for. */
function distinct(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const texts = diagnostics.map((one) => JSON.stringify(one));
  return diagnostics.filter((_, i) => texts.indexOf(texts[i] ?? '') === i);
}
