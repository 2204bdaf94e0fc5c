// Builds dist/board.html: the drawing-board page in one file that needs no server and no network. Its scripts are
// carried packed (deflate, base64) and are named by their hashes in the page's own security policy, so that the
// page runs nothing else and talks with nobody but the command that may have served it.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { bundle } from './bundle.mjs';
import { root } from './steps.mjs';

const folder = `${root}/src/page`;

/** Gives the chunks that went into the page's scripts. */
export async function buildPage() {
  const [app, solidView] = await Promise.all([
    scriptOf('main.tsx'),
    scriptOf('solid/solid-view.ts', { name: 'halfpinSolidView' }),
  ]);
  const loader = readFileSync(`${folder}/loader.js`, 'utf8').trim();
  const policy = [
    "default-src 'none'",
    `script-src ${[loader, app.code, solidView.code].map((text) => `'${hashOf(text)}'`).join(' ')} blob:`,
    'worker-src blob:',
    "style-src 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const parts = {
    policy,
    style: readFileSync(`${folder}/board.css`, 'utf8').trim(),
    app: packed(app.code),
    'solid-view': packed(solidView.code),
    loader,
  };
  const page = readFileSync(`${folder}/page.html`, 'utf8').replace(
    /\/\*=([a-z-]+)=\*\/|(?<=[">])=([a-z-]+)=(?=["<])/g,
    (whole, inCode, inText) => parts[inCode ?? inText] ?? whole,
  );
  mkdirSync(`${root}/dist`, { recursive: true });
  writeFileSync(`${root}/dist/board.html`, page);
  return [app, solidView];
}

async function scriptOf(entry, output = {}) {
  const [chunk] = await bundle({
    input: `src/page/${entry}`,
    platform: 'browser',
    tsconfig: 'src/page/tsconfig.json',
    output: { format: 'iife', minify: true, codeSplitting: false, comments: false, ...output },
  });
  return { ...chunk, code: chunk.code.trim() };
}

function packed(text) {
  return deflateSync(text, { level: 9 }).toString('base64');
}

function hashOf(text) {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}
