import { builtinModules } from 'node:module';
import { dirname } from 'node:path';
import { describe, expect, test } from 'vitest';
import { filesBelow, type Import, importsOf, textOf } from './imports.js';

/**
 * The direction of dependencies, told in DEVELOPERS.md, "Folders": which folders a folder may import from, itself
 * left out. Any of them may import diagnostics and units. `shared` holds data tables that every folder may read.
 */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  units: [],
  diagnostics: [],
  geometry: [],
  input: [],
  layout: ['input'],
  joints: ['layout', 'input', 'geometry'],
  fit: ['joints', 'layout', 'input', 'drawing', 'geometry'],
  drawing: ['geometry'],
  template: ['joints', 'layout', 'input', 'drawing', 'geometry'],
  'set-up': ['joints', 'input', 'template', 'geometry'],
  sheet: ['set-up', 'joints', 'layout', 'input', 'template', 'drawing', 'geometry'],
  cam: ['input', 'drawing', 'geometry'],
  writers: ['drawing', 'geometry'],
  verify: ['geometry', 'drawing'],
  outputs: [
    ...['joints', 'layout', 'input', 'template', 'cam', 'sheet', 'writers'],
    ...['verify', 'fit', 'set-up', 'drawing', 'geometry'],
  ],
  page: ['outputs', 'joints', 'layout', 'input', 'template', 'verify', 'drawing', 'geometry'],
  shared: [],
};
const everywhere = ['units', 'diagnostics', 'shared'];

/** What verify may know of the folders whose work it judges: types, nothing that runs. */
const verifyTypesOnly = ['set-up', 'template', 'joints', 'layout', 'input'];

/** The public API may import from any folder. */
const composers = ['src/index.ts'];

/** The command uses what the public API is made of, and the plain words and numbers that it writes. */
const cliMayImport = ['diagnostics', 'units'];

/** Files over 400 lines, each with the reason why a second file would not make it plainer. */
const longFiles: Readonly<Record<string, string>> = {
  'tests/input/bad-files.ts': 'a table: one row for each bad job file',
};

const srcFiles = filesBelow('src');
const cliFiles = filesBelow('cli');
const imports = [...srcFiles, ...cliFiles].flatMap(importsOf);
const between = imports.filter((one) => one.isFile);

function folderOf(file: string): string {
  const [top = '', second = ''] = file.split('/');
  return top === 'src' ? second.replace(/\.ts$/, '') : top;
}

function said(list: readonly Import[]): readonly string[] {
  return list.map(({ from, to }) => `${from} imports ${to}`);
}

