import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { builtCommand, goodJob, listing, workFolder, writeJob } from './command.js';

/** Characters that move a cursor or turn the direction of reading reach no terminal and no page. */

const UNSHOWN = /[\p{Cc}\u2028-\u202e\u2066-\u2069]/u;
const ESC = '\\e[31m';

const said = (text: string) => text.replaceAll('\n', '');

describe('a control character', () => {
  test.each([
    ['the title', goodJob.replace(/^title: .*/, `title: "tray${ESC}"`), 'title', 'text-unfit'],
    ['a turned title', goodJob.replace(/^title: .*/, 'title: "tray \\u202egpj"'), 'title', 'text-unfit'],
    ['a bell in C1', goodJob.replace(/^title: .*/, 'title: "tray\\u009b31m"'), 'title', 'text-unfit'],
    [
      'a material',
      goodJob.replace('material: plywood', `material: "ply${ESC}"`),
      'shop.plate.material',
      'text-unfit',
    ],
    [
      "a joint's name",
      goodJob.replace('tray-corner:', `"tray${ESC}":`),
      'joints.tray\u001b[31m',
      'name-unfit',
    ],
    [
      "a bit's name",
      goodJob.replace('    half-8:', `    "half${ESC}":`),
      'shop.bits.half\u001b[31m',
      'text-unfit',
    ],
    [
      "a piece's name",
      `${goodJob}pieces:\n  "box${ESC}": { kind: box, corners: tray-corner, outside: { length: 12, width: 8, height: 4-1/2 } }\n`,
      'pieces.box\u001b[31m',
      'text-unfit',
    ],
  ])('in %s is refused where it stands', (_, text, at, code) => {
    const { result } = readJob({ name: 'tray.yaml', text }, families, () => undefined);
    expect(result.diagnostics).toContainEqual(expect.objectContaining({ at, code, level: 'refused' }));
  });

  test('leaves text in any script as it is', () => {
    const title = 'Schublade für Käfer — 標本箱 مجموعة';
    const { result } = readJob(
      { name: 'tray.yaml', text: goodJob.replace(/^title: .*/, `title: ${title}`) },
      families,
      () => undefined,
    );
    expect(result).toMatchObject({ ok: true, value: { title } });
  });
});

describe('the command', () => {
  const { run } = builtCommand();
  const work = workFolder();
  const folder = join(work, 'a\u001b[31mb');
  mkdirSync(folder);

  test.each([
    ['a title', goodJob.replace(/^title: .*/, `title: "tray${ESC}"`)],
    ['an unknown key', goodJob.replace('    bushing:', `    "bush${ESC}":`)],
    ['an unknown bit', goodJob.replace('tails: half-8', `tails: "half${ESC}"`)],
    ['an unknown kind', goodJob.replace('kind: through-dovetail', `kind: "box${ESC}"`)],
    ['an unknown shop', 'units: in\nshop: "./shop\\e[31m.yaml"\njoints: { a: { kind: box } }\n'],
    ['a length', goodJob.replace('width: 4-1/2', `width: "4${ESC}"`)],
  ])('quotes %s without it', async (name, text) => {
    const file = writeJob(work, `${name.replaceAll(' ', '-')}.yaml`, text);
    const ended = await run(['check', file]);
    expect(ended.status).toBe(2);
    expect(ended.err.length).toBeGreaterThan(20);
    expect(said(ended.err + ended.out)).not.toMatch(UNSHOWN);
  });

  test('names files and folders without it, and makes the page without it', async () => {
    const file = writeJob(folder, 'tr\u001b[31may.yaml', goodJob.replace(/^title: .*\n/, ''));
    for (const args of [
      ['check', file],
      ['make', file, '-o', join(folder, 'out'), '--only', 'sheet'],
      ['make', file, '-o', join(folder, 'out'), '--only', 'sheet'],
      ['check', join(folder, 'none\u001b[2J.yaml')],
      ['new', 'box', '-o', join(folder, 'new.yaml')],
      ['make', file, '-o', 'x', '--only', 'a\u001b[31m'],
    ]) {
      const ended = await run(args);
      expect(ended.err + ended.out).not.toBe('');
      expect(said(ended.err + ended.out), args.join(' ')).not.toMatch(UNSHOWN);
    }
    const page = listing(join(folder, 'out')).find((name) => name.endsWith('.html')) ?? '';
    expect(said(readFileSync(join(folder, 'out', page), 'utf8'))).not.toMatch(UNSHOWN);
  });
});
