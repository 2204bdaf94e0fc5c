import type { Drawing, Layer } from './drawing/model.js';
import { type Finding, isRefused } from './findings/finding.js';
import { type Say, sayIn } from './findings/say.js';
import type { Job, Joint } from './job/types.js';
import type { SolvedJoint } from './joints/family.js';
import { familyOf } from './joints/list.js';
import { markerOf } from './pattern/marker.js';
import { patterns } from './pattern/pattern.js';
import { type Report, reportOf } from './report.js';
import { type FingerTemplate, fingerTemplates } from './template/finger-template.js';
import { type Format, loadWriter } from './writers/list.js';

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

/** What `make` can draw. */
export const products = ['finger', 'marker', 'pattern'] as const;
export type Product = (typeof products)[number];

/** Formats in which a drawing can be written. */
export const formats: readonly Format[] = ['svg', 'dxf', 'pdf'];

export interface MakeOptions {
  readonly only?: readonly Product[];
  readonly as?: readonly Format[];
}

/** A file to be written: its path below the output folder, with forward slashes, and all of its content. */
export interface MadeFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** Solves and judges every joint of a job, or the one named. Writes nothing. */
export function solveJob(job: Job, only?: string): readonly JointOutcome[] {
  return job.joints
    .filter((joint) => only === undefined || joint.name === only)
    .map((joint) => solveJoint(joint, job));
}

function solveJoint(joint: Joint, job: Job): JointOutcome {
  const family = familyOf(joint.kind);
  if (!family) throw new Error(`no joint family for kind ${joint.kind}`);
  const say = sayIn(job.units);
  const solved = family.solve(joint, job.shop);
  if (!solved.ok) return { joint, findings: solved.findings };
  const templates = fingerTemplates(solved.value, { jobTitle: job.title, joint, shop: job.shop, say });
  const findings = [...solved.findings, ...templates.findings];
  if (!templates.ok || isRefused(findings)) return { joint, findings };
  const report = reportOf(solved.value, templates.value, findings, job.shop, say);
  return { joint, findings, made: { solved: solved.value, templates: templates.value, report } };
}

/** Every file of the joints that can be made, in a fixed order. Refused joints give none. */
export async function makeFiles(
  job: Job,
  outcomes: readonly JointOutcome[],
  options: MakeOptions = {},
): Promise<readonly MadeFile[]> {
  const say = sayIn(job.units);
  const files = await Promise.all(outcomes.map((outcome) => filesOfJoint(job, outcome, options, say)));
  return files.flat();
}

async function filesOfJoint(
  job: Job,
  { joint, made }: JointOutcome,
  options: MakeOptions,
  say: Say,
): Promise<readonly MadeFile[]> {
  if (!made) return [];
  const drawings = drawingsOf(joint, made, options.only ?? products, job, say);
  const written = await writeDrawings(job, joint.name, drawings, options.as ?? formats);
  return [
    ...written,
    { path: `${joint.name}/report.json`, content: `${JSON.stringify(made.report, null, 2)}\n` },
  ];
}

function drawingsOf(
  joint: Joint,
  made: NonNullable<JointOutcome['made']>,
  only: readonly Product[],
  job: Job,
  say: Say,
): readonly { readonly name: string; readonly drawing: Drawing }[] {
  const fingers = made.templates.map(({ plate, drawing }) => ({ name: plate.name, drawing }));
  return [
    ...(only.includes('finger') ? fingers : []),
    ...(only.includes('marker') ? markerOf(made.solved, joint.marker ?? {}, job.title, say) : []),
    ...(only.includes('pattern') ? patterns(made.solved, job.title, say) : []),
  ];
}

async function writeDrawings(
  job: Job,
  folder: string,
  drawings: readonly { readonly name: string; readonly drawing: Drawing }[],
  as: readonly Format[],
): Promise<readonly MadeFile[]> {
  const options = {
    ...job.shop.printer,
    colours: job.shop.colours as Readonly<Record<Layer, string>>,
  };
  const files: MadeFile[] = [];
  for (const format of as) {
    const writer = await loadWriter(format);
    for (const { name, drawing } of drawings) {
      files.push({
        path: `${folder}/${name}.${writer.extension}`,
        content: await writer.write(drawing, options),
      });
    }
  }
  return files;
}
