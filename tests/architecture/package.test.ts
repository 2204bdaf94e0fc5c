import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from './imports.js';

/**
 * What `npm pack` makes of the built project, unpacked in an empty folder beside what it depends on, which is
 * copied from the packages that are installed here: npm finds all that it wants there, with no network.
 */
const work = mkdtempSync(join(tmpdir(), 'halfpin-package-'));
afterAll(() => rmSync(work, { recursive: true, force: true }), 60_000);
const place = join(work, 'installed');
const inPackage = join(place, 'node_modules/halfpin');

/** Without what an outer `npm test` tells its children, and with a cache of its own. */
const env = {
  ...Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name))),
  npm_config_cache: join(work, 'cache'),
  npm_config_update_notifier: 'false',
};

function npm(args: readonly string[], cwd: string): string {
  const { npm_execpath: file } = process.env;
  const options = { cwd, env, encoding: 'utf8', stdio: 'pipe' } as const;
  return file ? execFileSync(process.execPath, [file, ...args], options) : execFileSync('npm', args, options);
}

function node(args: readonly string[]) {
  return spawnSync(process.execPath, args, { cwd: place, encoding: 'utf8' });
}

interface Packed {
  readonly filename: string;
  readonly size: number;
  readonly unpackedSize: number;
  readonly files: readonly { readonly path: string }[];
}

function pack(): Packed {
  const options = ['--ignore-scripts', '--json', '--pack-destination', work];
  const [packed] = JSON.parse(npm(['pack', root, ...options], work)) as readonly Packed[];
  if (!packed) throw new Error('npm pack packed nothing');
  return packed;
}

let packed: Packed;

/** What npm installs beside the package, by the lock file: what it depends on, and what that depends on. */
const dependencies: readonly string[] = Object.entries(
  JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages as Readonly<
    Record<string, { readonly dev?: boolean; readonly devOptional?: boolean; readonly optional?: boolean }>
  >,
)
  .filter(([place, { dev, devOptional, optional }]) => place !== '' && !dev && !devOptional && !optional)
  .map(([place]) => place);

beforeAll(() => {
  packed = pack();
  for (const one of dependencies) cpSync(join(root, one), join(place, one), { recursive: true });
  writeFileSync(
    join(place, 'package.json'),
    '{ "private": true, "type": "module", "dependencies": { "halfpin": "*" } }\n',
  );
  mkdirSync(inPackage, { recursive: true });
  execFileSync('tar', ['-xzf', join(work, packed.filename), '--strip-components=1', '-C', inPackage]);
  npm(['rebuild', '--ignore-scripts'], place); // links the command
}, 120_000);

