import { paperSize } from '../shared/paper.js';
import { type Asked, askedFindings, type Product, usualFormats, usualProducts } from './asked.js';
import type { Drawing } from './drawing/model.js';
import { judgePaper } from './drawing/tiling-paper.js';
import { type Finding, finding, given, isRefused, type Result, refused } from './findings/finding.js';
import { sayIn } from './findings/say.js';
import type { Job, Joint } from './job/types.js';
import { alignedTo, alignFindings, rowOf } from './joints/align.js';
import { type Judge, judgeFingers, solveChosen, unblamed } from './joints/choice.js';
import type { JointFamily, SolvedJoint } from './joints/family.js';
import { families } from './joints/list.js';
import type { MachineFiles } from './machine-files.js';
import { hasMarker, markerOf } from './pattern/marker.js';
import { patterns } from './pattern/pattern.js';
import type { Cutting } from './plate-cut/compensated.js';
import { holdingOf } from './plate-cut/holding.js';
import { cuttingOf, millOf, plateDrawing } from './plate-drawings.js';
import { type Report, reportOf, withTestCut } from './report.js';
import { judgePieces } from './sheet/cut-list.js';
import type { MadeJoint } from './sheet/input.js';
import { type FingerTemplate, fingerTemplates, writtenAs } from './template/finger-template.js';
import { bedOf } from './template/seams.js';
import type { TestCutOutcome } from './test-cut-job.js';
import { isMachineFormat, type MachineFormat } from './writers/list.js';
import { type MadeFile, type NamedDrawing, printOf, writeDrawings } from './written-drawings.js';

export { formats, type Product, products, usualFormats, usualProducts } from './asked.js';
export type { MadeFile } from './written-drawings.js';

/**
 * The one road from a job to its files, and the one door that the command and the page use:
 * solve every joint, draw what is asked for, write each drawing in each format. Nothing here touches a disk.
 */

/** One joint with its templates, or with the reasons why it cannot be made. */
export interface JointOutcome {
  readonly joint: Joint;
  readonly findings: readonly Finding[];
  /** Absent when the joint is refused. */
  readonly made?: {
    readonly solved: SolvedJoint;
    readonly templates: readonly FingerTemplate[];
    readonly report: Report;
  };
}

export interface MakeOptions extends Asked {
  /** Told after each joint, for a sign of progress: how many are done, of how many, and which one it was. */
  readonly onJoint?: (done: number, of: number, name: string) => void;
}

/**
 * Solves and judges every joint of a job, or the one named. Writes nothing. `known` are the families that the job
 * was read with, where it was read with others than halfpin's.
 */
export function solveJob(job: Job, only?: string, known = families): readonly JointOutcome[] {
  return job.joints
    .filter((joint) => only === undefined || joint.name === only)
    .map((joint) => solveJoint(joint, job, known));
}

function solveJoint(joint: Joint, job: Job, known: readonly JointFamily[]): JointOutcome {
  const say = sayIn(job.units);
  const solved = solveAligned(joint, job, known);
  if (!solved.ok) return { joint, findings: solved.findings };
  const cutting = cuttingOf(job.shop);
  if (!cutting.ok) return { joint, findings: [...solved.findings, ...cutting.findings] };
  const templates = templatesFor(cutting.value, solved.value, joint, job);
  const drawn = (templates.ok ? templates.value : []).flatMap((template) =>
    writtenAs(template).flatMap(
      ({ name, drawing }) => plateDrawing(name, drawing, cutting.value, say).findings,
    ),
  );
  const made = templates.ok && { joint, solved: solved.value, templates: templates.value, findings: [] };
  const findings = [
    ...solved.findings,
    ...unblamed(templates.findings, familyFor(joint, known), joint),
    ...drawn,
    ...(made ? judgePieces(job.pieces, made) : []),
  ];
  if (!templates.ok || isRefused(findings)) return { joint, findings };
  const report = reportOf(joint, solved.value, templates.value, findings, job.shop, say);
  return { joint, findings, made: { solved: solved.value, templates: templates.value, report } };
}

