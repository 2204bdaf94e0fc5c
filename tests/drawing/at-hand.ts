import { spawnSync } from 'node:child_process';
import { test } from 'vitest';

/**
 * Programs outside Node that judge halfpin's files. Where one is missing its checks are skipped under a name
 * that says so, and a warning names them; .ci/run installs the programs where it can.
 */

/** The first of the commands that answers, or undefined. */
export function firstAtHand(
  commands: readonly string[],
  ...answering: readonly string[]
): string | undefined {
  return commands.find((one) => spawnSync(one, answering).status === 0);
}

/** A test that needs a program: run with it, or seen to be left out. */
export function testWith(
  program: string,
  found: string | undefined,
  name: string,
  run: (program: string) => void | Promise<void>,
): void {
  if (found !== undefined) {
    test(name, () => run(found));
    return;
  }
  const missing = `${program} is not at hand: ${name}`;
  console.warn(`NOT CHECKED, ${missing}`);
  test.skip(missing, () => {});
}

/** What a program prints, given its input; throws with its complaint when it fails. */
export function output(program: string, args: readonly string[], input: string | Uint8Array): Buffer {
  const done = spawnSync(program, args, { input, maxBuffer: 2 ** 28 });
  if (done.status !== 0)
    throw new Error(`${program} failed: ${done.error?.message ?? done.stderr.toString()}`);
  return done.stdout;
}