describe('imports', () => {
  test('is not empty, so that the checks below have something to hold', () => {
    expect(srcFiles.length).toBeGreaterThan(30);
    expect(cliFiles.length).toBeGreaterThan(5);
    expect(between.length).toBeGreaterThan(100);
  });

  test('every folder of src stands in the table', () => {
    const unknown = srcFiles.filter((file) => !composers.includes(file) && !(folderOf(file) in mayImport));
    expect(unknown).toEqual([]);
  });

  test('DEVELOPERS.md has the same table', () => {
    const row = /^\| `src\/([\w-]+)` \|[^|]*\| ([^|;]+?)(?:; types of ([^|]+?))? \|$/gm;
    const list = (names = '–') => (names === '–' ? [] : names.split(', ').sort());
    const told = [...textOf('DEVELOPERS.md').matchAll(row)].map(([, folder = '', names, types]) => ({
      folder,
      imports: list(names),
      types: list(types),
    }));
    const held = Object.entries(mayImport)
      .filter(([folder]) => folder !== 'shared')
      .map(([folder, names]) => ({
        folder,
        imports: [...names].sort(),
        types: folder === 'verify' ? [...verifyTypesOnly].sort() : [],
      }));
    const byName = (one: { folder: string }, other: { folder: string }) =>
      one.folder < other.folder ? -1 : 1;
    expect(told.sort(byName)).toEqual(held.sort(byName));
  });

  test('folders import only in the direction of the table', () => {
    const wrong = between.filter((one) => one.from.startsWith('src/') && !isAllowed(one));
    expect(said(wrong)).toEqual([]);
  });

  test('verify knows of templates and joints nothing but types', () => {
    const wrong = between.filter(
      ({ from, to, typeOnly }) =>
        folderOf(from) === 'verify' && verifyTypesOnly.includes(folderOf(to)) && !typeOnly,
    );
    expect(said(wrong)).toEqual([]);
  });

  test('no writer imports another, except the list', () => {
    expect(said(sideways('writers'))).toEqual([]);
  });

  test('no joint family imports another, except the list', () => {
    expect(said(sideways('joints'))).toEqual([]);
  });

  test('src imports nothing of Node and cli is the only one to name it', () => {
    const builtins = new Set(builtinModules);
    const wrong = imports.filter(
      ({ from, to, isFile }) =>
        from.startsWith('src/') &&
        !isFile &&
        (to.startsWith('node:') || builtins.has(to.split('/')[0] ?? '')),
    );
    expect(said(wrong)).toEqual([]);
    const globals = /\b(process\.(env|argv|cwd|exit|stdout|stderr)|require\(|__dirname|Buffer\.)/;
    expect(srcFiles.filter((file) => globals.test(textOf(file)))).toEqual([]);
  });

  test('src reads no clock and no random number: the same job gives the same bytes', () => {
    const unsteady = /\b(Math\.random|Date\.now|new Date\(\)|performance\.now|crypto\.)/;
    expect(srcFiles.filter((file) => unsteady.test(textOf(file)))).toEqual([]);
  });

  test('the command imports what the API exports', () => {
    const doors = importsOf('src/index.ts').map(({ to }) => to);
    const wrong = between.filter(
      ({ from, to, typeOnly }) =>
        from.startsWith('cli/') &&
        to.startsWith('src/') &&
        !typeOnly &&
        !doors.includes(to) &&
        !cliMayImport.includes(folderOf(to)),
    );
    expect(said(wrong)).toEqual([]);
  });

  test('relative imports end in .js and lead to a file', () => {
    const all = new Set([...srcFiles, ...cliFiles, ...filesBelow('shared')]);
    const lost = between.filter(({ to }) => !to.endsWith('.json') && !all.has(to));
    expect(said(lost)).toEqual([]);
  });

  test('no file imports itself by a circle', () => {
    expect(circles()).toEqual([]);
  });

  test('a file over 400 lines has a reason', () => {
    const long = [...srcFiles, ...cliFiles, ...filesBelow('tests')].filter(
      (file) => textOf(file).split('\n').length > 401,
    );
    expect(long.filter((file) => !(file in longFiles))).toEqual([]);
    expect(Object.keys(longFiles).filter((file) => !long.includes(file))).toEqual([]);
  });
});

function isAllowed({ from, to, typeOnly }: Import): boolean {
  const [here, there] = [folderOf(from), folderOf(to)];
  if (here === there) return true;
  if (composers.includes(from)) return !to.startsWith('cli/');
  if (composers.includes(to)) return false;
  if (everywhere.includes(there)) return here !== 'units' || there === 'shared';
  if (here === 'verify' && typeOnly && verifyTypesOnly.includes(there)) return true;
  return mayImport[here]?.includes(there) ?? false;
}

/**
 * Imports from one member of a folder's list to another, or to a file that belongs to another member: a member
 * may have a folder of its own, `box/fields.ts` beside `box/box.ts`. Files of no member are helpers that all may use.
 */
function sideways(where: string): readonly Import[] {
  const members = membersOf(`src/${where}/list.ts`).map((file) => file.replace(/\.ts$/, ''));
  const folders = members.map((member) => dirname(member));
  const own = (member: string) => {
    const folder = dirname(member);
    return folder !== `src/${where}` && folders.filter((one) => one === folder).length === 1;
  };
  const ownerOf = (file: string) =>
    members.find(
      (member) => file === `${member}.ts` || (own(member) && file.startsWith(`${dirname(member)}/`)),
    );
  return between.filter(
    ({ from, to }) =>
      folderOf(from) === where &&
      from !== `src/${where}/list.ts` &&
      ownerOf(to) !== undefined &&
      ownerOf(from) !== ownerOf(to),
  );
}

function membersOf(list: string): readonly string[] {
  return importsOf(list)
    .filter(({ isFile, typeOnly }) => isFile && !typeOnly)
    .map(({ to }) => to);
}

/** One line for each circle of imports, types counted too. */
function circles(): readonly string[] {
  const next = new Map<string, readonly string[]>();
  for (const { from, to } of between) next.set(from, [...(next.get(from) ?? []), to]);
  const found: string[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const walk = (file: string, trail: readonly string[]): void => {
    if (state.get(file) === 'done') return;
    if (state.get(file) === 'open') {
      found.push([...trail.slice(trail.indexOf(file)), file].join(' → '));
      return;
    }
    state.set(file, 'open');
    for (const to of next.get(file) ?? []) walk(to, [...trail, file]);
    state.set(file, 'done');
  };
  for (const file of next.keys()) walk(file, []);
  return found;
}
