import { sentence } from '../src/findings/catalogue.js';
import { didYouMean } from '../src/findings/did-you-mean.js';
import { type Finding, isRefused, type Level } from '../src/findings/finding.js';
import { formatFinding } from '../src/findings/format.js';
import { sayIn } from '../src/findings/say.js';
import { readJob } from '../src/job/read-job.js';
import type { Job } from '../src/job/types.js';
import { families } from '../src/joints/list.js';
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
  /** What is wrong and what would do. */
  readonly text: string;
  /** The same on one line with its place: `file:line:column: key: text`. */
  readonly full: string;
}

/** Reads and solves a job file, all of it or the joint named, and plans its files where `planned` says how. `reads` hears of every file before it is read. */
export async function solveFile(
  path: string,
  joint: string | undefined,
  reads: (path: string) => void,
  planned?: (job: Job, outcomes: readonly JointOutcome[]) => Promise<Plan>,
): Promise<SolvedFile> {
  if (path !== '-') reads(path);
  const input = path === '-' ? await readStandardInput() : readTextFile(path);
  const file = displayName(path);
  if (!input.ok) return stopped([general(file, 'file-unreadable', `cannot read it: ${input.problem}`)]);
  const read = readJob({ name: file, text: input.text }, families, (included) => {
    reads(included);
    const text = readTextFile(included);
    return text.ok ? text.text : undefined;
  });
  const say = sayIn(read.units);
  const remark = (one: Finding): Remark => {
    const { code, level, at } = one;
    const place = read.locate(at);
    return {
      code,
      level,
      at,
      ...(place ?? { file }),
      text: sentence(one, say),
      full: formatFinding(one, read.locate, say),
    };
  };
  const found = read.result.findings.map(remark);
  if (!read.result.ok) return stopped(found);
  const job = read.result.value;
  const unknown = joint === undefined ? undefined : unknownJoint(joint, job);
  if (unknown !== undefined) return stopped([...found, general(file, 'joint-unknown', unknown)]);
  const drawn = solveJob(job, joint);
  const plan = await planned?.(job, drawn);
  const outcomes = plan?.joints ?? drawn;
  const said = plan?.diagnostics ?? outcomes.flatMap(({ findings }) => findings);
  return {
    code: outcomes.every(({ made }) => made) && !isRefused(said) ? exit.done : exit.refused,
    job,
    outcomes,
    ...(plan && { plan }),
    remarks: [...found, ...said.map(remark)],
  };
}

function stopped(remarks: readonly Remark[]): SolvedFile {
  return { code: exit.misuse, outcomes: [], remarks };
}

/** A remark that concerns the whole file. */
function general(file: string, code: string, text: string): Remark {
  return { code, level: 'refused', at: '', file, text, full: `${file}: ${text}` };
}

function unknownJoint(name: string, job: Job): string | undefined {
  const names = job.joints.map((joint) => joint.name);
  if (names.includes(name)) return undefined;
  const near = didYouMean(name, names);
  const hint = near === undefined ? `it has ${names.join(', ')}` : `did you mean ${near}?`;
  return `there is no joint called ${JSON.stringify(name)} in this job; ${hint}`;
}
