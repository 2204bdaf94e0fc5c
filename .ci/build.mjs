// Builds dist/: the command (one file that starts fast and parts that load when used), the API and its types.
import { chmodSync, rmSync } from 'node:fs';
import { build } from 'esbuild';
import { root, runPackage } from './steps.mjs';

const shared = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  splitting: true,
  target: 'node20',
  charset: 'utf8',
  logLevel: 'warning',
  // Where a package has a build for ES modules, take it: esbuild can drop what is not used of it.
  mainFields: ['module', 'main'],
};

/** The command carries every package inside, so that a cold start reads a few files and not hundreds. */
function buildCommand() {
  return build({
    ...shared,
    entryPoints: { halfpin: 'cli/halfpin.ts' },
    outdir: 'dist',
    chunkNames: 'command/[name]-[hash]',
    platform: 'node',
    // Names are kept for the sake of a fault's stack; white space and syntax are what costs reading time.
    minifyWhitespace: true,
    minifySyntax: true,
    banner: { js: '#!/usr/bin/env node' },
  });
}

/** The API leaves packages to whoever bundles it and holds nothing of Node. */
function buildApi() {
  return build({
    ...shared,
    entryPoints: { index: 'src/index.ts' },
    outdir: 'dist',
    chunkNames: 'api/[name]-[hash]',
    platform: 'neutral',
    packages: 'external',
  });
}

function buildTypes() {
  const options = ['--noEmit', 'false', '--declaration', '--emitDeclarationOnly', '--outDir', 'dist/types'];
  return runPackage('typescript', ['-p', 'tsconfig.json', ...options]);
}

export async function buildAll({ types = true } = {}) {
  rmSync(`${root}/dist`, { recursive: true, force: true });
  try {
    await Promise.all([buildCommand(), buildApi()]);
  } catch {
    return false; // esbuild has printed the reason
  }
  chmodSync(`${root}/dist/halfpin.js`, 0o755);
  return types ? buildTypes() : true;
}

if (process.argv[1] && import.meta.url.endsWith('/.ci/build.mjs') && process.argv[1].endsWith('build.mjs')) {
  process.exitCode = (await buildAll({ types: !process.argv.includes('--no-types') })) ? 0 : 1;
}