/** The joint solved by its family, with the numbers of the joint that it is lined up with where there is one. */
export function solveAligned(joint: Joint, job: Job, known = families): Result<SolvedJoint> {
  const family = familyFor(joint, known);
  const lead = job.joints.find(({ name }) => name === joint.align);
  if (joint.align === undefined) return solveChosen(family, joint, job.shop, judgeOf(job));
  const at = `joints.${joint.name}.align`;
  // A lead that was refused when the job was read is not among its joints.
  const led = lead && solveAligned(lead, job, known);
  if (!led?.ok) return refused([finding('align-refused', 'refused', at, { lead: joint.align })]);
  const row = rowOf(led.value);
  if (!row) return refused([finding('align-kind', 'refused', at, { kind: joint.kind })]);
  const solved = solveChosen(family, alignedTo(joint, row), job.shop, judgeOf(job));
  const aligned = alignFindings(joint, solved.ok ? solved.value : undefined, joint.align, row);
  const findings = [...solved.findings, ...aligned];
  return solved.ok && !isRefused(aligned) ? given(solved.value, findings) : refused(findings);
}

/** No plate reaches further past the board on its own, mm. */
const WIDE_MARGIN = 100;

/** What the plates of a choice are judged by: their fingers, and the seams of those that are too long for the bed. */
function judgeOf(job: Job): Judge<Joint> {
  const bed = bedOf(job.shop);
  const cutting = cuttingOf(job.shop);
  return (solved, joint, shop) => {
    const fingers = judgeFingers(solved, joint, shop);
    const length = solved.width + 2 * (joint.template.margin ?? WIDE_MARGIN);
    if (isRefused(fingers) || !bed || !cutting.ok || length <= bed.width) return fingers;
    return templatesFor(cutting.value, solved, joint, { ...job, shop }).findings;
  };
}

function familyFor({ kind }: Joint, known: readonly JointFamily[]): JointFamily {
  const family = known.find((one) => one.kind === kind);
  if (!family) throw new Error(`no joint family for kind ${kind}`);
  return family;
}

/** Finger templates whose labels and notes say what cuts them. */
function templatesFor(
  cutting: Cutting,
  solved: SolvedJoint,
  joint: Joint,
  job: Job,
): Result<readonly FingerTemplate[]> {
  const say = sayIn(job.units);
  const holds = holdingOf(cutting, say);
  const mill = millOf(cutting, job.shop);
  return fingerTemplates(solved, {
    jobTitle: job.title,
    joint,
    shop: job.shop,
    say,
    holds,
    ...(mill && { mill }),
  });
}

/** Every file of the joints that can be made, in a fixed order. Refused joints, and files that judgeFiles refuses, give none. */
export async function makeFiles(
  job: Job,
  outcomes: readonly JointOutcome[],
  options: MakeOptions = {},
): Promise<readonly MadeFile[]> {
  const files: MadeFile[] = [];
  for (const [i, outcome] of outcomes.entries()) {
    files.push(...(await filesOfJoint(job, outcome, outcomes, options)));
    options.onJoint?.(i + 1, outcomes.length, outcome.joint.name);
  }
  return [
    ...files,
    ...(await nestOf(job, outcomes, options)).files,
    ...(await indexOf(job, outcomes, options, files)),
  ];
}

export interface TestCutOptions {
  /** Levels at which the boards are compared; nine unless said. */
  readonly levels?: number;
  /** Written templates of a joint by name, in place of those that the job gives: name and text of each file. */
  readonly written?: (joint: string) => readonly { readonly name: string; readonly text: string }[];
}

/** Cuts every joint that can be made on paper, under its templates as their DXF files hold them, and judges it. Writes nothing. */
export async function testCutJob(
  job: Job,
  outcomes: readonly JointOutcome[],
  { levels, written }: TestCutOptions = {},
): Promise<readonly TestCutOutcome[]> {
  const { testCutJoint } = await import('./test-cut-job.js');
  const all: TestCutOutcome[] = [];
  for (const outcome of outcomes) {
    const { joint, made } = outcome;
    if (!made) continue;
    const files = written ? written(joint.name) : await writtenTemplates(job, outcome);
    all.push(testCutJoint(made.report, joint.slack, files, levels));
  }
  return all;
}

/** What stands before writing: every joint that can be made is cut on paper, and one that does not close is refused. */
export async function proveJob(
  job: Job,
  outcomes: readonly JointOutcome[],
): Promise<readonly JointOutcome[]> {
  return withTestCuts(job, outcomes, await testCutJob(job, outcomes));
}

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
    const findings = [...outcome.findings, ...cut.findings];
    if (!made || isRefused(cut.findings)) {
      return { joint, findings: [...findings, ...reliefFindings(outcome)] };
    }
    const report = withTestCut(made.report, cut.cut, cut.findings, sayIn(job.units));
    return { joint, findings, made: { ...made, report } };
  });
}

