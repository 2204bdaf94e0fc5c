import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { readJob } from '../../src/input/read-job.js';
import type { Job } from '../../src/input/types.js';
import { families } from '../../src/joints/list.js';
import type { MadeFile } from '../../src/outputs/artifact.js';
import { type JointOutcome, solveJob } from '../../src/outputs/joint.js';
import { makeFiles } from './made.js';

/** Jobs as tests use them: text in, outcomes and written files out, by the same door as the command. */

export const root = new URL('../../', import.meta.url).pathname;

export function readText(text: string, name = 'job.yaml'): Job {
  const { result, units } = readJob({ name, text }, families, (path) =>
    existsSync(join(root, 'samples', path)) ? readFileSync(join(root, 'samples', path), 'utf8') : undefined,
  );
  if (result.ok) return result.value;
  throw new Error(
    result.diagnostics.map((one) => `${one.at}: ${sentence(one, formatterFor(units))}`).join('\n'),
  );
}

/** A dovetail cut by hand: no bits, no bushing, so no templates. */
export const cutByHand = `units: mm
joints:
  corner:
    kind: through-dovetail
    width: 100
    slope: 1:8
    boards: { tails: { thickness: 12 }, pins: { thickness: 12 } }
`;

export function readSample(name: string): Job {
  return readText(readFileSync(join(root, 'samples', name), 'utf8'), name);
}

/** The one joint of a job, solved or refused. */
export function solveOnly(job: Job): JointOutcome {
  const [outcome] = solveJob(job);
  if (!outcome) throw new Error('the job has no joint');
  return outcome;
}

export function codesOf(outcome: JointOutcome, level?: string): readonly string[] {
  return outcome.diagnostics
    .filter((one) => level === undefined || one.level === level)
    .map((one) => one.code);
}

/** The DXF files of a job by their path. */
export async function makeDxf(job: Job): Promise<ReadonlyMap<string, string>> {
  return textFiles(await makeFiles(job, solveJob(job), { as: ['dxf'] }));
}

function textFiles(files: readonly MadeFile[]): ReadonlyMap<string, string> {
  return new Map(
    files.flatMap(({ path, content }) => (typeof content === 'string' ? [[path, content]] : [])),
  );
}

/** Millimetres of so many inches: exactly 25.4 each (NBS Circular 572, addendum, 1959). */
export const inch = (inches: number): number => inches * 25.4;
