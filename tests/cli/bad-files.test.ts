import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { exit } from '../../cli/exit.js';
import { solveFile } from '../../cli/job.js';
import { type BadFile, badFiles } from '../input/bad-files.js';
import { builtCommand, listing, workFolder } from './command.js';

const { run } = builtCommand();
const work = workFolder();

/** The job, and the shop file that it names, in a folder of their own. */
function layOut({ text, shop }: BadFile): { readonly folder: string; readonly job: string } {
  const folder = mkdtempSync(join(work, 'bad-'));
  const files = [{ path: 'cabinet/tray.yaml', text }, ...(shop ? [shop] : [])];
  for (const file of files) {
    mkdirSync(dirname(join(folder, file.path)), { recursive: true });
    writeFileSync(join(folder, file.path), file.text);
  }
  return { folder, job: join(folder, 'cabinet/tray.yaml') };
}

describe('a bad job file', () => {
  test.each(badFiles)('is refused with its place: $name', async (bad) => {
    const { job } = layOut(bad);
    const { code, outcomes, remarks } = await solveFile(job, undefined, () => undefined);
    expect([exit.refused, exit.misuse]).toContain(code);
    expect(outcomes).toEqual([]);
    const refusals = remarks.filter(({ level }) => level === 'refused');
    expect(refusals.length).toBeGreaterThan(0);
    for (const { full } of refusals) expect(full).toMatch(/\.yaml(:\d+:\d+)?: \S/);
  });

  /** Every few of them in a process of its own: what a person sees. */
  const tried = badFiles.filter((_, index) => index % Math.ceil(badFiles.length / 16) === 0);

  test('ends the command, writes nothing, says one thing a line and shows no stack', async () => {
    expect(tried.length).toBeGreaterThanOrEqual(12);
    for (const bad of tried) {
      const { folder, job } = layOut(bad);
      const before = listing(folder);
      const ended = await run(['make', job, '-o', join(folder, 'out')]);
      expect([1, 2], bad.name).toContain(ended.status);
      expect(ended.out).toBe('');
      expect(ended.err).toMatch(/\.yaml:\d+:\d+: /);
      expect(ended.err).not.toMatch(/\n\s+at .*:\d+:\d+|a fault in halfpin/);
      expect(listing(folder)).toEqual(before);
    }
  });
});
