import { fork } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { kinds } from './kinds.js';
import { help, type Options, readOptions } from './options.js';
import { type Done, doShare, type Share } from './parts.js';

/**
 * The long run behind `npm run soak`: random joints, spoilt files, memory and kills, each share of it in a process
 * of its own, so that what hangs or dies is seen from outside. Every failure is made small and kept.
 */

const file = fileURLToPath(import.meta.url);

interface Asked {
  readonly share: Share;
  readonly root: string;
  readonly command: string;
}

async function work({ share, root, command }: Asked): Promise<void> {
  const done = await doShare(share, root, command);
  process.send?.(done, () => process.exit(0));
}

async function soak(args: readonly string[]): Promise<number> {
  const options = readOptions(args);
  if (typeof options === 'string') {
    console.log(options);
    return options === help ? 0 : 2;
  }
  const wanted = sharesOf(options);
  if (wanted.length === 0) {
    console.log(`nothing to do; kinds are ${Object.keys(kinds).join(', ')}`);
    return 2;
  }
  console.log(`seed ${options.seed}, ${options.processes} at a time`);
  const started = performance.now();
  const waiting = [...wanted];
  let failures = 0;
  const one = async () => {
    for (let share = waiting.shift(); share; share = waiting.shift()) {
      const done = await apart(share, options);
      failures += done.troubles.length;
      report(share, done, options);
    }
  };
  await Promise.all(Array.from({ length: options.processes }, one));
  const minutes = ((performance.now() - started) / 60_000).toFixed(1);
  console.log(failures === 0 ? `no failure in ${minutes} min` : `${failures} failures in ${minutes} min`);
  return failures === 0 ? 0 : 1;
}

/** Pieces of work small enough that one which is lost costs little, none with the seed of another. */
function sharesOf({ jobs, kind, mutants, makes, kills, seed, every }: Options): readonly Share[] {
  const parts: readonly (readonly [string, number, number])[] = [
    ...Object.keys(kinds)
      .filter((one) => kind === undefined || one === kind)
      .map((one) => [one, jobs, 500] as const),
    ['job files', mutants, 100],
    ['paths', mutants, 5000],
    ['memory', makes, makes],
    ['kills', kills, 10],
  ];
  return parts
    .filter(([part, count]) => count > 0 && (kind === undefined || part === kind))
    .flatMap(([part, count, most]) =>
      Array.from({ length: Math.ceil(count / most) }, (_, i) => ({
        part,
        count: Math.min(most, count - i * most),
        seed: seed + i * 1000,
        every,
      })),
    );
}

/** No share may take longer than this for each of what it holds, ms, nor in all: what hangs is ended. */
const longestStep = (part: string): number => (part === 'kills' ? 120_000 : 10_000);

/** A share done by a process of its own. One that dies or hangs is a failure. */
function apart(share: Share, { root, command }: Options): Promise<Done> {
  return new Promise((resolve) => {
    const child = fork(file, [], { execArgv: ['--enable-source-maps', '--expose-gc'] });
    const limit = setTimeout(() => child.kill('SIGKILL'), 60_000 + share.count * longestStep(share.part));
    let done: Done | undefined;
    child.on('message', (message: Done) => {
      done = message;
    });
    child.on('close', (code, signal) => {
      clearTimeout(limit);
      const lost = { trouble: `its process ended with ${signal ?? code}`, seed: share.seed };
      resolve(done ?? { troubles: [lost] });
    });
    child.send({ share, root, command } satisfies Asked);
  });
}

function report({ part, count, seed }: Share, { troubles, said }: Done, { found }: Options): void {
  const result = troubles.length === 0 ? 'ok' : `${troubles.length} FAILED`;
  console.log(
    `${part.padEnd(24)}${String(count).padStart(6)} from seed ${seed}: ${result}${said ? `; ${said}` : ''}`,
  );
  for (const { trouble, seed: from, name, bytes } of troubles) {
    console.log(`  seed ${from}: ${trouble}`);
    if (name === undefined || bytes === undefined) continue;
    mkdirSync(found, { recursive: true });
    writeFileSync(join(found, name), Buffer.from(bytes, 'base64'));
    console.log(`  kept as ${join(found, name)}`);
  }
}

// Begun last, when everything above is there.
if (process.send) {
  process.once('message', (asked: Asked) => void work(asked));
  process.once('disconnect', () => process.exit(1)); // nobody is left to hear of it
} else process.exitCode = await soak(process.argv.slice(2));
