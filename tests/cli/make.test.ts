import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import {
  builtCommand,
  contents,
  endOf,
  goodJob,
  listing,
  twoJoints,
  workFolder,
  writeJob,
} from './command.js';

const { run, start } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);

const made = [
  'carrier-pins',
  'carrier-tails',
  'finger-template-pins',
  'finger-template-tails',
  'marker',
  'pattern-pins',
  'pattern-tails',
].flatMap((name) => ['dxf', 'pdf', 'svg'].map((ending) => `tray-corner/${name}.${ending}`));
const sheets = ['tray-corner/set-up.html', 'tray-corner/set-up.pdf'];
const all = [...made, ...sheets, 'manifest.json', 'tray-corner/report.json'].sort();

/** All but the manifest, which names the job file too. */
const drawn = (folder: string): ReadonlyMap<string, string> =>
  new Map([...contents(folder)].filter(([name]) => name !== 'manifest.json'));

describe('make', () => {
  test('writes every file, names each, and says what to look at first', async () => {
    const folder = join(work, 'all');
    const ended = await run(['make', job, '-o', folder]);
    expect(ended).toMatchObject({ status: 0, err: '' });
    expect(listing(folder)).toEqual(all);
    for (const name of all) expect(ended.out).toContain(name.replace(/\.\w+$/, ''));
    expect(ended.out).toMatch(/\d+ files are in .*\. Look first at .*set-up\.pdf\n$/);
  });

  test('writes no file over another unless it is told to, and then the same bytes', async () => {
    const folder = join(work, 'all');
    const before = contents(folder);
    writeFileSync(join(folder, 'tray-corner/report.json'), 'mine');
    const ended = await run(['make', job, '-o', folder]);
    expect(ended.status).toBe(1);
    expect(ended.err).toMatch(
      /^halfpin: .*\.svg exists already, and \d+ more of these files; use --force to replace them\n$/m,
    );
    expect(readFileSync(join(folder, 'tray-corner/report.json'), 'utf8')).toBe('mine');
    expect(await run(['make', job, '-o', folder, '--force'])).toMatchObject({ status: 0 });
    expect(contents(folder)).toEqual(before);
  });

  test('gives the same bytes from another folder, locale and time zone', async () => {
    const folder = join(work, 'elsewhere');
    const env = { LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8', TZ: 'Pacific/Kiritimati' };
    expect(await run(['make', job, '-o', folder], { cwd: '/', env })).toMatchObject({ status: 0 });
    expect(contents(folder)).toEqual(contents(join(work, 'all')));
  });

  test('makes what is asked for only', async () => {
    const folder = join(work, 'some');
    const typed = ['make', job, '-o', folder, '--only', 'finger', '--as', 'svg, dxf', '--json'];
    const ended = await run(typed);
    const files = all.filter((name) => name.endsWith('.json') || /finger.*(svg|dxf)$/.test(name));
    expect(listing(folder)).toEqual(files);
    expect([...(JSON.parse(ended.out) as { files: string[] }).files].sort()).toEqual(files);
  });

  test('takes the job from standard input and gives an archive on standard output', async () => {
    const folder = join(work, 'piped');
    const ended = await run(['make', '-', '-o', folder], { input: goodJob });
    expect(ended).toMatchObject({ status: 0 });
    expect(drawn(folder)).toEqual(drawn(join(work, 'all')));
    const child = start(['make', '-', '-o', '-']);
    const chunks: Buffer[] = [];
    child.stdout?.on('data', (chunk: Buffer) => chunks.push(chunk));
    child.stdin?.end(goodJob);
    await new Promise((done) => child.on('close', done));
    const unpacked = join(work, 'unpacked');
    mkdirSync(unpacked);
    execFileSync('tar', ['-x', '-C', unpacked], { input: Buffer.concat(chunks) });
    expect(contents(unpacked)).toEqual(drawn(folder));
  });

  test('reads a shop file beside the job, in a folder with spaces and letters from everywhere', async () => {
    const folder = join(work, 'Käfer & Blätter 標本');
    mkdirSync(folder);
    const [, shop = ''] = /^shop:\n((?: .*\n)+)/m.exec(goodJob) ?? [];
    writeFileSync(join(folder, 'my shop.yaml'), `units: in\n${shop.replace(/^ {2}/gm, '')}`);
    const split = goodJob.replace(`shop:\n${shop}`, 'shop: ./my shop.yaml\n');
    const file = writeJob(folder, 'Lade größer.yaml', split);
    expect(await run(['make', file, '-o', join(folder, 'aus gabe')])).toMatchObject({ status: 0, err: '' });
    expect(drawn(join(folder, 'aus gabe'))).toEqual(drawn(join(work, 'all')));
    writeFileSync(join(folder, 'my shop.yaml'), 'units: in\nbits: 3\n');
    const ended = await run(['check', file]);
    expect(ended.status).toBe(2);
    expect(ended.err).toMatch(/my shop\.yaml:2:\d+: /);
  });

  test('one joint that is refused keeps all from being written; --joint makes the other', async () => {
    const text = twoJoints('too-fine', (joint) => joint.replace('tails: 3', 'tails: 40'));
    const file = writeJob(work, 'two.yaml', text);
    const folder = join(work, 'two');
    const ended = await run(['make', file, '-o', folder]);
    expect(ended.status).toBe(1);
    expect(ended.err).toMatch(/Nothing was written; --joint makes one that can be made \(tray-corner\)/);
    expect(() => listing(folder)).toThrow();
    expect(await run(['make', file, '-o', folder, '--joint', 'tray-corner'])).toMatchObject({ status: 0 });
    expect(listing(folder)).toEqual(all);
  });

  test('says which folder it may not write in', async () => {
    const folder = join(work, 'closed');
    mkdirSync(folder, { mode: 0o555 });
    chmodSync(work, 0o755);
    const nobody = process.getuid?.() === 0 ? { uid: 65534 } : {};
    const ended = await run(['make', '-', '-o', folder], { input: goodJob, ...nobody });
    expect(ended.status).toBe(1);
    expect(ended.err).toMatch(/cannot write in .*closed: you are not allowed to/);
    expect(listing(folder)).toEqual([]);
  });
});

describe('ended in the middle', () => {
  const joints = 16;
  const asked = ['--only', 'finger', '--as', 'svg'];
  const joint = goodJob.slice(goodJob.indexOf('  tray-corner:'));
  const [head] = goodJob.split('  tray-corner:');
  const many = Array.from({ length: joints }, (_, index) => joint.replace('tray-corner', `corner-${index}`));
  const file = writeJob(work, 'many.yaml', head + many.join(''));
  const whole = join(work, 'whole');

  async function endWhen(
    folder: string,
    signal: NodeJS.Signals,
    isTime: (names: readonly string[]) => boolean,
  ) {
    const child = start(['make', file, '-o', folder, ...asked]);
    const ended = endOf(child);
    let running = true;
    void ended.then(() => {
      running = false;
    });
    while (running && !isTime(namesIn(folder))) await wait(1);
    child.kill(signal);
    return ended;
  }

  function namesIn(folder: string): readonly string[] {
    try {
      return listing(folder);
    } catch {
      return []; // it is not there yet, or changes while it is read
    }
  }

  const isStaged = (name: string) => name.endsWith('.part');
  const moments: readonly ((names: readonly string[]) => boolean)[] = [
    (names) => names.length > 0,
    (names) => names.length > 2 * joints,
    (names) => names.some((name) => !isStaged(name)),
    (names) => names.filter((name) => !isStaged(name)).length > joints,
  ];

  test('by a kill that cannot be caught: every file of a final name is whole, and the next run clears up', async () => {
    expect(await run(['make', file, '-o', whole, ...asked])).toMatchObject({ status: 0 });
    const wanted = contents(whole);
    expect(wanted.size).toBe(joints * 3 + 1); // the manifest
    let killed = 0;
    for (const [index, moment] of moments.entries()) {
      const folder = join(work, `killed-${index}`);
      killed += (await endWhen(folder, 'SIGKILL', moment)).status === 137 ? 1 : 0;
      for (const [name, content] of contents(folder)) {
        if (!isStaged(name)) expect(content, name).toBe(wanted.get(name));
      }
      if (index !== 1) continue; // one of the untidy ones
      expect(await run(['make', file, '-o', folder, '--force', ...asked])).toMatchObject({ status: 0 });
      expect(contents(folder)).toEqual(wanted);
    }
    expect(killed).toBeGreaterThan(1); // else this test looked at nothing
  });

  test('by the user: what was staged is taken back, folders too', async () => {
    const folder = join(work, 'interrupted');
    const ended = await endWhen(folder, 'SIGINT', (names) => names.some(isStaged));
    expect(ended.status).toBe(130);
    expect(namesIn(folder).filter(isStaged)).toEqual([]);
  });
});

test('--watch follows the job and its shop file through editors that replace files, until it is ended', async () => {
  const folder = join(work, 'watched');
  mkdirSync(folder);
  const [, shop = ''] = /^shop:\n((?: .*\n)+)/m.exec(goodJob) ?? [];
  const shopText = `units: in\n${shop.replace(/^ {2}/gm, '')}`;
  const shopFile = writeJob(folder, 'shop.yaml', shopText);
  const jobText = goodJob.replace(`shop:\n${shop}`, 'shop: ./shop.yaml\n');
  const file = writeJob(folder, 'job.yaml', jobText);
  const child = start(['make', file, '-o', join(folder, 'out'), '--watch', '--json']);
  const ended = endOf(child);
  const passes: { status: number; title: string; findings: unknown[] }[] = [];
  let unfinished = '';
  child.stdout?.on('data', (chunk: Buffer) => {
    const lines = (unfinished + chunk.toString()).split('\n');
    unfinished = lines.pop() ?? '';
    passes.push(...lines.map((line) => JSON.parse(line)));
  });
  const pass = async (count: number) => {
    while (passes.length < count) await wait(20);
    return passes[count - 1];
  };
  const replace = (name: string, text: string) => {
    writeFileSync(join(folder, 'editor.tmp'), text);
    renameSync(join(folder, 'editor.tmp'), name);
  };

  expect(await pass(1)).toMatchObject({ status: 0, title: 'Specimen cabinet, tray' });
  replace(file, jobText.replace('Specimen cabinet, tray', 'Second'));
  expect(await pass(2)).toMatchObject({ status: 0, title: 'Second' });
  replace(shopFile, shopText.replace('half-8', 'half-9'));
  expect(await pass(3)).toMatchObject({ status: 2 });
  writeFileSync(shopFile, shopText);
  expect(await pass(4)).toMatchObject({ status: 0, title: 'Second' });
  replace(shopFile, shopText.replace('half-8', 'half-9'));
  expect(await pass(5)).toMatchObject({ status: 2 });
  child.kill('SIGINT');
  expect((await ended).status).toBe(2); // that of the last pass
  expect(listing(join(folder, 'out'))).toEqual(all);
}, 30_000);
