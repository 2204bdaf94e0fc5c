import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, inject } from 'vitest';

export const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Ended {
  /** Exit status; 128 + number of the signal that ended it, as a shell says it. */
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly input?: string | Uint8Array;
  readonly cwd?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Run as another user, where the tests run as root. */
  readonly uid?: number;
}

/** The command as it is shipped, built once for all tests (global-setup.ts). */
export function builtCommand() {
  const folder = inject('built');
  const file = join(folder, 'halfpin.js');

  function start(args: readonly string[], { cwd = root, env = {}, uid }: RunOptions = {}): ChildProcess {
    const plain = { PATH: process.env.PATH ?? '', ...env };
    return spawn(process.execPath, [file, ...args], { cwd, env: plain, ...(uid !== undefined && { uid }) });
  }

  async function run(args: readonly string[], options: RunOptions = {}): Promise<Ended> {
    const child = start(args, options);
    const ended = endOf(child);
    child.stdin?.on('error', () => undefined); // it need not read what it is given
    child.stdin?.end(options.input ?? '');
    return ended;
  }

  return { start, run, file, folder };
}

export function endOf(child: ChildProcess): Promise<Ended> {
  const out: Buffer[] = [];
  const err: Buffer[] = [];
  child.stdout?.on('data', (chunk: Buffer) => out.push(chunk));
  child.stderr?.on('data', (chunk: Buffer) => err.push(chunk));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code, signal) =>
      resolve({
        status: code ?? 128 + (signal === 'SIGKILL' ? 9 : signal === 'SIGINT' ? 2 : 15),
        out: Buffer.concat(out).toString(),
        err: Buffer.concat(err).toString(),
      }),
    );
  });
}

/** A folder of its own for a test file, gone afterwards. */
export function workFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A job that can be made, with its shop in it. */
export const goodJob = `title: Specimen cabinet, tray
units: in
shop:
  bits:
    half-8: { kind: dovetail, diameter: 1/2, angle: 8, height: 13/16, shank: 1/4 }
    straight-38: { kind: straight, diameter: 3/8, height: 1-1/4, shank: 1/4 }
  bushings:
    seven-sixteenths: { outside: 7/16, bore: 13/32, barrel: 5/32 }
  plate: { material: plywood, thickness: 1/2, least-finger: 3/16 }
joints:
  tray-corner:
    kind: through-dovetail
    width: 4-1/2
    boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }
    layout: { spacing: even, tails: 3 }
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    fit: { slack: 0.004 }
`;

/** The same with its joint once more under another name, changed if so asked. */
export function twoJoints(name: string, change = (joint: string): string => joint): string {
  const joint = goodJob.slice(goodJob.indexOf('  tray-corner:'));
  return goodJob + change(joint.replace('tray-corner', name));
}

/** Reads as a job but cannot be cut: fingers far narrower than what the bushing leaves. */
export const jobToBeRefused = goodJob.replace('tails: 3', 'tails: 40');

export function writeJob(folder: string, name: string, text: string): string {
  const file = join(folder, name);
  writeFileSync(file, text);
  return file;
}

/** Every file below a folder, by path, with its size: what a test compares before and after. */
export function listing(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();
}

export function contents(folder: string): ReadonlyMap<string, string> {
  return new Map(listing(folder).map((name) => [name, readFileSync(join(folder, name), 'base64')]));
}
