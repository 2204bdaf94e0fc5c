import { sentence } from '../src/diagnostics/catalogue.js';
import { type Diagnostic, hasErrors, type Level } from '../src/diagnostics/diagnostic.js';
import { didYouMean } from '../src/diagnostics/did-you-mean.js';
import type { Fix } from '../src/diagnostics/fix.js';
import { formatDiagnostic } from '../src/diagnostics/format.js';
import { formatterFor } from '../src/diagnostics/formatter.js';
import { readJob } from '../src/input/read-job.js';
import type { Job } from '../src/input/types.js';
import { families } from '../src/joints/list.js';
import { fixesFor } from '../src/joints/search/fixes.js';
import { betterBushings } from '../src/outputs/better-bushings.js';
import { type JointOutcome, solveJob } from '../src/outputs/joint.js';
import type { Plan } from '../src/outputs/plan.js';
import { type ExitCode, exit } from './exit.js';
import { displayName, readStandardInput, readTextFile } from './input.js';

/** A job file as far as it got: read, solved, or why not. Nothing is printed here. */
export interface SolvedFile {
  readonly code: ExitCode;
  /** Absent when the file could not be read as a job. */
  readonly job?: Job;
  readonly outcomes: readonly JointOutcome[];
  /** Where one was asked for. */
  readonly plan?: Plan;
  readonly remarks: readonly Remark[];
}

/** Something to say about the job, with its place in the file where it has one. */
export interface Remark {
  readonly code: string;
  readonly level: Level;
  readonly at: string;
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  /** The numbers and names that the sentence is made of: mm, radians. */
  readonly data: object;
  /** Changes to the job's text that answer it, best first. */
  readonly fixes: readonly Fix[];
  /** What is wrong and what works. */
  readonly text: string;
  /** The same on one line with its place: `file:line:column: key: text`. */
  readonly full: string;
}

/** How the files of a solved job are planned. */
export type Planned = (job: Job, outcomes: readonly JointOutcome[]) => Promise<Plan>;

/** As `make` plans and proves them when nothing special is asked for. */
export const asMakePlans: Planned = async (job, outcomes) => {
  const { planOf, prove } = await import('../src/outputs/plan.js');
  return prove(await planOf(job, outcomes));
};

/** Reads and solves a job file, all of it or the joint named, and plans its files where `planned` says how. `reads` hears of every file before it is read. */
export async function solveFile(
  path: string,
  joint: string | undefined,
  reads: (path: string) => void,
  planned?: Planned,
): Promise<SolvedFile> {
  if (path !== '-') reads(path);
  const input = path === '-' ? await readStandardInput() : readTextFile(path);
  const file = displayName(path);
  if (!input.ok) return stopped([general(file, 'file-unreadable', `cannot read it: ${input.problem}`)]);
  return solveText({ file, text: input.text }, joint, reads, planned);
}

/** The same of a job's text that is at hand; `file` is its name, from which paths in it start. */
export async function solveText(
  { file, text }: { readonly file: string; readonly text: string },
  joint: string | undefined,
  reads: (path: string) => void,
  planned?: Planned,
): Promise<SolvedFile> {
  const read = readJob({ name: file, text }, families, (included) => {
    reads(included);
    const other = readTextFile(included);
    return other.ok ? other.text : undefined;
  });
  const fmt = formatterFor(read.units);
  const fixes = fixesFor({
    text,
    units: read.units,
    known: families,
    ...(read.readable && { job: read.readable }),
  });
  const remark = (one: Diagnostic): Remark => {
    const { code, level, at } = one;
    const place = read.locate(at);
    return {
      code,
      level,
      at,
      ...(place ?? { file }),
      data: one.data,
      fixes: fixes(one),
      text: sentence(one, fmt),
      full: formatDiagnostic(one, read.locate, fmt),
    };
  };
  const found = read.result.diagnostics.map(remark);
  if (!read.result.ok) return stopped(found);
  const job = read.result.value;
  const unknown = joint === undefined ? undefined : unknownJoint(joint, job);
  if (unknown !== undefined) return stopped([...found, general(file, 'joint-unknown', unknown)]);
  const drawn = solveJob(job, joint);
  const plan = await planned?.(job, drawn);
  const outcomes = plan?.joints ?? drawn;
  const said = plan?.diagnostics ?? outcomes.flatMap(({ diagnostics }) => diagnostics);
  return {
    code: outcomes.every(({ made }) => made) && !hasErrors(said) ? exit.done : exit.refused,
    job,
    outcomes,
    ...(plan && { plan }),
    remarks: [...found, ...[...said, ...outcomes.flatMap((one) => betterBushings(job, one))].map(remark)],
  };
}

function stopped(remarks: readonly Remark[]): SolvedFile {
  return { code: exit.misuse, outcomes: [], remarks };
}

/** A remark that concerns the whole file. */
function general(file: string, code: string, text: string): Remark {
  return { code, level: 'refused', at: '', file, data: {}, fixes: [], text, full: `${file}: ${text}` };
}

function unknownJoint(name: string, job: Job): string | undefined {
  const names = job.joints.map((joint) => joint.name);
  if (names.includes(name)) return undefined;
  const near = didYouMean(name, names);
  const hint = near === undefined ? `it has ${names.join(', ')}` : `did you mean ${near}?`;
  return `there is no joint called ${JSON.stringify(name)} in this job; ${hint}`;
}
