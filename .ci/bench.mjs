// `npm run bench`: builds, then bundles the benchmark (it is TypeScript and reads src) and runs it.
import { build } from 'esbuild';
import { buildAll } from './build.mjs';
import { root, runNode } from './steps.mjs';

const bundle = `${root}/out/bench/bench.mjs`;
if (!(await buildAll({ types: false }))) process.exit(1);
await build({
  absWorkingDir: root,
  entryPoints: ['tests/bench/bench.ts'],
  outfile: bundle,
  bundle: true,
  format: 'esm',
  platform: 'node',
  packages: 'external',
  logLevel: 'warning',
});
process.exitCode = runNode(['--expose-gc', bundle, root]) ? 0 : 1;
