// `npm run bench` and `npm run soak`: builds, bundles a program of tests/ and runs it with the rest of the words.
import { basename } from 'node:path';
import { buildIfStale } from './build.mjs';
import { bundle } from './bundle.mjs';
import { root, runNode } from './steps.mjs';

/** One file of a program that reads src and cli; what halfpin itself uses is bundled as in the command. */
export const bundleProgram = (input, file) =>
  bundle({
    input,
    platform: 'node',
    // Rivals and the browser come as they are.
    external: ['rolldown', 'makerjs', 'manifold-3d', 'playwright-core', /vitest/],
    output: { file, format: 'esm', sourcemap: 'inline', codeSplitting: false },
  });

const [, called = '', program, ...words] = process.argv;
if (basename(called) === 'run-bundled.mjs') {
  const file = `${root}/out/${basename(program, '.ts')}.mjs`;
  if (!(await buildIfStale())) process.exit(1);
  await bundleProgram(program, file);
  const options = ['--enable-source-maps', '--expose-gc', file, '--root', root, ...words];
  process.exitCode = runNode(options) ? 0 : 1;
}
