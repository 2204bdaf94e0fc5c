import { chmodSync, cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { buildIfStale } from '../.ci/build.mjs';
import { root } from '../.ci/steps.mjs';

declare module 'vitest' {
  interface ProvidedContext {
    /** The folder with the command and the page as they are shipped, for all test files; not to be changed. */
    readonly built: string;
  }
}

/** Builds once for all tests, and puts the command and the page where another user may run them too. */
export default async function setup({ provide }: TestProject): Promise<() => void> {
  if (!(await buildIfStale())) throw new Error('the build failed');
  const built = mkdtempSync(join(tmpdir(), 'halfpin-built-'));
  chmodSync(built, 0o755);
  for (const one of ['halfpin.js', 'command', 'board.html'])
    cpSync(join(root, 'dist', one), join(built, one), { recursive: true });
  writeFileSync(join(built, 'package.json'), '{ "type": "module" }');
  provide('built', built);
  return () => rmSync(built, { recursive: true, force: true });
}
