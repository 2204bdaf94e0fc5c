import fc from 'fast-check';
import { expect, test } from 'vitest';
import { replay } from '../../src/cam/program/interpreter.js';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readText } from '../support/jobs.js';
import { judgeFiles, makeFiles } from '../support/made.js';
import { boxJobs, throughDovetailJobs } from '../support/random-jobs.js';
import { readStl, unmatchedEdges } from '../writers/solid-read.js';

/** Plates of any job that can be made: programs that replay without a fault (else makeFiles throws), closed solids. */
const machines = fc.record({
  cutter: fc.constantFrom(1.5, 2, 3, 3.175, 4, 6, 6.35, 8),
  relief: fc.constantFrom('corner', 'edge', 'none'),
  direction: fc.constantFrom('climb', 'conventional'),
  pass: fc.constantFrom(1, 3, 20),
  tabs: fc.constantFrom(0, 1, 4, 7).map((count) => ({ count })),
});

test('any plate is milled and printed, or refused with a reason', { timeout: 180_000 }, async () => {
  let milled = 0;
  await fc.assert(
    fc.asyncProperty(fc.oneof(throughDovetailJobs, boxJobs), machines, async (text, machine) => {
      const read = readText(text);
      const job: Job = {
        ...read,
        shop: {
          ...read.shop,
          cnc: { rpm: 1000, feed: 1000, plunge: 300, ...machine },
          print: { ease: 0.3, holeGrowth: 0.1 },
        },
      };
      const outcomes = solveJob(job);
      const options = { only: ['finger'], as: ['gcode', 'stl'] } as const;
      const refused = (await judgeFiles(job, outcomes, options)).filter(({ level }) => level === 'refused');
      const files = await makeFiles(job, outcomes, options);
      const templates = outcomes.flatMap(({ made }) => made?.templates ?? []);
      const programs = files.filter(({ path }) => path.endsWith('.ngc'));
      // The plates of a joint are made together: a reason against one stops the others too.
      if (refused.length === 0) expect(programs.length).toBeGreaterThanOrEqual(templates.length);
      else expect(refused.every(({ at }) => at !== '')).toBe(true);
      for (const { content } of programs) expect(replay(String(content)).radiusError).toBeLessThan(0.002);
      for (const { path, content } of files) {
        if (path.endsWith('.stl')) expect(unmatchedEdges(readStl(content as Uint8Array))).toEqual([]);
      }
      milled += programs.length;
    }),
    { numRuns: 40 },
  );
  // Most plates can be milled, or nothing was looked at.
  expect(milled).toBeGreaterThan(30);
});
