import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { wordings } from '../../src/diagnostics/codes.js';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { readJob } from '../../src/input/read-job.js';
import { editYaml } from '../../src/input/yaml/edit-yaml.js';
import { families } from '../../src/joints/list.js';
import { fixesFor } from '../../src/joints/search/fixes.js';
import { solveJob } from '../../src/outputs/joint.js';
import { badFiles } from '../input/bad-files.js';
import { root } from '../support/jobs.js';
import { moreProblems } from '../support/more-troubles.js';
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
];

function ask({ text, files }: Asked) {
  const reading = readJob({ name: 'cabinet/tray.yaml', text }, families, (path) => {
    return files[path] ?? files[path.replace(/^cabinet\//, '')];
  });
  const { result, units, readable } = reading;
  const diagnostics = result.ok
    ? solveJob(result.value).flatMap((one) => one.diagnostics)
    : result.diagnostics;
  const fixes = fixesFor({ text, units, known: families, ...(readable && { job: readable }) });
  return { diagnostics: [...(result.ok ? result.diagnostics : []), ...diagnostics], reads: result.ok, fixes };
}

const isSame = (one: Diagnostic) => (other: Diagnostic) => one.code === other.code && one.at === other.at;
const refusals = (diagnostics: readonly Diagnostic[]) =>
  diagnostics.filter(({ level }) => level === 'refused').length;

const raised = new Set<string>();
const wrong: string[] = [];
let offered = 0;

beforeAll(() => {
  for (const job of jobs) {
    const before = ask(job);
    for (const one of before.diagnostics) {
      raised.add(one.code);
      for (const { label, edits } of before.fixes(one)) {
        offered += 1;
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
});

/**
 * Codes that no job above raises and no test names; most are raised by tests that look at numbers or words alone. The
 * list may only get shorter: a code that is raised or named must leave it.
 */
const UNRAISED: readonly string[] = [
  'tails-held',
  'kit-none',
  'bushing-would-do',
  'layout-fitted',
  'half-pin-over-half-pitch',
  'rabbet-through',
  'lip-set-up',
  'svg-no-line',
  'svg-id-twice',
  'svg-id-no-line',
  'svg-transform-unread',
  'svg-transform-flat',
  'svg-unsized',
  'line-many',
  'line-steep',
  'bend-nearly-tight',
  'gap-narrow',
  'bump-tight',
  'neck-thin',
  'plate-thin',
  'board-short',
  'plate-in-parts',
  'bit-cannot-reach',
  'plate-in-bed-parts',
  'holes-for-mill',
  'label-no-room',
  'measured-none',
  'refit-looser',
  'refit-unexplained',
  'refit-depth',
  'refit-board-depth',
  'refit-template',
  'piece-size-missing',
  'align-chain',
  'align-kind',
  'align-off',
  'align-done',
  'joint-tight',
  'end-proud',
  'face-proud',
  'face-shy',
  'shoulders-open',
  'sockets-deep',
  'layout-uncut',
  'cut-through-face',
  'cut-into-lip',
  'cut-into-fence',
  'cut-into-plate',
  'cut-finger-thin',
  'tolerance-shares',
  'testcut-by-hand',
  'factor-range',
  'factors-at-page',
  'shop-elsewhere',
  'printer-no-shop',
];

describe('codes', () => {
  test('each is raised by a job above, or named where another test raises it', () => {
    const tests = readdirSync(join(root, 'tests'), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.test.ts') && !name.endsWith('raised.test.ts'))
      .map((name) => readFileSync(join(root, 'tests', name), 'utf8'))
      .join('\n');
    const missing = Object.keys(wordings).filter(
      (code) => !raised.has(code) && !new RegExp(`['"\`]${code}['"\`]`).test(tests),
    );
    expect(missing.sort()).toEqual([...UNRAISED].sort());
  });
});