describe('the package', () => {
  test('holds what it needs and nothing else', () => {
    const paths = packed.files.map(({ path }) => path);
    const top = new Set(paths.map((path) => path.split('/')[0]));
    const expected = 'CHANGELOG.md DEVELOPERS.md LICENSE README.md dist package.json samples shared';
    expect([...top].sort().join(' ')).toBe(expected);
    const pages = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md'].map((name) =>
      readFileSync(join(inPackage, name), 'utf8'),
    );
    const links = [...pages.join('\n').matchAll(/\]\(([^)#]+)\)/g)].map(([, link]) => link ?? '');
    for (const link of links.filter((one) => !one.startsWith('http'))) {
      expect(existsSync(join(inPackage, link)), link).toBe(true);
    }
    expect(existsSync(join(inPackage, 'dist/licences.txt'))).toBe(true);
  });

  test('brings what it depends on and no more', () => {
    const { dependencies: wanted } = JSON.parse(readFileSync(join(inPackage, 'package.json'), 'utf8'));
    for (const name of Object.keys(wanted))
      expect(existsSync(join(place, 'node_modules', name)), name).toBe(true);
    expect(() => npm(['ls', '--all'], place)).not.toThrow();
  });

  test('is as large as .ci/README.md says', () => {
    const page = readFileSync(join(root, '.ci/README.md'), 'utf8').replace(/\s+/g, ' ');
    const [, ...said] = /([\d.]+) MB packed, ([\d.]+) MB unpacked, ([\d.]+) MB with/.exec(page) ?? [];
    const bytes = [packed.size, packed.unpackedSize, sizeOf(join(place, 'node_modules'))];
    expect(said).toHaveLength(3);
    for (const [i, one] of said.entries()) {
      const measured = (bytes[i] ?? 0) / 1e6;
      expect(Math.abs(measured - Number(one)), `${measured} MB`).toBeLessThan(0.25 * measured);
    }
  });

  test('makes a sample by npx', () => {
    npm(
      ['exec', '--no', '--', 'halfpin', 'make', 'node_modules/halfpin/samples/small-tray.yaml', '-o', 'tray'],
      place,
    );
    const made = readdirSync(join(place, 'tray/small-tray'));
    expect(made).toContain('set-up.pdf');
    const plate = readFileSync(join(place, 'tray/small-tray/finger-template-tails.svg'), 'utf8');
    expect(plate).toMatch(/^<\?xml[\s\S]*<\/svg>\s*$/);
  });

  test('gives Node every name of its API, and cuts a joint with it', () => {
    writeFileSync(
      join(place, 'api.js'),
      `import { readFileSync } from 'node:fs';
       import { families, formats, makeFiles, plan, readJob } from 'halfpin';
       const sample = (name) => readFileSync('node_modules/halfpin/samples/' + name, 'utf8');
       const { result } = readJob({ name: 'box.yaml', text: sample('slide-box.yaml') }, families, sample);
       const files = await makeFiles(result.value, { as: formats.filter((one) => one !== 'gcode') });
       const { diagnostics } = await plan(result.value, { as: formats });
       const endings = new Set(files.value.map(({ path }) => path.split('.').at(-1)));
       const codes = (all) => all.map(({ code }) => code);
       console.log(JSON.stringify({ codes: codes(files.diagnostics), asked: codes(diagnostics), endings: [...endings] }));`,
    );
    const { stdout, stderr } = node(['api.js']);
    expect(stderr).toBe('');
    const said = JSON.parse(stdout);
    expect(said.codes).toContain('joint-closes');
    expect(said.asked).toContain('mill-settings-missing');
    expect(said.endings).toEqual(expect.arrayContaining(['svg', 'dxf', 'pdf', '3mf', 'stl', 'json', 'html']));
  });
});

describe("a joint of one's own, drawn with the API", () => {
  // What builds and writes solids is installed by whoever wants them.
  beforeAll(() => {
    for (const name of ['manifold-3d', '@gltf-transform/core', 'property-graph']) {
      cpSync(join(root, 'node_modules', name), join(place, 'node_modules', name), { recursive: true });
    }
  });

  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const options = {
    ...{ target: 'es2023', lib: ['es2023'], strict: true, exactOptionalPropertyTypes: true },
    ...{ noUncheckedIndexedAccess: true, skipLibCheck: false, types: ['node'] },
    typeRoots: [join(root, 'node_modules/@types')],
    outDir: 'compiled',
  };

  function compile(module: object) {
    for (const name of ['shelf-housing', 'half-lap']) {
      const sample = readFileSync(join(inPackage, `samples/api/${name}.ts`), 'utf8');
      writeFileSync(join(place, `${name}.ts`), sample);
    }
    const compilerOptions = { ...options, ...module };
    writeFileSync(join(place, 'tsconfig.json'), JSON.stringify({ compilerOptions, include: ['*.ts'] }));
    return node([compiler, '-p', '.']);
  }

  test('finds its types as a bundler does', () => {
    const { stdout, status } = compile({ module: 'esnext', moduleResolution: 'bundler', noEmit: true });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  }, 120_000);

  test('finds its types as Node does, and writes a template that suits its bushing', () => {
    const { stdout, status } = compile({ module: 'node16', moduleResolution: 'node16' });
    expect(stdout).toBe('');
    expect(status).toBe(0);
    const ran = node(['compiled/shelf-housing.js', 'out']);
    expect(ran.stderr).toBe('');
    expect(ran.status).toBe(0);
    const svg = readFileSync(join(place, 'out/shelf/finger-template-side.svg'), 'utf8');
    expect(svg).toMatch(/<\/svg>\s*$/);
    // A shelf 15 mm thick with 0.2 mm of slack, bushing 16 mm, bit 12 mm: the opening is 15.2 + (16 − 12) wide,
    // its lower wall 0.1 mm and half of 4 mm below the shelf's lower face.
    const xs = wallsOf(readFileSync(join(place, 'out/shelf/finger-template-side.dxf'), 'utf8'));
    expect(xs).toEqual(expect.arrayContaining([90 - 0.1 - 2, 90 - 0.1 - 2 + 19.2].map((x) => x.toFixed(3))));
    expect(productsOf('shelf', ran.stdout)).toEqual({
      codes: ['joint-closes'],
      boards: ['side', 'shelf'],
      files: [
        'carrier-side',
        'finger-template-side',
        'finger-template-side-mirrored',
        'pattern-side',
        ...OTHERS,
      ],
    });
    const sheet = wordsOf(readFileSync(join(place, 'out/shelf/set-up.html'), 'utf8'));
    // The side lies flat, inside face up; the right one is the left one's mirror image. There is no second board to cut.
    expect(sheet).toMatch(/Left side .*?Inside face up .*? at the left stop, plate side /);
    expect(sheet).toMatch(/Right side .*?Inside face up .*? at the right stop, plate side-mirrored /);
    expect(sheet).not.toMatch(/outside face|corner 1|pin board|on end/);
  }, 120_000);

  test('a second one, of another shape, gets every product with nothing else touched', () => {
    expect(compile({ module: 'node16', moduleResolution: 'node16' }).stdout).toBe('');
    const ran = node(['compiled/half-lap.js', 'lap']);
    expect(ran.stderr).toBe('');
    expect(productsOf('corner', ran.stdout)).toEqual({
      codes: ['joint-closes'],
      boards: ['one', 'two'],
      files: [
        'carrier-one',
        'carrier-two',
        'finger-template-one',
        'finger-template-two',
        'pattern-one',
        'pattern-two',
        ...OTHERS,
      ],
    });
    const sheet = wordsOf(readFileSync(join(place, 'lap/corner/set-up.html'), 'utf8'));
    expect(sheet).toMatch(/First end of board one .*?Inside face up .*? at the left stop, plate one /);
    expect(sheet).toMatch(/Second end of board two .*?Outside face up .*? at the right stop, plate two /);
    const report = JSON.parse(readFileSync(join(place, 'lap/corner/report.json'), 'utf8'));
    // Long grain to long grain: the lap itself, 50 by 50 mm.
    expect(report.testcut.glueArea).toBeCloseTo(2500, 0);
  }, 120_000);

  test('puts a template into a model of makerjs, and back, with every line of it', () => {
    cpSync(join(inPackage, 'samples/api/plate-with-a-grip.js'), join(place, 'plate-with-a-grip.js'));
    const ran = node(['plate-with-a-grip.js', 'grip.svg']);
    expect(ran.stderr).toBe('');
    expect(ran.status).toBe(0);
    const svg = readFileSync(join(place, 'grip.svg'), 'utf8');
    expect(svg).toMatch(/<\/svg>\s*$/);
    // The outline with its grip, two screw holes, four for the stops and the hole in the grip.
    const cut = /<g[^>]*CUT[\s\S]*?<\/g>/.exec(svg)?.[0] ?? '';
    expect(cut.match(/Z"/g)).toHaveLength(8);
    expect(cut.match(/<path/g)).toHaveLength(8);
  });

  test('makes a job by the program of the README', () => {
    const readme = readFileSync(join(inPackage, 'samples/api/README.md'), 'utf8');
    const program = /```js\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    expect(program.trimEnd().split('\n').length).toBeLessThanOrEqual(20);
    writeFileSync(join(place, 'readme.js'), program);
    cpSync(join(inPackage, 'samples/small-tray.yaml'), join(place, 'small-tray.yaml'));
    cpSync(join(inPackage, 'samples/shop.yaml'), join(place, 'shop.yaml'));
    const ran = node(['readme.js', 'small-tray.yaml', 'made']);
    expect(ran.status).toBe(0);
    expect(readdirSync(join(place, 'made/small-tray'))).toEqual(
      expect.arrayContaining(['finger-template-tails.svg', 'set-up.pdf', 'report.json']),
    );
    const text = readFileSync(join(place, 'small-tray.yaml'), 'utf8').replace('width: 5-1/2', 'width: 5-1/0');
    writeFileSync(join(place, 'wrong.yaml'), text);
    const refused = node(['readme.js', 'wrong.yaml', 'none']);
    expect(refused.status).toBe(1);
    expect(refused.stderr).toMatch(/^wrong\.yaml:\d+:\d+: joints\.small-tray\.width: /);
    expect(existsSync(join(place, 'none'))).toBe(false);
  }, 60_000);
});

/** What every joint has besides plates and patterns. */
const OTHERS = ['report', 'set-up', 'solid-apart', 'solid-closed'];

/** What a sample's program says: the names of the files of its joint, and the line of data at the end. */
function productsOf(joint: string, stdout: string) {
  const lines = stdout.trim().split('\n');
  const names = lines.slice(0, -1).map((path) => path.replace(`${joint}/`, '').replace(/\.[^.]+$/, ''));
  return { ...JSON.parse(lines.at(-1) ?? '{}'), files: [...new Set(names)].sort() };
}

/** The words of a page, without its pictures. */
function wordsOf(html: string): string {
  return html
    .replace(/<(svg|style)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');
}

/** x of every vertex of a DXF, to the thousandth. */
function wallsOf(dxf: string): readonly string[] {
  return [...dxf.matchAll(/\n\s*10\r?\n\s*(-?[\d.]+)/g)].map(([, x]) => Number(x).toFixed(3));
}

function sizeOf(folder: string): number {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0);
}
