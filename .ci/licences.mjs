// Licences of the packages that halfpin is made with. The build puts the texts of those inside dist/ beside them;
// `node .ci/licences.mjs`, after a build, writes the list of all of them, shared/licences.md.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { root } from './steps.mjs';

/** Licences that let a program under MIT carry a package inside it. They ask for their notice, which dist/ has. */
export const mayBeInside = [
  'Apache-2.0',
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'BSL-1.0',
  'SGI-B-2.0',
];

/** Licences of tools that are used as they are and not passed on: what they ask is asked of whoever passes them on. */
export const mayBeUsed = [
  ...mayBeInside,
  'Apache-2.0',
  'MPL-2.0',
  'LGPL-3.0-or-later',
  'BlueOak-1.0.0',
  'CC0-1.0',
];

/** true when a licence, or the choice between some, or all of some (`A OR B`, `A AND B`), is among those allowed. */
export function isAllowed(licence, allowed) {
  return licence
    .replace(/[()]/g, '')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => allowed.includes(one)));
}

/** Folders of the packages whose code stands in bundled chunks. */
export function packagesInside(chunks) {
  const modules = chunks.flatMap((chunk) => Object.entries(chunk.modules ?? {}));
  const used = modules.filter(([, { renderedLength }]) => renderedLength > 0).map(([file]) => file);
  const folders = used.flatMap((file) => /.*(node_modules\/(?:@[^/]+\/)?[^/]+)/.exec(file)?.[1] ?? []);
  return [...new Set(folders)].sort();
}

/** What dist/licences.txt says: each package with its licence in full. */
export function licenceTexts(folders) {
  const each = folders.map((folder) => {
    const { name, version, license } = JSON.parse(read(`${folder}/package.json`));
    return `${'-'.repeat(80)}\n${name} ${version} (${license})\n\n${textOf(folder)}\n`;
  });
  return `halfpin carries the packages below inside its own files. Each is under the licence that stands with it.\n\n${each.join('\n')}`;
}

/** What shared/licences.md says: every package of the lock file, by where it is used. */
export function licenceTable() {
  const { inside, beside, tools } = packagesByPlace();
  const table = (packages) =>
    ['| package | version | licence |', '| --- | --- | --- |']
      .concat(packages.map(({ name, version, licence }) => `| ${name} | ${version} | ${licence} |`))
      .join('\n');
  return `# Licences

halfpin is under the MIT licence. Written by \`node .ci/licences.mjs\` from the lock file; a test compares the two.

## Inside the package

Their code is bundled into \`dist/\`. Each licence allows that and asks for its notice: \`dist/licences.txt\`.

${table(inside)}

## Installed beside it

${table(beside)}

## For development only

Used as they are and not passed on. Those for other machines are listed too.

${table(tools)}
`;
}

/** Packages of the lock file: inside dist/ after a build, wanted by package.json beside it, and all the others. */
export function packagesByPlace() {
  const wanted = Object.keys(JSON.parse(read('package.json')).dependencies);
  const carried = [...read('dist/licences.txt').matchAll(/^-{80}\n(\S+ \S+) \(/gm)].map(([, one]) => one);
  const all = lockedPackages();
  const isInside = ({ name, version }) => carried.includes(`${name} ${version}`);
  const isBeside = ({ name, place }) => wanted.includes(name) && place === `node_modules/${name}`;
  return {
    inside: all.filter(isInside),
    beside: all.filter(isBeside),
    tools: all.filter((one) => !isInside(one) && !isBeside(one)),
  };
}

/** Every package of the lock file, once for each version. */
function lockedPackages() {
  const { packages } = JSON.parse(read('package-lock.json'));
  const all = Object.entries(packages).flatMap(([place, { version, license }]) => {
    const name = place.split('node_modules/').at(-1);
    return name ? [{ name, version, licence: license ?? 'not said', place }] : [];
  });
  return all
    .filter(
      (one, i) => all.findIndex(({ name, version }) => name === one.name && version === one.version) === i,
    )
    .sort((a, b) => (a.name === b.name ? 0 : a.name < b.name ? -1 : 1));
}

function textOf(folder) {
  const files = readdirSync(`${root}/${folder}`).filter((file) =>
    /^(licen[cs]e|copying|notice|copyright)/i.test(file),
  );
  if (files.length === 0) return usualText(JSON.parse(read(`${folder}/package.json`)));
  return files.map((file) => read(`${folder}/${file}`).trim()).join('\n\n');
}

/** For a package that says ISC and forgot the file: the text that the licence has everywhere (spdx.org/licenses/ISC). */
function usualText({ name, license, author }) {
  if (license !== 'ISC' || !author) {
    throw new Error(`${name} has no licence text, which has to be passed on with its code`);
  }
  return `Copyright (c) ${typeof author === 'string' ? author : author.name}

Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby
granted, provided that the above copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING
ALL IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL,
DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS,
WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN CONNECTION WITH THE
USE OR PERFORMANCE OF THIS SOFTWARE.`;
}

function read(file) {
  return readFileSync(`${root}/${file}`, 'utf8');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  if (!existsSync(`${root}/dist/licences.txt`)) throw new Error('npm run build comes first');
  writeFileSync(`${root}/shared/licences.md`, licenceTable());
}
