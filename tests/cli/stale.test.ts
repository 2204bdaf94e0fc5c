import { existsSync, mkdirSync, readFileSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { builtCommand, contents, goodJob, listing, workFolder, writeJob } from './command.js';

/** Files of an older layout beside new ones: named, and removed with --force when halfpin wrote them. */

const { run } = builtCommand();
const work = workFolder();
const quick = ['--only', 'finger', '--as', 'dxf'];
const renamed = goodJob.replace('tray-corner:', 'tray-side:');

async function madeFirst(name: string): Promise<{ readonly folder: string; readonly job: string }> {
  mkdirSync(join(work, name));
  const job = writeJob(join(work, name), 'tray.yaml', goodJob);
  const folder = join(work, name, 'out');
  expect(await run(['make', job, '-o', folder, ...quick])).toMatchObject({ status: 0, err: '' });
  return { folder, job };
}

const make = (job: string, folder: string, ...more: readonly string[]) =>
  run(['make', job, '-o', folder, ...quick, ...more]);

const isOld = (name: string) => name.startsWith('tray-corner/');

describe('plates of an older layout', () => {
  test('are named, and stay without --force', async () => {
    const { folder, job } = await madeFirst('named');
    writeFileSync(job, renamed);
    const ended = await make(job, folder);
    expect(ended.status).toBe(0);
    for (const name of listing(folder).filter(isOld)) expect(ended.err).toContain(join(folder, name));
    expect(listing(folder).filter(isOld)).toHaveLength(3);
  });

  test('are removed with --force, and the folder is as if they had never been made', async () => {
    const { folder, job } = await madeFirst('removed');
    writeFileSync(job, renamed);
    const ended = await make(job, folder, '--force');
    expect(ended.status).toBe(0);
    expect(ended.err).toContain(join(folder, 'tray-corner/finger-template-tails.dxf'));
    expect(listing(folder).filter(isOld)).toEqual([]);
    const clean = join(work, 'removed', 'clean');
    await make(job, clean);
    expect(contents(folder)).toEqual(contents(clean));
  });

  test('are kept when somebody has changed them, put a link there, or a file of their own beside them', async () => {
    const { folder, job } = await madeFirst('changed');
    const [tails, pins] = ['tails', 'pins'].map((board) =>
      join(folder, `tray-corner/finger-template-${board}.dxf`),
    );
    if (!tails || !pins) throw new Error('two plates');
    writeFileSync(tails, `${readFileSync(tails, 'utf8')}\n`);
    renameSync(pins, join(work, 'changed', 'elsewhere.dxf'));
    symlinkSync(join(work, 'changed', 'elsewhere.dxf'), pins);
    writeFileSync(join(folder, 'tray-corner/notes.txt'), 'mine');
    writeFileSync(job, renamed);
    const ended = await make(job, folder, '--force');
    expect(ended.status).toBe(0);
    expect(ended.err).toContain(tails);
    expect(listing(folder).filter(isOld)).toEqual([
      'tray-corner/finger-template-pins.dxf',
      'tray-corner/finger-template-tails.dxf',
      'tray-corner/notes.txt',
    ]);
    expect(existsSync(join(work, 'changed', 'elsewhere.dxf'))).toBe(true);
    // Once told, they are the user's.
    expect((await make(job, folder, '--force')).err).toBe('');
  });

  test('are not those of another job in the same folder, of another joint, or of other products of this layout', async () => {
    const { folder, job } = await madeFirst('others');
    const other = writeJob(join(work, 'others'), 'other.yaml', renamed);
    expect(await make(other, folder, '--force')).toMatchObject({ status: 0, err: '' });
    expect(listing(folder).filter(isOld)).toHaveLength(3);
    const marker = await run(['make', job, '-o', folder, '--only', 'marker', '--as', 'svg', '--force']);
    expect(marker).toMatchObject({ status: 0, err: '' });
    expect(listing(folder).filter(isOld)).toHaveLength(4);
    // Another layout: what is made anew replaces the old, the rest of the old goes.
    writeFileSync(job, goodJob.replace('tails: 3', 'tails: 2'));
    const ended = await make(job, folder, '--force');
    expect(ended.err).toContain('marker.svg');
    expect(listing(folder).filter(isOld)).toHaveLength(3);
  });

  test('are told by a manifest only: one of somebody else is no leave to remove, nor to be replaced', async () => {
    const { folder, job } = await madeFirst('foreign');
    writeFileSync(join(folder, 'manifest.json'), '{ "name": "an app" }');
    writeFileSync(job, renamed);
    const ended = await make(job, folder);
    expect(ended).toMatchObject({ status: 1, err: expect.stringContaining('manifest.json exists already') });
    expect(readFileSync(join(folder, 'manifest.json'), 'utf8')).toBe('{ "name": "an app" }');
    const hostile = {
      writer: 'halfpin',
      files: [{ path: '../tray.yaml', sha256: '', job: 'tray.yaml', of: '' }],
    };
    writeFileSync(join(folder, 'manifest.json'), JSON.stringify(hostile));
    expect(await make(job, folder, '--force')).toMatchObject({ status: 0 });
    expect(existsSync(job)).toBe(true);
    expect(listing(folder).filter(isOld)).toHaveLength(3);
  });

  test('a manifest is the same each time, names every file but itself, and no moment', async () => {
    const { folder, job } = await madeFirst('again');
    const before = contents(folder);
    await make(job, folder, '--force');
    expect(contents(folder)).toEqual(before);
    const { files } = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as {
      readonly files: readonly { readonly path: string }[];
    };
    expect(files.map(({ path }) => path)).toEqual(listing(folder).filter((name) => name !== 'manifest.json'));
  });
});
