import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, test } from 'vitest';
import { builtCommand, goodJob, workFolder, writeJob } from './command.js';

const { run } = builtCommand();
const work = workFolder();
const job = writeJob(work, 'tray.yaml', goodJob);

/** A folder of programs that stands in for the platform's: its opener writes down what it is given. */
function fakeOpener(): { readonly env: Record<string, string>; readonly given: string } {
  const bin = join(work, 'bin');
  const given = join(work, 'given');
  mkdirSync(bin, { recursive: true });
  writeFileSync(join(bin, 'xdg-open'), `#!/bin/sh\nprintf '%s' "$1" > '${given}'\n`);
  chmodSync(join(bin, 'xdg-open'), 0o755);
  return { env: { PATH: `${bin}:/usr/bin:/bin` }, given };
}

describe.runIf(process.platform === 'linux')('make --open', () => {
  test('shows the sheet by the platform, and only when asked', async () => {
    const { env, given } = fakeOpener();
    const quiet = await run(['make', job, '-o', join(work, 'quiet')], { env });
    expect(quiet.status).toBe(0);
    expect(existsSync(given)).toBe(false);
    const folder = join(work, 'with space');
    expect(await run(['make', job, '-o', folder, '--open'], { env })).toMatchObject({ status: 0, err: '' });
    for (let i = 0; i < 100 && !existsSync(given); i += 1) await wait(20);
    expect(readFileSync(given, 'utf8')).toBe(join(folder, 'tray-corner/set-up.html'));
  });

  test('says where the sheet is when nothing can open it, and that there is none', async () => {
    const env = { PATH: join(work, 'nothing-here') };
    const folder = join(work, 'closed');
    const ended = await run(['make', job, '-o', folder, '--open'], { env });
    expect(ended.status).toBe(0);
    expect(ended.err).toMatch(/cannot open it: there is no program xdg-open; the sheet is .*set-up\.html/);
    const none = await run(['make', job, '-o', join(work, 'none'), '--only', 'finger', '--open'], { env });
    expect(none.err).toMatch(/no sheet was written/);
  });

  test('goes with a folder, and once', async () => {
    expect(await run(['make', job, '-o', '-', '--open'])).toMatchObject({ status: 2 });
    expect(await run(['make', job, '-o', work, '--open', '--watch'])).toMatchObject({ status: 2 });
  });
});
