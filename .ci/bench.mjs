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
  // Rivals and the browser come as they are; what halfpin itself uses is bundled as in the command.
  external: ['esbuild', 'makerjs', 'manifold-3d', 'playwright-core'],
  mainFields: ['module', 'main'],
  banner: {
    js: "import{createRequire as $requireFrom}from'node:module';const require=$requireFrom(import.meta.url);",
  },
  logLevel: 'warning',
});
process.exitCode = runNode(['--expose-gc', bundle, root]) ? 0 : 1;
