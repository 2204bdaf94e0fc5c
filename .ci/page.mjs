// Builds dist/board.html: the drawing-board page in one file that needs no server and no network. Its scripts are
// carried packed (deflate, base64) and are named by their hashes in the page's own security policy, so that the
// page runs nothing else and talks with nobody but the command that may have served it.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deflateSync } from 'node:zlib';
import { build, transform } from 'esbuild';
import { slim } from './slim.mjs';
import { root } from './steps.mjs';

const folder = `${root}/src/board`;

/** Gives what esbuild says went into the page's scripts. */
export async function buildPage(outfile = `${root}/dist/board.html`) {
  const [{ text: app, ...ofApp }, { text: solidView, ...ofSolidView }, style] = await Promise.all([
    scriptOf('main.tsx'),
    scriptOf('solid/solid-view.ts', 'halfpinSolidView'),
    transform(readFileSync(`${folder}/board.css`, 'utf8'), { loader: 'css', minify: true }),
  ]);
  const loader = (await transform(readFileSync(`${folder}/loader.js`, 'utf8'), { minify: true })).code.trim();
  const policy = [
    "default-src 'none'",
    `script-src ${[loader, app, solidView].map((text) => `'${hashOf(text)}'`).join(' ')} blob:`,
    'worker-src blob:',
    "style-src 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const parts = {
    policy,
    style: style.code.trim(),
    app: packed(app),
    'solid-view': packed(solidView),
    loader,
  };
  const page = readFileSync(`${folder}/page.html`, 'utf8').replace(
    /\/\*=([a-z-]+)=\*\/|(?<=[">])=([a-z-]+)=(?=["<])/g,
    (whole, inCode, inText) => parts[inCode ?? inText] ?? whole,
  );
  mkdirSync(dirname(outfile), { recursive: true });
  writeFileSync(outfile, page);
  return { metafiles: [ofApp.metafile, ofSolidView.metafile] };
}

async function scriptOf(entry, globalName) {
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: [`src/board/${entry}`],
    bundle: true,
    format: 'iife',
    ...(globalName && { globalName }),
    minify: true,
    write: false,
    metafile: true,
    target: 'es2022',
    platform: 'browser',
    charset: 'utf8',
    mainFields: ['module', 'main'],
    jsx: 'automatic',
    jsxImportSource: 'preact',
    tsconfig: 'src/board/tsconfig.json',
    legalComments: 'none',
    plugins: [slim],
    logLevel: 'warning',
  });
  return { text: outputFiles[0].text.trim(), metafile };
}

function packed(text) {
  return deflateSync(text, { level: 9 }).toString('base64');
}

function hashOf(text) {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

// Called by itself with a file's name: the page into that file, for tests and the benchmark.
if (process.argv[1] === fileURLToPath(import.meta.url)) await buildPage(process.argv[2]);
