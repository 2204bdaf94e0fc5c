// Builds dist/: the command (one file that starts fast and parts that load when used), the API and its types.
import { chmodSync, copyFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { wholeCore } from './core.mjs';
import { licenceTexts, packagesInside } from './licences.mjs';
import { buildPage } from './page.mjs';
import { slim } from './slim.mjs';
import { root, runPackage } from './steps.mjs';

const shared = {
  absWorkingDir: root,
  bundle: true,
  format: 'esm',
  splitting: true,
  target: 'node20',
  charset: 'utf8',
  logLevel: 'warning',
  metafile: true,
  // Where a package has a build for ES modules, take it: esbuild can drop what is not used of it.
  mainFields: ['module', 'main'],
};

/** Packages of the older kind call require for what is Node's own; a module has none. */
export const requireForModules =
  "import{createRequire as $requireFrom}from'node:module';const require=$requireFrom(import.meta.url);";

/** The command carries every package inside, so that a cold start reads a few files and not hundreds. */
async function buildCommand(outdir = 'dist') {
  const built = await build({
    ...shared,
    entryPoints: { halfpin: 'cli/halfpin.ts' },
    outdir,
    chunkNames: 'command/[name]-[hash]',
    platform: 'node',
    plugins: [wholeCore, slim],
    // Names are kept for the sake of a fault's stack; white space and syntax are what costs reading time.
    minifyWhitespace: true,
    minifySyntax: true,
    banner: { js: requireForModules },
  });
  // The library of solids looks for its machine code beside the script that it is in.
  const code = createRequire(import.meta.url).resolve('manifold-3d/manifold.wasm');
  copyFileSync(code, resolve(root, outdir, 'command/manifold.wasm'));
  return built;
}

/**
 * The API holds nothing of Node. Its packages are inside, for some of them are of the older kind, whose names Node
 * does not find in a module, except zod, in whose types a joint of one's own is written.
 */
function buildApi() {
  return build({
    ...shared,
    entryPoints: { index: 'src/index.ts' },
    outdir: 'dist',
    chunkNames: 'api/[name]-[hash]',
    platform: 'neutral',
    // Solids are for those who have their libraries (optional peers); the command carries them.
    external: ['zod', 'manifold-3d', '@gltf-transform/core'],
    plugins: [slim],
  });
}

function buildTypes() {
  const options = ['--noEmit', 'false', '--declaration', '--emitDeclarationOnly', '--outDir', 'dist/types'];
  return runPackage('typescript', ['-p', 'tsconfig.json', ...options]);
}

export async function buildAll({ types = true } = {}) {
  rmSync(`${root}/dist`, { recursive: true, force: true });
  try {
    const built = await Promise.all([buildCommand(), buildApi(), buildPage()]);
    const inside = packagesInside(built.flatMap(({ metafiles, metafile }) => metafiles ?? [metafile]));
    writeFileSync(`${root}/dist/licences.txt`, licenceTexts(inside));
  } catch (error) {
    if (!error.errors) console.error(error); // else esbuild has printed the reason
    return false;
  }
  chmodSync(`${root}/dist/halfpin.js`, 0o755);
  return types ? buildTypes() : true;
}

// Called by itself: all of it, or with a folder's name the command alone, into that folder.
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [folder] = process.argv.slice(2);
  if (folder === undefined) process.exitCode = (await buildAll()) ? 0 : 1;
  else await buildCommand(folder);
}