/** What is behind a joint that does not close under a plate whose corners an end mill has cut past. */
function reliefFindings({ findings, made }: JointOutcome): readonly Finding[] {
  const relieved = findings.find(({ code }) => code === 'corners-relieved');
  if (relieved?.code !== 'corners-relieved' || !made) return [];
  const { cutter } = relieved.data;
  const bushing = Math.min(...made.solved.cuts.map((cut) => cut.bushing.outside));
  return [finding('relief-unguides', 'refused', 'shop.cnc.relief', { cutter, bushing })];
}

/** A test cut as an SVG picture, to scale; undefined where nothing could be cut. */
export async function testCutPictureOf(
  job: Job,
  { joint, cut }: TestCutOutcome,
): Promise<string | undefined> {
  const { testCutPicture } = await import('./test-cut-job.js');
  return cut && testCutPicture(cut, `${job.title}: ${joint}, test cut`, sayIn(job.units));
}

/** Name and text of each finger template of a joint as its DXF files hold it; none of a joint that cannot be made. */
export async function writtenTemplates(job: Job, { joint, made }: JointOutcome) {
  if (!made) return [];
  const files = await writeDrawings('dxf', drawingsOf(joint, made, ['finger'], job), job);
  return files.map(({ path, content }) => ({ name: path, text: `${content}` }));
}

/** What speaks for care with, or against, the files that are asked for, beyond the joints themselves. Writes nothing. */
export async function judgeFiles(
  job: Job,
  outcomes: readonly JointOutcome[],
  options: MakeOptions = {},
): Promise<readonly Finding[]> {
  const as = options.as ?? usualFormats;
  const paper = as.includes('pdf') ? paperFindings(job) : [];
  const machineFormats = as.filter(isMachineFormat);
  const findings = await Promise.all(
    outcomes.flatMap(({ joint, made }) =>
      made
        ? machineFormats.map(async (format) => {
            const drawings = drawingsOf(joint, made, options.only ?? usualProducts, job);
            return (await forMachine(format, drawings, joint, made, job)).findings;
          })
        : [],
    ),
  );
  const nested = await nestOf(job, outcomes, options);
  return distinct([...paper, ...unmadeFindings(outcomes, options), ...findings.flat(), ...nested.findings]);
}

/** What is asked for by name and that a joint, or every joint, has none of. */
function unmadeFindings(outcomes: readonly JointOutcome[], { only, as }: MakeOptions): readonly Finding[] {
  const joints = outcomes.flatMap(({ joint, made }) => {
    if (!made) return [];
    const plates = made.templates.length > 0;
    const marked = made.solved.markings.length > 0;
    const marker = hasMarker(made.solved);
    const there = { finger: plates, marker, pattern: marked, sheet: true, nest: plates };
    return [
      {
        name: joint.name,
        has: (product: Product) => there[product],
        markerHooks: joint.marker?.form === 'hook',
      },
    ];
  });
  return askedFindings(joints, { ...(only && { only }), ...(as && { as }) });
}

/** The reader has looked the paper's name up, so it has a size; whether a drawing finds room on it is asked here. */
function paperFindings({ shop }: Job): readonly Finding[] {
  const size = paperSize(shop.printer.paper);
  return size ? judgePaper(size, printOf(shop), 'shop.printer') : [];
}

async function filesOfJoint(
  job: Job,
  outcome: JointOutcome,
  all: readonly JointOutcome[],
  options: MakeOptions,
): Promise<readonly MadeFile[]> {
  const { joint, made } = outcome;
  if (!made) return [];
  const drawings = drawingsOf(joint, made, options.only ?? usualProducts, job);
  const written = await Promise.all(
    (options.as ?? usualFormats).map(async (format) =>
      isMachineFormat(format)
        ? (await forMachine(format, drawings, joint, made, job)).files
        : await writeDrawings(format, drawings, job),
    ),
  );
  return [
    ...written.flat().map((file) => ({ ...file, path: `${joint.name}/${file.path}` })),
    ...(await sheetOf(job, outcome, all, options)),
    { path: `${joint.name}/report.json`, content: `${JSON.stringify(made.report, null, 2)}\n` },
  ];
}

