import { join } from 'node:path';
import fc from 'fast-check';
import { type Machine, madeOn, problemOn, someMachine } from '../support/machines.js';
import { problemWithJoint } from './joint.js';
import { killMakes } from './kills.js';
import { kinds } from './kinds.js';
import { memoryOver, spaceFor } from './memory.js';
import { type Mutant, mutantBench, mutantsOf } from './mutants.js';
import { pathMutantsOf, problemWithPath } from './paths.js';
import { type Failure, search } from './search.js';

/** A share of the work, which one process does. */
export interface Share {
  /** A kind of joint, or `job files`, `paths`, `memory`, `kills`. */
  readonly part: string;
  readonly count: number;
  readonly seed: number;
  /** Of so many joints one has every usual file made. */
  readonly every: number;
}

/** What a share came to. */
export interface Done {
  readonly troubles: readonly Kept[];
  /** In a few words, what was done or measured. */
  readonly said?: string;
}

/** A failure as it is kept: a file that shows it. */
export interface Kept {
  readonly trouble: string;
  readonly seed: number;
  /** Absent where no file shows it. */
  readonly name?: string;
  readonly bytes?: string;
}

export async function doShare(share: Share, root: string, command: string): Promise<Done> {
  const { part, count, seed } = share;
  const samples = join(root, 'samples');
  if (part === 'memory') return memory(count, join(samples, 'small-tray.yaml'));
  if (part === 'kills') return kills(count, command, join(samples, 'small-tray.yaml'), seed);
  if (part === 'paths') {
    const paths = pathMutantsOf([samples, join(samples, 'pictures')]);
    const found = await search(paths, problemWithPath, count, seed);
    return keep(found, 'path.json', (one) => Buffer.from(JSON.stringify(one)));
  }
  if (part === 'job files') return jobFiles(count, samples, seed);
  const jobs = kinds[part];
  if (!jobs) throw new Error(`no kind ${part}; there are ${Object.keys(kinds).join(', ')}`);
  return joints(jobs, share);
}

async function joints(jobs: fc.Arbitrary<string>, { part, count, seed, every }: Share): Promise<Done> {
  // A failure is made small toward turn 0, where every file is made: so are they all when it is tried again.
  const turns = fc.record({ text: jobs, turn: fc.nat(every - 1), machine: fc.option(someMachine) });
  const troubleWith = async ({
    text,
    turn,
    machine,
  }: {
    text: string;
    turn: number;
    machine: Machine | null;
  }) => (await problemWithJoint(text, turn === 0)) ?? (machine ? await problemOn(machine, text) : undefined);
  const found = await search(turns, troubleWith, count, seed);
  return keep(found, `${part}.yaml`, ({ text, machine }) =>
    Buffer.from(machine ? madeOn(machine, text) : text),
  );
}

async function jobFiles(count: number, samples: string, seed: number): Promise<Done> {
  const bench = mutantBench(samples);
  // What is loaded at the first call is no mutant's fault.
  await bench.warmUp();
  const found = await search<Mutant>(mutantsOf(samples), bench.troubleWith, count, seed);
  bench.end();
  return keep(found, 'mutant.json', (one) => Buffer.from(JSON.stringify(one)));
}

async function memory(makes: number, job: string): Promise<Done> {
  const { settledAfter, settled, end } = await memoryOver(makes, job);
  const said = `${mega(settled)} in use after ${settledAfter} makes, ${mega(end)} after ${makes}`;
  return {
    said,
    troubles:
      end - settled > spaceFor(makes - settledAfter) ? [{ trouble: `memory grows: ${said}`, seed: 0 }] : [],
  };
}

async function kills(count: number, command: string, job: string, seed: number): Promise<Done> {
  const { hit, whileWriting, troubles } = await killMakes(count, command, job, seed);
  return {
    said: `${hit} came in time, ${whileWriting} of them while files were written`,
    troubles: troubles.map((trouble) => ({ trouble, seed })),
  };
}

function keep<T>(found: readonly Failure<T>[], ending: string, bytesOfOne: (value: T) => Uint8Array): Done {
  return {
    troubles: found.map(({ value, trouble, seed }) => ({
      trouble,
      seed,
      name: `${seed}.${ending}`,
      bytes: Buffer.from(bytesOfOne(value)).toString('base64'),
    })),
  };
}

function mega(bytes: number): string {
  return `${(bytes / 1e6).toFixed(2)} MB`;
}
