import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { builtCommand, contents, goodJob, workFolder, writeJob } from './command.js';

const { run } = builtCommand();
const folder = workFolder();

/** A job with its shop beside it, remarks, and one slip of each kind that a fix answers. */
const shopText = goodJob
  .slice(goodJob.indexOf('  bits:'), goodJob.indexOf('joints:'))
  .replace(/^ {2}/gm, '')
  .replace(/^/, 'units: in\n');
const job = goodJob
  .replace(/shop:\n[\s\S]*?joints:/, 'shop: ./shop.yaml   # ours\njoints:')
  .replace('width: 4-1/2', 'widht:   4-1/2  # as planed')
  .replace('tails: 3', 'tails: 9, pin: 1/2, ratio: 1.2')
  .replace('bushing: seven-sixteenths', 'bushing: seven-sixteenth  # brass');

const check = async (name: string, ...more: readonly string[]) =>
  run(['check', ...more, name], { cwd: folder });

describe('check --fix', () => {
  test('makes what is offered, in the job alone, and leaves the rest of its text as it was', async () => {
    writeJob(folder, 'shop.yaml', shopText);
    const file = writeJob(folder, 'slips.yaml', job);
    const before = await check('slips.yaml', '--json');
    const offered = JSON.parse(before.out).findings;
    expect(before.status).toBe(2);
    expect(offered.map(({ code }: { code: string }) => code).sort()).toEqual([
      'field-of-spacing',
      'key-unknown',
      'tool-unknown',
    ]);
    for (const one of offered) {
      expect(one.fixes.length).toBeGreaterThan(0);
      for (const { label } of one.fixes) expect(before.err).toContain(label);
    }
    const ended = await check('slips.yaml', '--fix', '--json');
    const data = JSON.parse(ended.out);
    expect(ended.status).toBe(0);
    expect(data.fixed.map(({ code }: { code: string }) => code)).toEqual(
      expect.arrayContaining(['key-unknown', 'field-of-spacing', 'tool-unknown']),
    );
    const tails = data.joints[0].layout.filter(({ part }: { part: string }) => part === 'tail').length;
    expect(readFileSync(file, 'utf8')).toBe(
      job
        .replace('widht', 'width')
        .replace('seven-sixteenth  #', 'seven-sixteenths  #')
        .replace('tails: 9, pin: 1/2, ratio: 1.2', `tails: ${tails}, pin: 1/2`),
    );
    expect(readFileSync(`${folder}/shop.yaml`, 'utf8')).toBe(shopText);
    expect((await check('slips.yaml')).status).toBe(0);
  });

  test('prints the same fixes as --json and the page have, one a line', async () => {
    writeJob(folder, 'many.yaml', goodJob.replace('tails: 3', 'tails: 9, pin: 1/2'));
    const data = JSON.parse((await check('many.yaml', '--json')).out);
    const labels = data.findings.flatMap(({ fixes }: { fixes: { label: string }[] }) => fixes);
    const { err } = await check('many.yaml');
    const lines = err.split('\n').filter((line) => line.startsWith('  fix: '));
    expect(labels.length).toBeGreaterThan(0);
    expect(lines.map((line) => line.replace(/^ {2}fix: | \(.*$/g, ''))).toEqual(
      labels.map(({ label }: { label: string }) => label.replace(/ \(.*$/, '')),
    );
  });

  test('leaves a shop file and what only the maker can choose, and says so', async () => {
    writeJob(folder, 'shop.yaml', shopText.replace('outside: 7/16', 'outside: 7/16/2'));
    writeJob(folder, 'left.yaml', job.replace('widht', 'width').replace('sixteenth ', 'sixteenths '));
    const before = contents(folder).get('shop.yaml');
    const ended = await check('left.yaml', '--fix');
    expect(ended.status).not.toBe(0);
    expect(ended.out).toMatch(/shop\.yaml is left as it is/);
    expect(contents(folder).get('shop.yaml')).toBe(before);
    const width = goodJob.replace('tails: half-8, pins: straight-38', 'tails: nothing, pins: straight-38');
    const file = writeJob(folder, 'choice.yaml', width);
    const choice = await check('choice.yaml', '--fix');
    expect(choice.status).toBe(2);
    expect(choice.out).toMatch(/left for you to choose/);
    expect(readFileSync(file, 'utf8')).toBe(width);
  });

  test('writes nothing to standard input, nor into what it watches', async () => {
    for (const args of [
      ['-', '--fix'],
      ['slips.yaml', '--fix', '--watch'],
    ])
      expect((await run(['check', ...args], { cwd: folder, input: goodJob })).status).toBe(2);
  });
});
