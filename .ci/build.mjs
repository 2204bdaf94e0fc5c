// Builds dist/: the command (one file that starts fast and parts that load when used), the page, the API as
// ordinary modules with their types. `--watch` does it again whenever a source changes.
import { chmodSync, copyFileSync, rmSync, statSync, utimesSync, watch, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { bundle } from './bundle.mjs';
import { licenceTexts, packagesInside } from './licences.mjs';
import { buildPage } from './page.mjs';
import { newestSource, root, runPackage } from './steps.mjs';

/** What every command needs that reads a job is one file: each further file costs Node half a millisecond. */
const core =
  /[\\/](src[\\/](units|diagnostics|geometry|input|layout|joints|template|drawing|cam)\b|src[\\/]outputs[\\/](artifact|ask|context|drawn|finger|joint|marker|pattern|plan|plates|report|sheet)\.ts|shared[\\/]|cli[\\/]job\.ts|node_modules[\\/](zod|yaml)[\\/])/;

/** The command carries every package inside, so that a cold start reads a few files and not hundreds. */
async function buildCommand() {
  const chunks = await bundle({
    input: { halfpin: 'cli/halfpin.ts' },
    platform: 'node',
    output: {
      dir: 'dist',
      format: 'esm',
      entryFileNames: '[name].js',
      chunkFileNames: 'command/[name]-[hash].js',
      codeSplitting: { groups: [{ name: 'core', test: core }] },
      // Names are kept for the sake of a fault's stack; white space and syntax are what costs reading time.
      minify: { compress: true, mangle: false, codegen: { removeWhitespace: true } },
    },
  });
  // The library of solids looks for its machine code beside the script that it is in.
  const code = createRequire(import.meta.url).resolve('manifold-3d/manifold.wasm');
  copyFileSync(code, `${root}/dist/command/manifold.wasm`);
  chmodSync(`${root}/dist/halfpin.js`, 0o755);
  return chunks;
}

/** The API: a module for each file, with its types. Packages stay packages. */
const buildApi = () => runPackage('typescript', ['-p', '.ci/tsconfig.api.json']);

export async function buildAll() {
  rmSync(`${root}/dist`, { recursive: true, force: true });
  try {
    const chunks = (await Promise.all([buildCommand(), buildPage()])).flat();
    writeFileSync(`${root}/dist/licences.txt`, licenceTexts(packagesInside(chunks)));
  } catch (error) {
    console.error(error);
    return false;
  }
  return buildApi();
}

/** Builds unless what stands in dist/ is newer than every source; true when it stands. */
export async function buildIfStale() {
  const stamp = `${root}/dist/licences.txt`;
  const built = statSync(stamp, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (built > newestSource()) return true;
  const went = await buildAll();
  if (went) utimesSync(stamp, new Date(), new Date());
  return went;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.exitCode = (await buildAll()) ? 0 : 1;
  if (process.argv.includes('--watch')) {
    let building = Promise.resolve(true);
    let due;
    const again = () => {
      clearTimeout(due);
      due = setTimeout(() => {
        building = building.then(async () => {
          console.log(`built: ${await buildIfStale()}`);
          return true;
        });
      }, 200);
    };
    for (const folder of ['src', 'cli', 'shared']) watch(`${root}/${folder}`, { recursive: true }, again);
  }
}
