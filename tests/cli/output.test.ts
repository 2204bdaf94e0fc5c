import { execFileSync } from 'node:child_process';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { exit } from '../../cli/exit.js';
import { type OutFile, writeAll } from '../../cli/output.js';
import { tarOf } from '../../cli/tar.js';
import { listing, workFolder } from './command.js';

const work = workFolder();
const fresh = { force: false };
const files: readonly OutFile[] = [
  { path: 'a/one.svg', content: 'one' },
  { path: 'a/two.pdf', content: new Uint8Array([0, 255, 7]) },
  { path: 'b/three.json', content: '{}' },
];

describe('files are written whole, all or none', () => {
  test('all of them, with nothing beside them', async () => {
    const folder = join(work, 'all');
    const written = await writeAll(folder, files, fresh);
    expect(written).toEqual({ ok: true, paths: files.map(({ path }) => join(folder, path)) });
    expect(listing(folder)).toEqual(['a/one.svg', 'a/two.pdf', 'b/three.json']);
    expect([...readFileSync(join(folder, 'a/two.pdf'))]).toEqual([0, 255, 7]);
  });

  test('one file in the way stops all, and each is named', async () => {
    const folder = join(work, 'in-the-way');
    mkdirSync(join(folder, 'b'), { recursive: true });
    writeFileSync(join(folder, 'b/three.json'), 'kept');
    const written = await writeAll(folder, files, fresh);
    expect(written).toEqual({
      ok: false,
      code: exit.refused,
      problems: [expect.stringContaining('three.json exists already')],
    });
    expect(listing(folder)).toEqual(['b/three.json']);
    expect(existsSync(join(folder, 'a'))).toBe(false);
    expect(readFileSync(join(folder, 'b/three.json'), 'utf8')).toBe('kept');
  });

  test('with force the older files are replaced', async () => {
    const folder = join(work, 'force');
    await writeAll(folder, files, fresh);
    expect((await writeAll(folder, [{ path: 'a/one.svg', content: 'new' }], { force: true })).ok).toBe(true);
    expect(readFileSync(join(folder, 'a/one.svg'), 'utf8')).toBe('new');
  });

  test('what this run wrote before may be replaced, what another wrote may not', async () => {
    const folder = join(work, 'ours');
    const first = await writeAll(folder, files.slice(0, 1), fresh);
    const ours = new Set(first.ok ? first.paths : []);
    expect((await writeAll(folder, files.slice(0, 1), { force: false, ours })).ok).toBe(true);
    writeFileSync(join(folder, 'a/two.pdf'), 'theirs');
    expect((await writeAll(folder, files, { force: false, ours })).ok).toBe(false);
  });

  test('a file where a folder should be stops all and takes back the folders made', async () => {
    const folder = join(work, 'blocked');
    mkdirSync(folder);
    writeFileSync(join(folder, 'b'), 'a file');
    const written = await writeAll(folder, files, fresh);
    expect(written.ok ? [] : written.problems).toEqual([expect.stringContaining('not a folder')]);
    expect(listing(folder)).toEqual(['b']);
    expect(existsSync(join(folder, 'a'))).toBe(false);
  });

  test('a folder of the name of a file is not touched, even with force', async () => {
    const folder = join(work, 'folder-in-place');
    mkdirSync(join(folder, 'a/one.svg'), { recursive: true });
    const written = await writeAll(folder, files, { force: true });
    expect(written.ok ? [] : written.problems).toEqual([expect.stringContaining('is a folder')]);
    expect(listing(folder)).toEqual([]);
  });

  test('a link stays a link, and what it leads to is replaced', async () => {
    const folder = join(work, 'link');
    mkdirSync(join(folder, 'real'), { recursive: true });
    mkdirSync(join(folder, 'a'));
    writeFileSync(join(folder, 'real/one.svg'), 'old');
    symlinkSync('../real/one.svg', join(folder, 'a/one.svg'));
    expect((await writeAll(folder, files, fresh)).ok).toBe(false);
    expect((await writeAll(folder, files, { force: true })).ok).toBe(true);
    expect(readlinkSync(join(folder, 'a/one.svg'))).toBe('../real/one.svg');
    expect(readFileSync(join(folder, 'real/one.svg'), 'utf8')).toBe('one');
  });

  test('a device or a pipe is never replaced, by its own name or through a link, and nothing else is written', async () => {
    const folder = join(work, 'device');
    mkdirSync(join(folder, 'b'), { recursive: true });
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    for (const [place, to] of [
      ['b/three.json', '/dev/null'],
      ['b/three.json', '../pipe'],
    ] as const) {
      rmSync(join(folder, place), { force: true });
      symlinkSync(to, join(folder, place));
      for (const force of [false, true]) {
        const written = await writeAll(folder, files, { force });
        expect(written).toMatchObject({
          ok: false,
          code: exit.misuse,
          problems: [expect.stringContaining('not a file')],
        });
      }
      expect(readlinkSync(join(folder, place))).toBe(to);
      expect(existsSync(join(folder, 'a'))).toBe(false);
    }
    expect(lstatSync('/dev/null').isCharacterDevice()).toBe(true);
    expect(lstatSync(join(folder, 'pipe')).isFIFO()).toBe(true);
    const own = await writeAll(folder, [{ path: 'pipe', content: 'x' }], { force: true });
    expect(own).toMatchObject({ ok: false, code: exit.misuse });
  });

  test('what a killed run left staged is swept, what a living one stages is not', async () => {
    const folder = join(work, 'sweep');
    mkdirSync(join(folder, 'a'), { recursive: true });
    const living = `.halfpin-${process.ppid}-1.part`;
    for (const name of ['.halfpin-4194399-1.part', living]) writeFileSync(join(folder, 'a', name), 'half');
    await writeAll(folder, files, fresh);
    expect(listing(join(folder, 'a'))).toEqual([living, 'one.svg', 'two.pdf']);
  });

  test('a path out of the folder is a fault, not a file', async () => {
    for (const path of ['../x', 'a/../../x', '/tmp/x', 'a\\..\\x']) {
      await expect(writeAll(join(work, 'out'), [{ path, content: '' }], fresh)).rejects.toThrow('leads out');
    }
  });
});

test('an archive is read by tar, with long and non-ASCII names, and repeats byte for byte', () => {
  const named: readonly OutFile[] = [
    ...files,
    { path: `${'long/'.repeat(30)}name.svg`, content: 'x'.repeat(1000) },
    { path: 'Schublädchen/größe.dxf', content: 'ß' },
  ];
  const archive = tarOf(named);
  expect(archive.length % 512).toBe(0);
  expect(Buffer.compare(archive, tarOf(named))).toBe(0);
  const folder = join(work, 'tar');
  mkdirSync(folder);
  execFileSync('tar', ['-x', '-C', folder], { input: archive });
  expect(listing(folder)).toEqual(named.map(({ path }) => path).sort());
  for (const { path, content } of named) {
    expect(readFileSync(join(folder, path)).equals(Buffer.from(content))).toBe(true);
  }
});
