import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { bundleProgram } from '../../.ci/run-bundled.mjs';
import { builtCommand, root } from '../cli/command.js';

/** `npm run soak` in small, the same every day. Its parts run in processes of their own, so none can hold up the tests. */

const folder = mkdtempSync(join(tmpdir(), 'halfpin-soak-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const { file: command } = builtCommand();

test('spoilt files and paths are refused in time, and a killed make leaves nothing by halves', async () => {
  const bundle = join(folder, 'soak.mjs');
  await bundleProgram('tests/soak/soak.ts', bundle);
  const places = ['--root', root, '--command', command, '--found', join(folder, 'found')];
  const jobs = ['--jobs', '4', '--every', '2'];
  const counts = ['--mutants', '150', '--makes', '0', '--kills', '4', '--seed', '20261125'];
  const { stdout, status } = spawnSync(process.execPath, [bundle, ...places, ...jobs, ...counts], {
    encoding: 'utf8',
  });
  expect(stdout).toMatch(/no failure in/);
  expect(status).toBe(0);
  expect(stdout).toMatch(/job files +100 .*: ok/);
  expect(stdout).toMatch(/paths +150 .*: ok/);
  expect(readdirSync(folder)).toEqual(['soak.mjs']);
}, 300_000);
