import { type Diagnostic, diagnostic, hasErrors } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import type { Job, Shop } from '../input/types.js';
import type { FingerTemplate } from '../template/finger-template.js';
import { type TestCut, type TestCutRequest, testCut } from '../verify/assemble.js';
import { requestOf, type WrittenFile } from '../verify/files/from-report.js';
import { missingFiles } from '../verify/files/read-template.js';
import { judgeTestCut } from '../verify/judge.js';
import { type WantedWalls, wallDiagnostics } from '../verify/walls.js';
import { proveSetUp, type SetUpProof } from '../verify/whole/prove.js';
import { type Artifact, ownerOf } from './artifact.js';
import { drawnPlates } from './drawn.js';
import type { JointOutcome } from './joint.js';
import { type Report, reportedSide, withTestCut } from './report.js';

/** What the test cut of one joint says. */
export interface TestCutOutcome {
  readonly joint: string;
  /** Both boards as cut and the closed joint; absent when it is cut by hand, of a kind unknown here, or its files cannot be used. */
  readonly cut?: TestCut;
  /** What was cut; there where `cut` is. */
  readonly request?: TestCutRequest;
  /** All corners closed as the set-up says; absent where that was not tried, or something is wrong. */
  readonly proof?: SetUpProof;
  readonly diagnostics: readonly Diagnostic[];
}

/** What a joint's test cut is held to besides its own report. */
interface JudgedBy {
  readonly levels?: number | undefined;
  readonly walls?: readonly WantedWalls[];
  readonly reach?: Readonly<Record<string, number>>;
}

/**
 * Cuts a joint on paper under its written templates, closes it and judges it. `slack` is what the joint asks
 * for, mm. Refuses when a template is missing or unreadable, a wall is not where `walls` want it, or the joint does not
 * close as asked. A plate whose walls are off is named alone: what comes of it is not its neighbour's fault. With `reach`,
 * by how much each board's end stands past the outside of the piece, mm, every corner is closed as the set-up says, too.
 */
export function testCutJoint(
  report: Report,
  slack: number,
  files: readonly WrittenFile[],
  { levels, walls = [], reach }: JudgedBy = {},
): TestCutOutcome {
  const { joint, kind, assembly } = report;
  const at = `joints.${joint}`;
  const only = (diagnostics: readonly Diagnostic[]): TestCutOutcome => ({ joint, diagnostics });
  if (report.cuts.length === 0) return only([diagnostic('testcut-by-hand', 'ok', at, {})]);
  if (!assembly) return only([diagnostic('testcut-kind', 'ok', at, { kind })]);
  const cuts = [...report.cuts, ...walls.map((one) => one.cut)];
  const missing = [...new Set(cuts.flatMap((cut) => missingFiles(cut, files)))].map((template) =>
    diagnostic('template-missing', 'refused', at, { template }),
  );
  if (missing.length > 0) return only(missing);
  const request = requestOf(report, files, walls.length > 0);
  if (!request.ok) return only(request.diagnostics);
  const off = distinctByFile(walls.flatMap((one) => wallDiagnostics(one, files, report.holds.width)));
  const asked = levels === undefined ? request.value : { ...request.value, levels };
  const cut = testCut(asked);
  if (off.length > 0)
    return { ...only([...request.diagnostics, ...off]), ...(cut.ok && { cut: cut.value, request: asked }) };
  if (!cut.ok) return only([...request.diagnostics, ...cut.diagnostics]);
  const judged = [...request.diagnostics, ...cut.diagnostics, ...judgeTestCut(cut.value, slack, at)];
  const closed = { joint, cut: cut.value, request: asked };
  // A joint that doesn't close says nothing of how its boards are held.
  if (!reach || hasErrors(judged)) return { ...closed, diagnostics: judged };
  const proof = proveSetUp({
    report,
    files,
    plates: walls.map((one) => one.cut),
    slack,
    cut: cut.value,
    reach,
  });
  const diagnostics = [...judged, ...proof.diagnostics];
  return { ...closed, diagnostics, ...(proof.ok && proof.value && { proof: proof.value }) };
}

/** Of each file the wall that is farthest off. */
function distinctByFile(all: readonly Diagnostic[]): readonly Diagnostic[] {
  const by = (one: Diagnostic): number => (one.code === 'wall-off' ? one.data.by : Infinity);
  const worst = new Map<string, Diagnostic>();
  for (const one of all) {
    const known = worst.get(one.at);
    if (!known || by(one) > by(known)) worst.set(one.at, one);
  }
  return [...worst.values()];
}

