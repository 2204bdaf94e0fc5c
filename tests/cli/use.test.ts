import { openSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { builtCommand, endOf, goodJob, jobToBeRefused, root, workFolder, writeJob } from './command.js';

const { run, start, file } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);
const refused = writeJob(work, 'refused.yaml', jobToBeRefused);
writeFileSync(join(work, 'latin.yaml'), Buffer.from([0x74, 0x3a, 0x20, 0xe4, 0x0a]));
const out = join(work, 'never');

/** What is typed, the exit status, and what standard error says. */
const table: readonly (readonly [typed: readonly string[], status: number, says: RegExp])[] = [
  [[], 2, /Usage: halfpin/],
  [['mak', job, '-o', out], 2, /unknown command 'mak'[\s\S]*make/],
  [['make'], 2, /--output is missing; add the folder/],
  [['check'], 2, /the job is missing; write the name of a job file/],
  [['make', job, '-o', out, '--only', 'fingers'], 2, /"fingers" is none of finger, carrier, marker, pattern/],
  [['make', job, '-o', out, '--as', 'svg,png'], 2, /"png" is none of svg, dxf, pdf/],
  [['make', job, '-o', out, '--foce'], 2, /--force/],
  [['make', job, '-o', out, '--joint', 'tray-coner'], 2, /"tray-coner".*did you mean tray-corner\?/],
  [['make', join(work, 'none.yaml'), '-o', out], 2, /none\.yaml: cannot read it: no such file/],
  [['make', work, '-o', out], 2, /cannot read it: it is a folder/],
  [['make', '/dev/zero', '-o', out], 2, /over 16 MB/],
  [['check', join(work, 'latin.yaml')], 2, /latin\.yaml: cannot read it: it is not UTF-8/],
  [['check', refused], 1, /refused\.yaml:\d+:\d+: joints\.tray-corner/],
  [['make', refused, '-o', out], 1, /refused\.yaml:\d+:\d+: joints\.tray-corner[\s\S]*Nothing was written/],
  [['make', job, '-o', '-', '--json'], 2, /both want standard output/],
  [['make', job, '-o', '-', '--watch'], 2, /--watch needs a folder/],
  [['check', '-', '--watch'], 2, /standard input is read once/],
  [['new', 'boxx'], 2, /"boxx" is no kind of joint; did you mean box\?[\s\S]*through-dovetail/],
  [['new'], 2, /the kind is missing; write the kind of joint/],
  [['check', job], 0, /^$/],
  [['printer'], 2, /printer page, or printer set\?/],
  [['printer', 'page'], 2, /--output is missing; add the file/],
  [['printer', 'sett'], 2, /printer page, or printer set\?/],
  [['schema'], 0, /^$/],
];

describe('exit status and message', () => {
  test.each(table)('halfpin %j gives %i', async (typed, status, says) => {
    const ended = await run(typed);
    expect(ended.err).toMatch(says);
    expect(ended.err).not.toMatch(/\n\s+at .*:\d+:\d+/); // no stack
    expect(ended.status).toBe(status);
    if (status !== 0 && typed[0] !== 'check') expect(ended.out).toBe('');
  });
});

test('help shows the commands that work, each with an example, and no others', async () => {
  const { status, out: help } = await run(['--help']);
  expect(status).toBe(0);
  const commands = [...help.matchAll(/^ {2}(\w+) .*$/gm)].map(([, name]) => name);
  expect(commands).toEqual(['new', 'check', 'make', 'testcut', 'kit', 'printer', 'refit', 'schema', 'board']);
  for (const command of commands) {
    const ended = await run([command ?? '', '--help']);
    expect(ended.status).toBe(0);
    expect(ended.out).toMatch(/Example:\n {2}\$ halfpin /);
    expect(ended.out).toContain('--json');
  }
});

test('the version is that of the package, with no home and no terminal', async () => {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  for (const home of ['', '/nowhere/at/all']) {
    const ended = await run(['--version'], { env: { HOME: home, TERM: 'dumb' } });
    expect(ended).toEqual({ status: 0, out: `${version}\n`, err: '' });
  }
});

describe('standard output', () => {
  test('holds JSON alone with --json, whatever comes of the job', async () => {
    const good = await run(['check', job, '--json']);
    expect(JSON.parse(good.out)).toMatchObject({
      status: 0,
      joints: [{ joint: 'tray-corner', width: 114.3 }],
    });
    const bad = await run(['check', refused, '--json']);
    expect(JSON.parse(bad.out)).toMatchObject({
      status: 1,
      joints: [{ joint: 'tray-corner', refused: true }],
    });
    expect(bad.err).toMatch(/refused\.yaml:\d+:\d+/);
    const unread = await run(['check', join(work, 'none.yaml'), '--json']);
    expect(JSON.parse(unread.out)).toMatchObject({ status: 2, findings: [{ code: 'file-unreadable' }] });
  });

  test('has no colour codes when it is no terminal', async () => {
    for (const typed of [['check', job], ['check', refused], ['--help']]) {
      const ended = await run(typed);
      expect(ended.out + ended.err).not.toContain('\u001b');
    }
  });

  test('closed early ends the command quietly and not as a success', async () => {
    const child = start(['schema']);
    const ended = endOf(child);
    child.stdout?.destroy();
    expect(await ended).toMatchObject({ status: 141, err: '' });
  });

  test('on a full disk is a failure that is said', async () => {
    const { spawnSync } = await import('node:child_process');
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [file, 'schema'], {
      stdio: ['ignore', full, 'pipe'],
    });
    expect(stderr.toString()).toMatch(/cannot write to standard output: the disk is full/);
    expect(status).toBe(1);
  });
});

test('a fault in halfpin itself is one line, status 70, and its stack on request', async () => {
  const planted = encodeURIComponent('JSON.stringify = () => { throw new Error("planted") }');
  const env = { NODE_OPTIONS: `--import=data:text/javascript,${planted}` };
  const short = await run(['check', job, '--json'], { env });
  expect(short.status).toBe(70);
  expect(short.err).toMatch(/^halfpin: a fault in halfpin itself, not in your job: planted\..*--trace/);
  expect(short.err.trim().split('\n')).toHaveLength(1);
  const long = await run(['check', job, '--json', '--trace'], { env });
  expect(long.status).toBe(70);
  expect(long.err).toMatch(/\n\s+at .*:\d+:\d+/);
});

test('a new job of every kind passes check and make as it is', async () => {
  const kinds = (await run(['new', '?'])).err.match(/^ {2}\S+/gm)?.map((line) => line.trim()) ?? [];
  expect(kinds.length).toBeGreaterThanOrEqual(2);
  for (const kind of kinds) {
    const starter = join(work, `new ${kind}.yaml`);
    expect(await run(['new', kind, '-o', starter])).toMatchObject({ status: 0, err: '' });
    expect((await run(['new', kind])).out).toBe(readFileSync(starter, 'utf8'));
    expect(readFileSync(starter, 'utf8')).toMatch(/^#/);
    const again = await run(['new', kind, '-o', starter]);
    expect(again.status).toBe(1);
    expect(again.err).toMatch(/exists already; use --force/);
    expect(await run(['check', starter])).toMatchObject({ status: 0 });
    expect(await run(['make', starter, '-o', join(work, `made ${kind}`)])).toMatchObject({ status: 0 });
  }
});
