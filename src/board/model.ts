import type { Document } from 'yaml';
import { sentence } from '../findings/catalogue.js';
import type { Finding } from '../findings/finding.js';
import type { Fix } from '../findings/fix.js';
import { type Say, sayIn } from '../findings/say.js';
import { keysAt, parseYaml } from '../job/edit-yaml.js';
import { besideFile } from '../job/file-path.js';
import { type JobReading, jointOf, readJob } from '../job/read-job.js';
import type { Job, Joint } from '../job/types.js';
import type { SolvedJoint } from '../joints/family.js';
import { fixesFor } from '../joints/fixes.js';
import { families } from '../joints/list.js';
import { solveAligned } from '../outputs/joint.js';

/** What the page knows of a job's text at once, between a key press and the next picture: read and laid out. */
export interface Model {
  readonly document: Document;
  readonly reading: JobReading;
  readonly say: Say;
  /** Names of the joints in the order of the file, as far as the text can be read. */
  readonly names: readonly string[];
  /** The joint on the bench, also while it cannot be read; '' where the text names none. */
  readonly chosen: string;
  /** The job without the joints that could not be read: one bad joint leaves the others alive. */
  readonly job?: Job;
  readonly joint?: Joint;
  /** The joint's layout; absent while it is refused. */
  readonly solved?: SolvedJoint;
  /** What the reader has to say of the joint on the bench and of what all joints share. */
  readonly read: readonly Finding[];
  /** The same, and what the joint's own solver has to say. */
  readonly findings: readonly Finding[];
  /** What of the job's text answers a finding. */
  readonly fixes: (one: Finding) => readonly Fix[];
  /** A file that the job names and that is not at hand. */
  readonly wanted?: string;
}

/** The files at hand: the job and what lies beside it, by path as seen from the job's folder. */
export interface Texts {
  readonly name: string;
  readonly text: string;
  readonly others: Readonly<Record<string, string>>;
}

/** `asked` is the joint to be on the bench; the first where there is none of that name. */
export function modelOf(texts: Texts, asked: string | undefined): Model {
  const document = parseYaml(texts.text);
  let wanted: string | undefined;
  const reading = readJob({ name: texts.name, text: texts.text }, families, (path) => {
    const text = otherText(texts, path);
    if (text === undefined) wanted = path;
    return text;
  });
  const names = jointNames(document);
  const chosen = asked !== undefined && names.includes(asked) ? asked : (names[0] ?? '');
  const job = reading.readable;
  const joint = job?.joints.find(({ name }) => name === chosen);
  const solved = job && joint && solveAligned(joint, job);
  // What is said of another joint stands on its own bench; its tab says that there is something.
  const read = reading.result.findings.filter((one) => [undefined, chosen].includes(jointOf(one, names)));
  return {
    document,
    reading,
    say: sayIn(reading.units),
    names,
    chosen,
    ...(wanted === undefined ? {} : { wanted }),
    ...(job ? { job } : {}),
    ...(joint ? { joint } : {}),
    ...(solved?.ok ? { solved: solved.value } : {}),
    read,
    findings: [...read, ...(solved?.findings ?? [])],
    fixes: fixesFor({
      text: texts.text,
      document,
      units: reading.units,
      known: families,
      ...(job && { job }),
    }),
  };
}

/** Joints that are refused, as far as that is known at once: those that cannot be read, and the one on the bench. */
export function refusedAtOnce({ names, chosen, job, solved }: Model): readonly string[] {
  if (!job) return [];
  const read = new Set(job.joints.map(({ name }) => name));
  return names.filter((name) => !read.has(name) || (name === chosen && !solved));
}

/** A file beside the job, by its path or, for files picked by hand, by its bare name. */
export function otherText({ others }: Texts, path: string): string | undefined {
  const bare = path.split(/[/\\]/).at(-1) ?? path;
  return others[path] ?? others[besideFile('', path)] ?? others[bare];
}

export function textOf(one: Finding, say: Say): string {
  return sentence(one, say);
}

function jointNames(document: Document): readonly string[] {
  return document.errors.length > 0 ? [] : keysAt(document, ['joints']);
}
