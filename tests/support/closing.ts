import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCut } from '../../src/verify/assemble.js';
import { type ReportedJoint, requestOf, type WrittenFile } from '../../src/verify/files/from-report.js';
import { CLOSED_WITHIN } from '../../src/verify/judge.js';
import { settled } from './hand-testcut.js';
import { howMany } from './long.js';
import { makeFiles } from './made.js';
import { JOINT } from './random-jobs.js';

/**
 * Random jobs from the text of the job file to the closed joint: read, solved, compensated, written to DXF,
 * read back, cut on paper by another polygon library, assembled. What is left over is the slack asked for.
 */

/** Jobs to be cut of each kind, and how many more are drawn, for those that are refused. */
const WANTED = howMany(300, 40);
const SPARE = howMany(40, 20);

/** Ample for a busy machine, ms: some 50 ms a job when it is idle. */
const TIME = 900_000;

/** The same jobs each time, so that a failure comes back; change it to look elsewhere. */
const SEED = 20261125;

/** The property, for one kind of joint. */
export function expectToClose(kind: string, jobs: fc.Arbitrary<string>, wanted = WANTED): void {
  test(
    `the closed joint has no gap or overlap of 0.005 mm beyond its slack: ${kind}`,
    async () => {
      const refusals: string[] = [];
      let cut = 0;
      await fc.assert(
        fc.asyncProperty(jobs, async (text) => {
          const closed = await closedJoint(text);
          if (typeof closed === 'string') {
            refusals.push(closed);
            return;
          }
          cut += 1;
          expect(closed.levels).toHaveLength(9);
          expect(closed.worstOverlap).toBeLessThan(CLOSED_WITHIN);
          expect(closed.worstGap - closed.slack / 2).toBeLessThan(CLOSED_WITHIN);
          // No level's gap goes unseen, nor is the joint tighter anywhere than asked.
          for (const { gap } of closed.levels) {
            expect(gap).toBeGreaterThan(closed.slack / 2 - CLOSED_WITHIN);
          }
          const placed = closed.way === 'placed';
          if (!placed) expect(closed.tightest?.play).toBeGreaterThan(closed.slack - CLOSED_WITHIN);
          for (const { glueLines } of placed ? closed.sections : []) {
            expect(glueLines.length).toBeGreaterThan(0);
            for (const { gap } of glueLines) expect(gap).toBeGreaterThan(closed.slack / 2 - CLOSED_WITHIN);
          }
        }),
        // A job is short enough to be read as it is.
        { numRuns: wanted + SPARE, seed: SEED, endOnFailure: true },
      );
      // Not vacuous: most jobs can be cut, and those that cannot are refused for a reason.
      expect(cut, refusals.join('\n')).toBeGreaterThanOrEqual(wanted);
    },
    TIME,
  );
}

/** The joint of a job, cut and closed on paper; of a job that is refused, the codes of its reasons. */
async function closedJoint(text: string) {
  const { result } = readJob({ name: 'random.yaml', text }, families, () => undefined);
  if (!result.ok) return codesOf(result.diagnostics);
  const outcomes = solveJob(result.value);
  const [outcome] = outcomes;
  if (!outcome?.made) return codesOf(outcome?.diagnostics ?? []);
  const files = await makeFiles(result.value, outcomes, { only: ['finger'], as: ['dxf'] });
  const texts: WrittenFile[] = files.map(({ path, content }) => ({
    name: path.replace(`${JOINT}/`, ''),
    text: typeof content === 'string' ? content : '',
  }));
  const report = texts.find(({ name }) => name === 'report.json');
  const joint = JSON.parse(report?.text ?? '{}') as ReportedJoint;
  return {
    ...settled(testCut(settled(requestOf(joint, texts)))),
    slack: outcome.joint.slack,
  };
}

function codesOf(diagnostics: readonly Diagnostic[]): string {
  return diagnostics
    .filter(({ level }) => level === 'refused')
    .map(({ code }) => code)
    .join(' ');
}
