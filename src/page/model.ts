import type { Document } from 'yaml';
import { sentence } from '../diagnostics/catalogue.js';
import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Fix } from '../diagnostics/fix.js';
import { type Formatter, formatterFor } from '../diagnostics/formatter.js';
import { type JobReading, jointOf, readJob } from '../input/read-job.js';
import type { Job, Joint } from '../input/types.js';
import { keysAt, parseYaml } from '../input/yaml/edit-yaml.js';
import { besideFile } from '../input/yaml/file-path.js';
import type { SolvedJoint } from '../joints/family.js';
import { families } from '../joints/list.js';
import { fixesFor } from '../joints/search/fixes.js';
import { solveAligned } from '../outputs/joint.js';

/** What the page knows of a job's text at once, between a key press and the next picture: read and laid out. */
export interface Model {
  readonly document: Document;
  readonly reading: JobReading;
  readonly fmt: Formatter;
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
  readonly read: readonly Diagnostic[];
  /** The same, and what the joint's own solver has to say. */
  readonly diagnostics: readonly Diagnostic[];
  /** What of the job's text answers a diagnostic. */
  readonly fixes: (one: Diagnostic) => readonly Fix[];
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
  const read = reading.result.diagnostics.filter((one) => [undefined, chosen].includes(jointOf(one, names)));
  return {
    document,
    reading,
    fmt: formatterFor(reading.units),
    names,
    chosen,
    ...(wanted === undefined ? {} : { wanted }),
    ...(job ? { job } : {}),
    ...(joint ? { joint } : {}),
    ...(solved?.ok ? { solved: solved.value } : {}),
    read,
    diagnostics: [...read, ...(solved?.diagnostics ?? [])],
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

export function textOf(one: Diagnostic, fmt: Formatter): string {
  return sentence(one, fmt);
}

function jointNames(document: Document): readonly string[] {
  return document.errors.length > 0 ? [] : keysAt(document, ['joints']);
}