/** The set-up sheet; what makes it is read when it is asked for. */
async function sheetOf(
  job: Job,
  outcome: JointOutcome,
  all: readonly JointOutcome[],
  options: MakeOptions,
): Promise<readonly MadeFile[]> {
  const made = madeJoints([outcome])[0];
  if (!made || !(options.only ?? usualProducts).includes('sheet')) return [];
  const { sheetFiles } = await import('./sheet-files.js');
  return sheetFiles(job, made, madeJoints(all), options.as ?? usualFormats);
}

/** All plates on as few sheets as rows make of them, where that is asked for. */
async function nestOf(
  job: Job,
  outcomes: readonly JointOutcome[],
  options: MakeOptions,
): Promise<MachineFiles> {
  if (!(options.only ?? usualProducts).includes('nest')) return { files: [], findings: [] };
  const { nestFiles } = await import('./nest-files.js');
  const plates = outcomes.flatMap(({ joint, made }) =>
    made
      ? [
          {
            joint,
            templates: made.templates,
            labelled: (cutting: Cutting) => templatesFor(cutting, made.solved, joint, job),
          },
        ]
      : [],
  );
  return nestFiles(job, plates, options.as ?? usualFormats);
}

/** The page over all joints, where there are several and sheets for a browser are asked for. */
async function indexOf(
  job: Job,
  outcomes: readonly JointOutcome[],
  options: MakeOptions,
  files: readonly MadeFile[],
): Promise<readonly MadeFile[]> {
  const made = madeJoints(outcomes);
  const asked =
    (options.only ?? usualProducts).includes('sheet') && (options.as ?? usualFormats).includes('svg');
  if (made.length < 2 || !asked) return [];
  const { indexFile } = await import('./sheet-files.js');
  return [
    indexFile(
      job,
      made,
      files.map(({ path }) => path),
    ),
  ];
}

/** The joints that can be made, as sheets take them. */
function madeJoints(outcomes: readonly JointOutcome[]): readonly MadeJoint[] {
  return outcomes.flatMap(({ joint, made, findings }) =>
    made ? [{ joint, findings, solved: made.solved, templates: made.templates }] : [],
  );
}

type Made = NonNullable<JointOutcome['made']>;

function drawingsOf(joint: Joint, made: Made, only: readonly Product[], job: Job): readonly NamedDrawing[] {
  const say = sayIn(job.units);
  const of = (
    product: Product,
    all: () => readonly { readonly name: string; readonly drawing: Drawing }[],
  ) => (only.includes(product) ? all().map(({ name, drawing }) => ({ name, product, drawing })) : []);
  return [
    ...of('finger', () => made.templates.flatMap(writtenAs)),
    ...of('marker', () => markerOf(made.solved, joint.marker ?? {}, job.title, say, heldLabel(job))),
    ...of('pattern', () => patterns(made.solved, job.title, say)),
  ];
}

/** What the files of plates hold, for the label of a plate that has no cut to speak of. */
function heldLabel({ shop, units }: Job): string | undefined {
  const cutting = cuttingOf(shop);
  return cutting.ok ? holdingOf(cutting.value, sayIn(units)).label : undefined;
}

/** Programs and solids of the plates among the drawings; what makes them is read when they are asked for. */
async function forMachine(
  format: MachineFormat,
  drawings: readonly NamedDrawing[],
  joint: Joint,
  { solved }: Made,
  job: Job,
): Promise<MachineFiles> {
  const { machineFiles } = await import('./machine-files.js');
  const of = (wanted: Product) => drawings.filter(({ product }) => product === wanted);
  return machineFiles(format, {
    fingers: of('finger'),
    markers: of('marker'),
    joint,
    shop: job.shop,
    say: sayIn(job.units),
    labelled: (cutting) => {
      const templates = templatesFor(cutting, solved, joint, job);
      return templates.ok ? given(templates.value.flatMap(writtenAs)) : templates;
    },
  });
}

/** The same said once, however many joints and formats it holds for. */
function distinct(findings: readonly Finding[]): readonly Finding[] {
  const texts = findings.map((one) => JSON.stringify(one));
  return findings.filter((_, i) => texts.indexOf(texts[i] ?? '') === i);
}
