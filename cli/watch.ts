import { statSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import { type ExitCode, exit } from './exit.js';
import { reasonOf, tell } from './terminal.js';

/** One pass of a command: calls `reads` with every file just before it reads it. */
export type Pass = (reads: (path: string) => void) => Promise<ExitCode>;

/** How often files are looked at, ms. A change counts when two looks in a row agree: editors write in steps. */
const pace = 150;

/**
 * Runs a pass, and again whenever a file that it read changes, until the user ends it; then gives the status
 * of the last pass. Files are looked at by name, so an editor that puts a new file in place of the old one,
 * a file that is missing for now, and a network disk are all followed.
 */
async function follow(pass: Pass): Promise<ExitCode> {
  let ended = false;
  let last: ExitCode = exit.done;
  const end = () => {
    ended = true;
  };
  process.on('SIGINT', end).on('SIGTERM', end).on('SIGHUP', end);
  while (!ended) {
    const seen = new Map<string, string>();
    last = await pass((path) => seen.set(path, mark(path)));
    tell(`Watching ${[...seen.keys()].join(', ')}; Ctrl-C ends.`);
    while (!ended && !(await hasSettledOtherwise(seen))) await wait(pace);
  }
  return last;
}

/** One pass, or one for each change. */
export async function runOrFollow(watch: boolean, job: string, pass: Pass): Promise<ExitCode> {
  if (!watch) return pass(() => undefined);
  if (job !== '-') return follow(pass);
  tell('halfpin: --watch follows a file; standard input is read once');
  return exit.misuse;
}

async function hasSettledOtherwise(seen: ReadonlyMap<string, string>): Promise<boolean> {
  const paths = [...seen.keys()];
  const before = paths.map(mark);
  if (paths.every((path, index) => seen.get(path) === before[index])) return false;
  await wait(pace);
  return paths.every((path, index) => mark(path) === before[index]);
}

/** Changes whenever the file does. */
function mark(path: string): string {
  try {
    const { ino, size, mtimeNs } = statSync(path, { bigint: true });
    return `${ino} ${size} ${mtimeNs}`;
  } catch (error) {
    return reasonOf(error);
  }
}
