import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { solveFile } from '../../cli/job.js';
import { writeAll } from '../../cli/output.js';
import { planOf, prove, renderAll } from '../../src/outputs/plan.js';

export interface Memory {
  /** Makes before the first measurement, when everything that is kept for good has been made. */
  readonly settledAfter: number;
  readonly makes: number;
  /** Bytes in use after the collector has run, then and at the end. */
  readonly settled: number;
  readonly end: number;
}

/**
 * What may be in use at the end beyond what was in use before, bytes. Node's compiled code goes on growing by 2 to 4 kB
 * a make for as long as was measured (two heap snapshots 250 makes apart: 0.4 MB of code and not one object more);
 * one kept drawing would be over 100 kB a make.
 */
export function spaceFor(makes: number): number {
  return 2e6 + 6e3 * makes;
}

/** Makes a job again and again as `make --watch` does, with all its files, in this process. */
export async function memoryOver(makes: number, job: string): Promise<Memory> {
  const { gc } = globalThis;
  if (!gc) throw new Error('node --expose-gc is wanted');
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-memory-'));
  const ours = new Set<string>();
  const settledAfter = Math.ceil(makes / 5);
  let settled = 0;
  for (let i = 1; i <= makes; i += 1) {
    await makeOnce(job, folder, ours);
    if (i === settledAfter) settled = inUse(gc);
  }
  const end = inUse(gc);
  rmSync(folder, { recursive: true, force: true });
  return { settledAfter, makes, settled, end };
}

async function makeOnce(path: string, folder: string, ours: Set<string>): Promise<void> {
  const { plan, code } = await solveFile(
    path,
    undefined,
    () => undefined,
    async (job, outcomes) => prove(await planOf(job, outcomes)),
  );
  if (!plan || code !== 0) throw new Error(`${path} cannot be made`);
  const written = await writeAll(folder, await renderAll(plan), { force: false, ours });
  if (!written.ok) throw new Error(written.problems.join('\n'));
  for (const each of written.paths) ours.add(each);
}

function inUse(gc: () => void): number {
  for (let i = 0; i < 4; i += 1) gc();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}
