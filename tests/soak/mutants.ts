import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { parse, parseDocument } from 'yaml';
import { type Ended, inProcess } from './command-in-process.js';
import { bytesOf, isUtf8, jobMutations, mutated, textMutations } from './mutations.js';
import { halfWritten } from './whole.js';

/** A sample with one of its files spoilt. */
export interface Mutant {
  /** The job that is made. */
  readonly job: string;
  /** The file that is spoilt: the job, its shop, or a drawing. */
  readonly file: string;
  readonly text: string;
  readonly formats: string;
  /** The one joint that is made; all when left out. */
  readonly joint?: string;
}

/**
 * No answer may take longer, s of the processor's time, than this beyond `MORE` times what the unspoilt job takes: a
 * good job of many joints takes its time, a spoilt number may ask for a joint several times as long (an edging of 60
 * in and not of 16), and so does a machine with other work.
 */
const MAX_SECONDS = 1;
const MORE = 10;

/** Mutants of the samples in a folder. */
export function mutantsOf(folder: string): fc.Arbitrary<Mutant> {
  const names = readdirSync(folder).filter((name) => /\.(ya?ml|svg)$/.test(name));
  const texts = new Map(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
  const jobs = names.filter((name) => /^joints:/m.test(texts.get(name) ?? ''));
  const pairs = jobs.flatMap((job) =>
    names
      .filter((name) => name === job || texts.get(job)?.includes(name))
      // The job itself, where most of the words are, is spoilt more often than what it refers to.
      .flatMap((file) =>
        file === job
          ? [
              { job, file },
              { job, file },
              { job, file },
            ]
          : [{ job, file }],
      ),
  );
  const formats = fc.constantFrom('dxf', 'dxf', 'svg', 'svg', 'pdf', 'dxf,svg', 'svg,dxf,pdf,gcode,3mf,stl');
  return fc.constantFrom(...pairs).chain(({ job, file }) =>
    fc
      .record({
        mutations: file.endsWith('.svg') ? textMutations : jobMutations,
        formats,
        joint: fc.constantFrom(...namesOf(texts.get(job) ?? '')),
        all: fc.nat(31).map((n) => n === 31),
      })
      .map(({ mutations, joint, all, ...rest }) => ({
        job,
        file,
        text: mutated(texts.get(file) ?? '', mutations),
        ...rest,
        ...(!all && { joint }),
      })),
  );
}

/** The joints of a sample. */
function namesOf(text: string): readonly string[] {
  return Object.keys((parse(text) as { readonly joints: object }).joints);
}

/** A folder with all samples, in which mutants are tried. */
export function mutantBench(samples: string) {
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-mutants-'));
  const names = readdirSync(samples).filter((name) => /\.(ya?ml|svg)$/.test(name));
  const lay = (name: string) => writeFileSync(join(folder, name), readFileSync(join(samples, name)));
  names.forEach(lay);
  const first = names.find((name) => name === 'small-tray.yaml') ?? names[0] ?? '';
  return {
    /** Loads what every mutant uses. */
    warmUp: () =>
      inProcess(['make', join(folder, first), '-o', join(folder, 'first'), '--as', 'svg,dxf,pdf']),
    async troubleWith(mutant: Mutant): Promise<string | undefined> {
      writeFileSync(join(folder, mutant.file), bytesOf(mutant.text));
      try {
        return await problemIn(folder, mutant, () => lay(mutant.file));
      } finally {
        lay(mutant.file);
        rmSync(join(folder, 'out'), { recursive: true, force: true });
      }
    },
    end: () => rmSync(folder, { recursive: true, force: true }),
  };
}

async function problemIn(folder: string, mutant: Mutant, lay: () => void): Promise<string | undefined> {
  const out = join(folder, 'out');
  const { ended, seconds } = await timed(folder, mutant);
  const trouble =
    problemSaid(ended, mutant) ?? (ended.status === 0 ? problemMade(ended, out) : problemLeft(out));
  if (trouble !== undefined || seconds <= MAX_SECONDS) return trouble;
  rmSync(out, { recursive: true, force: true });
  lay();
  const usual = await timed(folder, mutant);
  if (seconds <= MAX_SECONDS + MORE * usual.seconds) return undefined;
  return `took ${seconds.toFixed(1)} s where the unspoilt job takes ${usual.seconds.toFixed(1)} s`;
}

async function timed(folder: string, { job, formats, joint }: Mutant) {
  const only = joint === undefined ? [] : ['--joint', joint];
  const typed = ['make', join(folder, job), '-o', join(folder, 'out'), '--as', formats, '--json', '--trace'];
  const before = process.cpuUsage();
  const ended = await inProcess([...typed, ...only]);
  const { user, system } = process.cpuUsage(before);
  return { ended, seconds: (user + system) / 1e6 };
}

function problemSaid({ status, err }: Ended, { text, file }: Mutant): string | undefined {
  if (status !== 0 && status !== 1 && status !== 2) return `ended with ${status}: ${err}`;
  if (/\n\s+at .*:\d+:\d+/.test(err)) return `shows a stack: ${err}`;
  const odd = /\bundefined\b|\[object|\bNaN\b/.exec(err)?.[0];
  if (odd !== undefined && !text.toLowerCase().includes(odd.toLowerCase())) return `says ${odd}: ${err}`;
  if (status !== 0 && !/\S/.test(err)) return 'refuses without a word';
  const why = file.endsWith('.svg') ? undefined : unreadable(text);
  return status === 0 && why !== undefined ? `took a file that ${why}` : undefined;
}

/** Why nobody could read a text as a job or a shop; undefined where one might. */
function unreadable(text: string): string | undefined {
  if (!isUtf8(text)) return 'is no UTF-8';
  const read = parseDocument(text.replace(/^\ufeff/, ''));
  if (read.errors.length > 0) return `is no YAML: ${read.errors[0]?.message}`;
  try {
    const value: unknown = read.toJS();
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return 'is no map';
    return impossible(value);
  } catch (error) {
    return `cannot be unfolded: ${error}`;
  }
}

const sizes = ['width', 'thickness', 'diameter', 'outside', 'height', 'pin', 'tails', 'fingers'];

/** A number that no size can have, somewhere in a job. */
function impossible(value: object): string | undefined {
  return Object.entries(value)
    .map(([key, inner]) => {
      if (typeof inner === 'object' && inner !== null) return impossible(inner);
      if (typeof inner !== 'number') return undefined;
      if (!Number.isFinite(inner)) return `has ${key}: ${inner}`;
      return sizes.includes(key) && inner < 0 ? `has ${key}: ${inner}` : undefined;
    })
    .find((one) => one !== undefined);
}

interface Said {
  readonly status: number;
  readonly joints: readonly {
    readonly refused?: boolean;
    readonly testCut?: { readonly closed?: boolean };
  }[];
  readonly findings: readonly { readonly level: string; readonly code: string }[];
  readonly files: readonly string[];
}

/** What is wrong with a success. */
function problemMade({ out }: Ended, folder: string): string | undefined {
  const said = JSON.parse(out) as Said;
  const refused = said.findings.find(({ level }) => level === 'refused');
  if (refused) return `ends with 0 though ${refused.code} is refused`;
  if (said.joints.length === 0 || said.joints.some((joint) => joint.refused))
    return 'ends with 0 without a joint';
  const there = listing(folder);
  const lost =
    said.files.find((name) => !there.includes(name)) ?? there.find((name) => !said.files.includes(name));
  if (lost !== undefined) return `says other files than it writes: ${lost}`;
  return there.flatMap((name) => halfWritten(name, readFileSync(join(folder, name))) ?? [])[0];
}

/** What is wrong with what a refusal leaves behind. */
function problemLeft(folder: string): string | undefined {
  const there = listing(folder);
  return there.length > 0 ? `refuses and yet writes ${there.join(', ')}` : undefined;
}

/** Files below a folder, with forward slashes; none where it is not there. */
function listing(folder: string): readonly string[] {
  try {
    return readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) =>
        join(entry.parentPath, entry.name)
          .slice(folder.length + 1)
          .replaceAll('\\', '/'),
      );
  } catch {
    return [];
  }
}
