import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, expect, test } from 'vitest';
import { inProcess } from '../soak/command-in-process.js';
import { kinds } from '../soak/kinds.js';
import { extreme } from '../support/extreme-jobs.js';

/** `check` and `make` never disagree, however a job is pushed: both end alike, and for the same reasons. */

const folder = mkdtempSync(join(tmpdir(), 'halfpin-check-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SEED = 20261202;
const RUNS = 30;

interface Reported {
  readonly findings: readonly { readonly code: string; readonly level: string; readonly at: string }[];
}

test('what check passes, make makes, and what it refuses, make refuses', async () => {
  const job = join(folder, 'job.yaml');
  const ended = { 0: 0, 1: 0, 2: 0 } as Record<number, number>;
  const say = async (
    ...args: readonly string[]
  ): Promise<{ status: number; diagnostics: Reported['findings'] }> => {
    const { status, out } = await inProcess([...args, '--json']);
    const { findings } = JSON.parse(out) as Reported;
    return { status, diagnostics: findings.filter(({ level }) => level === 'refused') };
  };
  const jobs = fc.oneof(...Object.values(kinds).map(extreme));
  await fc.assert(
    fc.asyncProperty(jobs, async (text) => {
      writeFileSync(job, text);
      const checked = await say('check', job);
      const made = await say('make', job, '-o', join(folder, 'out'), '--force');
      expect(checked).toEqual(made);
      ended[made.status] = (ended[made.status] ?? 0) + 1;
    }),
    { numRuns: RUNS, seed: SEED },
  );
  // Not vacuous: some are made, and some are refused.
  expect(ended[0]).toBeGreaterThan(RUNS / 10);
  expect(ended[1]).toBeGreaterThan(RUNS / 10);
}, 600_000);