/** What every plate of a joint has to cut, those for second ends too. */
function wallsOf(templates: readonly FingerTemplate[], shop: Shop): readonly WantedWalls[] {
  return templates.flatMap((template) =>
    template.plate.sides.map((side) => ({
      cut: reportedSide(side, template, shop),
      radius: side.cut.cutterRadius,
      waste: side.cut.waste,
      stock: side.cut.stock,
    })),
  );
}

/** Written templates of a joint: name and text of each file. */
export type WriteOutcome = (
  outcome: JointOutcome,
) => readonly WrittenFile[] | Promise<readonly WrittenFile[]>;

export interface TestCutOptions {
  /** Levels at which the boards are compared; nine unless said. */
  readonly levels?: number;
  /** Templates in place of those that the job gives. */
  readonly written?: WriteOutcome;
}

/** Cuts every joint that can be made on paper, under its templates as their DXF files hold them, and judges it. Writes nothing. */
export async function testCutJob(
  job: Job,
  outcomes: readonly JointOutcome[],
  { levels, written = (outcome) => writtenTemplates(job, outcome) }: TestCutOptions = {},
): Promise<readonly TestCutOutcome[]> {
  const all: TestCutOutcome[] = [];
  for (const outcome of outcomes) {
    const { joint, made } = outcome;
    if (!made) continue;
    const reach = Object.fromEntries(made.solved.boards.map((board) => [board.board, board.reach?.by ?? 0]));
    const walls = wallsOf(made.templates, job.shop);
    all.push(testCutJoint(made.report, joint.slack, await written(outcome), { levels, walls, reach }));
  }
  return all;
}

/** Each finger template of a joint as its DXF file holds it; none of a joint that cannot be made. */
export const writtenTemplates = (job: Job, { joint, made }: JointOutcome): Promise<readonly WrittenFile[]> =>
  readBack(made ? drawnPlates('dxf', made.plates, ownerOf('finger', joint.name), job) : []);

/** Artifacts as the test cut reads them. */
export const readBack = (artifacts: readonly Artifact[]): Promise<readonly WrittenFile[]> =>
  Promise.all(
    artifacts.map(async ({ path, render }) => ({
      name: path.slice(path.lastIndexOf('/') + 1),
      text: `${await render()}`,
    })),
  );

/** Outcomes whose reports carry their test cuts; a joint that does not close is refused. */
export function withTestCuts(
  job: Job,
  outcomes: readonly JointOutcome[],
  cuts: readonly TestCutOutcome[],
): readonly JointOutcome[] {
  return outcomes.map((outcome) => {
    const cut = cuts.find(({ joint }) => joint === outcome.joint.name);
    if (!cut) return outcome;
    const { joint, made } = outcome;
    const diagnostics = [...outcome.diagnostics, ...cut.diagnostics];
    if (!made || hasErrors(cut.diagnostics)) {
      return { joint, diagnostics: [...diagnostics, ...reliefDiagnostics(outcome)] };
    }
    const report = withTestCut(made.report, cut, cut.diagnostics, formatterFor(job.units));
    return { joint, diagnostics, made: { ...made, report } };
  });
}

/** What is behind a joint that does not close under a plate whose corners an end mill has cut past. */
function reliefDiagnostics({ diagnostics, made }: JointOutcome): readonly Diagnostic[] {
  const relieved = diagnostics.find(({ code }) => code === 'corners-relieved');
  if (relieved?.code !== 'corners-relieved' || !made) return [];
  const { cutter } = relieved.data;
  const bushing = Math.min(...made.solved.cuts.map((cut) => cut.bushing.outside));
  return [diagnostic('relief-unguides', 'refused', 'shop.cnc.relief', { cutter, bushing })];
}

/** A test cut as an SVG picture, to scale; undefined where nothing could be cut. */
export async function testCutPictureOf(
  { title, units, shop: { colours } }: Job,
  { joint, cut }: TestCutOutcome,
): Promise<string | undefined> {
  if (!cut) return undefined;
  const [{ testCutDrawing }, { pictureWriter }] = await Promise.all([
    import('../verify/picture.js'),
    import('../writers/picture.js'),
  ]);
  return pictureWriter.write(testCutDrawing(cut, `${title}: ${joint}, test cut`, formatterFor(units)), {
    colours,
  });
}
