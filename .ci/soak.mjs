// `npm run soak`: builds, then bundles the long run (it is TypeScript and reads src and cli) and runs it.
// `npm run soak -- --help` says what can be asked.
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildAll, requireForModules } from './build.mjs';
import { root, runNode } from './steps.mjs';

export function bundleSoak(outfile) {
  return build({
    absWorkingDir: root,
    entryPoints: ['tests/soak/soak.ts'],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    mainFields: ['module', 'main'],
    banner: { js: requireForModules },
    sourcemap: 'inline',
    logLevel: 'warning',
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const bundle = `${root}/out/soak/soak.mjs`;
  if (!(await buildAll({ types: false }))) process.exit(1);
  await bundleSoak(bundle);
  const options = ['--enable-source-maps', '--expose-gc'];
  process.exitCode = runNode([...options, bundle, '--root', root, ...process.argv.slice(2)]) ? 0 : 1;
}
