import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { median, row } from './measure.js';

/** Runs in turn, so that what else the machine does falls on all of them alike. */
const rounds = 15;

/** Starts the command as a person does, against a Node that does nothing. */
export function coldStart(root: string): void {
  console.log('Cold start (one joint, all formats)');
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-bench-'));
  const command = join(root, 'dist/halfpin.js');
  const job = join(root, 'samples/case-corner.yaml');
  const runs: Readonly<Record<string, readonly string[]>> = {
    'node -e 0': ['-e', '0'],
    'halfpin --version': [command, '--version'],
    'halfpin make --help': [command, 'make', '--help'],
    'halfpin check JOB': [command, 'check', job],
    'halfpin make JOB, svg only': [command, 'make', job, '-o', folder, '--force', '--as', 'svg'],
    'halfpin make JOB, every format': [command, 'make', job, '-o', folder, '--force'],
  };
  const times = new Map(Object.keys(runs).map((name) => [name, [] as number[]]));
  for (let round = 0; round < rounds; round += 1) {
    for (const [name, args] of Object.entries(runs)) {
      const start = performance.now();
      const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
      times.get(name)?.push(performance.now() - start);
      if (status !== 0) throw new Error(`${name} exited with ${status}: ${stderr}`);
    }
  }
  rmSync(folder, { recursive: true });
  const bare = median(times.get('node -e 0') ?? []);
  for (const [name, all] of times) {
    const middle = median(all);
    row(
      name,
      middle,
      'ms',
      `${(middle / bare).toFixed(2)} x node -e 0${name.endsWith('format') ? '   aim: at most 3' : ''}`,
    );
  }
  console.log();
}
