import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { wordings } from '../../src/diagnostics/codes.js';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { readJob } from '../../src/input/read-job.js';
import type { Job } from '../../src/input/types.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import { fixesFor } from '../../src/joints/search/fixes.js';
import { betterBushings } from '../../src/outputs/better-bushings.js';
import { solveJob } from '../../src/outputs/joint.js';
import { badFiles } from '../input/bad-files.js';
import { root } from '../support/jobs.js';
import { moreProblems } from '../support/more-troubles.js';
import { raisedActs } from '../support/raised-acts.js';
import { raisedJobs } from '../support/raised-jobs.js';
import { others, problems, refusedLayouts } from '../support/troubled-jobs.js';

/** Every code of the catalogue is raised somewhere in the tests, and every fix offered here answers its diagnostic. */

interface Asked {
  readonly text: string;
  readonly files: Readonly<Record<string, string>>;
}

const jobs: readonly Asked[] = [
  ...badFiles.map(({ text, shop }) => ({ text, files: shop ? { [shop.path]: shop.text } : {} })),
  ...problems.map(({ text }) => ({ text, files: others })),
  ...refusedLayouts.map(([text]) => ({ text, files: {} })),
  ...moreProblems.map((text) => ({ text, files: others })),
  ...raisedJobs.map(({ text, files = {} }) => ({ text, files })),
];

function ask({ text, files }: Asked) {
  const reading = readJob({ name: 'cabinet/tray.yaml', text }, families, (path) => {
    return files[path] ?? files[path.replace(/^cabinet\//, '')];
  });
  const { result, units, readable } = reading;
  const diagnostics = result.ok ? ofJoints(result.value) : result.diagnostics;
  const fixes = fixesFor({ text, units, known: families, ...(readable && { job: readable }) });
  return { diagnostics: [...(result.ok ? result.diagnostics : []), ...diagnostics], reads: result.ok, fixes };
}

/** What is said of the joints, and of the bushings that would mend their plates. */
const ofJoints = (job: Job): readonly Diagnostic[] =>
  solveJob(job).flatMap((one) => [...one.diagnostics, ...betterBushings(job, one)]);

const isSame = (one: Diagnostic) => (other: Diagnostic) => one.code === other.code && one.at === other.at;
const refusals = (diagnostics: readonly Diagnostic[]) =>
  diagnostics.filter(({ level }) => level === 'refused').length;

const raised = new Set<string>();
const wrong: string[] = [];
const offering = new Set<string>();
let offered = 0;

beforeAll(() => {
  for (const job of jobs) {
    const before = ask(job);
    for (const one of before.diagnostics) {
      raised.add(one.code);
      for (const { label, edits } of before.fixes(one)) {
        offered += 1;
        offering.add(one.code);
        const after = ask({ ...job, text: editYaml(job.text, edits) });
        const place = `${one.code} at ${one.at}: ${label}`;
        if (after.diagnostics.some(isSame(one))) wrong.push(`${place} leaves it`);
        if (before.reads && !after.reads) wrong.push(`${place} can't be read`);
        if (before.reads === after.reads && refusals(after.diagnostics) > refusals(before.diagnostics))
          wrong.push(`${place} brings more`);
      }
    }
  }
}, 600_000);

describe('fixes', () => {
  test('each that is offered, applied to the job that raised it, answers it and brings no other', () => {
    expect(wrong).toEqual([]);
    expect(offered).toBeGreaterThan(100);
  });

  test('each code that has some offers one here', () => {
    const withFixes = Object.entries(wordings).filter(([, entry]) => typeof entry !== 'function');
    expect(withFixes.map(([code]) => code).filter((code) => !offering.has(code))).toEqual([]);
  });
});

describe('codes', () => {
  test.each(raisedJobs)('$code is raised by its job', ({ code, text, files = {} }) => {
    expect(ask({ text, files }).diagnostics.map((one) => one.code)).toContain(code);
  });

  test.each(raisedActs)('$code is raised by what is done', async ({ code, raise }) => {
    const codes = (await raise()).map((one) => one.code);
    expect(codes).toContain(code);
  });

  test('each is raised by a row above, or named where another test raises it', () => {
    const tests = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.test.ts') && !name.endsWith('raised.test.ts'))
      .map((name) => readFileSync(join(root, 'tests', name), 'utf8'))
      .join('\n');
    const rows = new Set(raisedActs.map(({ code }) => code));
    const missing = Object.keys(wordings).filter(
      (code) => !raised.has(code) && !rows.has(code) && !new RegExp(`['"\`]${code}['"\`]`).test(tests),
    );
    expect(missing).toEqual([]);
  });
});
