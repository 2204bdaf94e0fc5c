import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { tell } from './terminal.js';

/** The program of each platform that shows a file with whatever its owner shows such files with. */
const openers: Readonly<Partial<Record<NodeJS.Platform, string>>> = { darwin: 'open', win32: 'explorer.exe' };

/** What is shown first: the page over all joints, else a sheet. */
const best = [/^index\.html$/, /set-up\.html$/, /set-up\.pdf$/];

/** Shows the sheet among files that were written in a folder; says so where there is none, or no program for it. */
export async function openSheet(folder: string, paths: readonly string[]): Promise<void> {
  const [sheet] = best.flatMap((kind) => paths.find((path) => kind.test(path)) ?? []);
  if (sheet === undefined) {
    tell('halfpin: no sheet was written, so there is none to open; leave out --only, or add sheet to it');
    return;
  }
  const file = join(folder, sheet);
  const opener = openers[process.platform] ?? 'xdg-open';
  await new Promise<void>((done) => {
    const child = spawn(opener, [file], { detached: true, stdio: 'ignore' });
    child.on('error', () => {
      tell(`halfpin: cannot open it: there is no program ${opener}; the sheet is ${file}`);
      done();
    });
    child.on('spawn', () => {
      child.unref();
      done();
    });
  });
}
