import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import fc from 'fast-check';

export interface Kills {
  /** Kills that came before the command ended by itself. */
  readonly hit: number;
  /** Of these, those that came while files were being staged or given their names. */
  readonly whileWriting: number;
  readonly troubles: readonly string[];
}

/**
 * Starts a make again and again and kills it as nobody can catch it, at moments drawn from a seed: every second
 * one at any moment of its run, the others while it writes. What stands under a final name then
 * is whole, and the next make works and clears up.
 */
export async function killMakes(count: number, command: string, job: string, seed: number): Promise<Kills> {
  const work = mkdtempSync(join(tmpdir(), 'halfpin-kills-'));
  const usual = join(work, 'usual');
  const timed: Times[] = [];
  for (const folder of [usual, `${usual}-2`, `${usual}-3`]) timed.push(await timedMake(command, job, folder));
  const defaultTime = Math.min(...timed.map((one) => one.defaultTime));
  const writingTime = Math.min(...timed.map((one) => one.writingTime));
  const wanted = contents(usual);
  const moments = fc.sample(fc.double({ min: 0, max: 1, noNaN: true }), { numRuns: count, seed });
  const troubles: string[] = [];
  let [hit, whileWriting] = [0, 0];
  for (const [i, moment] of moments.entries()) {
    const folder = join(work, `${i}`);
    const killed = await killedMake(command, job, folder, (begun) =>
      i % 2 === 0 ? wait(moment * defaultTime) : begun().then(() => wait(moment * writingTime)),
    );
    const left = contents(folder);
    const parts = [...left.keys()].filter((name) => name.endsWith('.part'));
    const final = [...left].filter(([name]) => !name.endsWith('.part'));
    if (killed) hit += 1;
    if (killed && left.size > 0 && (parts.length > 0 || final.length < wanted.size)) whileWriting += 1;
    const at = `kill ${i} at ${moment}`;
    for (const [name, content] of final) {
      if (content !== wanted.get(name)) troubles.push(`${at}: ${name} is not whole`);
    }
    const again = await make(command, job, folder, '--force');
    if (again !== 0) troubles.push(`${at}: the next make ends with ${again}`);
    if (!isSame(contents(folder), wanted)) troubles.push(`${at}: the next make leaves other files`);
    rmSync(folder, { recursive: true, force: true });
  }
  rmSync(work, { recursive: true, force: true });
  return { hit, whileWriting, troubles };
}

function begin(command: string, job: string, folder: string, ...more: readonly string[]) {
  const child = spawn(process.execPath, [command, 'make', job, '-o', folder, ...more], { stdio: 'ignore' });
  const ended = new Promise<number | undefined>((resolve) => {
    child.on('close', (code) => resolve(code ?? undefined));
  });
  return { child, ended };
}

/** How long a make takes that nobody kills, and how long of it from its first folder to its end, ms. */
interface Times {
  readonly defaultTime: number;
  readonly writingTime: number;
}

async function timedMake(command: string, job: string, folder: string): Promise<Times> {
  const start = performance.now();
  let writing = start;
  const { child, ended } = begin(command, job, folder);
  const begun = (async () => {
    while (!existsSync(folder) && child.exitCode === null) await wait(1);
    writing = performance.now();
  })();
  const [status] = await Promise.all([ended, begun]);
  if (status !== 0) throw new Error(`${job} cannot be made: ${status}`);
  const end = performance.now();
  return { defaultTime: end - start, writingTime: end - writing };
}

/** The exit status. */
function make(command: string, job: string, folder: string, ...more: readonly string[]) {
  return begin(command, job, folder, ...more).ended;
}

/** true when the kill came in time. */
async function killedMake(
  command: string,
  job: string,
  folder: string,
  moment: (begun: () => Promise<void>) => Promise<void>,
): Promise<boolean> {
  const { child, ended } = begin(command, job, folder);
  const begun = async () => {
    while (!existsSync(folder) && child.exitCode === null) await wait(1);
  };
  await Promise.race([moment(begun), ended]);
  child.kill('SIGKILL');
  return (await ended) === undefined;
}

function contents(folder: string): ReadonlyMap<string, string> {
  if (!existsSync(folder)) return new Map();
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  );
  return new Map(
    files.map(({ parentPath, name }) => {
      const path = join(parentPath, name);
      return [path.slice(folder.length + 1), readFileSync(path, 'base64')];
    }),
  );
}

function isSame(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): boolean {
  return one.size === other.size && [...one].every(([name, content]) => other.get(name) === content);
}
