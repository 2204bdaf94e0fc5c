import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, readlinkSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { formats } from '../../src/writers/list.js';
import { builtCommand, contents, goodJob, listing, workFolder, writeJob } from './command.js';

/** What can go wrong around a file: nothing half-written stays under a final name, and the message says why. */

const { run, file: command, folder: builtIn } = builtCommand();
const work = workFolder();
chmodSync(work, 0o755); // for the tests that run the command as another user

const machines = `  laser: { kerf: 0.15 mm, speed: 600 mm, power: 80, score-speed: 1200 mm, score-power: 20, bed: [900 mm, 600 mm] }
  cnc: { cutter: 1/8, rpm: 18000, feed: 1500 mm, plunge: 400 mm, pass: 3 mm, safe-height: 5 mm, engraver: { tip: 0.3 mm, depth: 0.2 mm } }
`;
const jobText = goodJob.replace('joints:\n', `${machines}joints:\n`);
const job = writeJob(work, 'tray.yaml', jobText);
const every = ['--as', formats.join(',')];
const some = ['--only', 'finger', '--as', 'svg,gcode'];
const usual = join(work, 'usual');

/** Every file of a folder is byte for byte that of the usual run; the manifest names those that are there. */
function expectAsUsual(folder: string): void {
  const wanted = contents(usual);
  const got = contents(folder);
  expect(got.size).toBeGreaterThan(3);
  expect(namedIn(folder)).toEqual([...got.keys()].filter((path) => path !== MANIFEST).sort());
  for (const [path, content] of got) {
    if (path !== MANIFEST) expect(content === wanted.get(path), path).toBe(true);
  }
}

const MANIFEST = 'manifest.json';

function namedIn(folder: string): readonly string[] {
  const { files } = JSON.parse(readFileSync(join(folder, MANIFEST), 'utf8')) as {
    readonly files: readonly { readonly path: string }[];
  };
  return files.map(({ path }) => path).sort();
}

/** The same job, its shop in a file beside it. */
const [, inner = ''] = /^shop:\n((?: .*\n)+)/m.exec(jobText) ?? [];
const shopText = `units: in\n${inner.replace(/^ {2}/gm, '')}printer: { scale-x: 1 }  # not measured yet\n`;
const splitText = jobText.replace(`shop:\n${inner}`, 'shop: ./shop.yaml\n');

const isRoot = process.getuid?.() === 0;
const nobody = isRoot ? { uid: 65534 } : {};
const half = (folder: string) => listing(folder).filter((name) => name.endsWith('.part'));

/** A mill is told of the stops and fences that are small enough to tear loose, and of nothing else. */
const nothingButSmallParts = expect.stringMatching(/^(.*: caution: carrier-.*small parts tear loose.*\n?)*$/);

beforeAll(async () => {
  expect(await run(['make', job, '-o', usual, ...every])).toMatchObject({
    status: 0,
    err: nothingButSmallParts,
  });
  for (const ending of formats.map((one) => (one === 'gcode' ? 'ngc' : one))) {
    expect(
      listing(usual).some((name) => name.endsWith(`.${ending}`)),
      ending,
    ).toBe(true);
  }
}, 60_000);

describe('a place that writes 1,5 for 1.5', () => {
  const env = { LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8', LC_NUMERIC: 'de_DE.UTF-8' };

  test('gives the same bytes in every format, and the same numbers in messages', async () => {
    const said = spawnSync(process.execPath, ['-p', '(1.5).toLocaleString()'], { env, encoding: 'utf8' });
    expect(said.stdout).toBe('1,5\n'); // else the rest shows nothing
    const folder = join(work, 'comma');
    expect(await run(['make', job, '-o', folder, ...every], { env })).toMatchObject({
      status: 0,
      err: nothingButSmallParts,
    });
    expect(contents(folder)).toEqual(contents(usual));
    const shop = writeJob(work, 'comma-shop.yaml', shopText);
    const set = await run(['printer', 'set', shop, '--x', '149.6'], { env });
    expect(set.out).toContain('scale-x: 1 -> 1.00267 ');
    expect(readFileSync(shop, 'utf8')).toBe(shopText.replace('scale-x: 1 ', 'scale-x: 1.00267 '));
    expect((await run(['check', job], { env })).out).toBe((await run(['check', job])).out);
  }, 60_000);
});

describe('Windows line ends', () => {
  const windows = (text: string) => text.replace(/\n/g, '\r\n');

  test('in job and shop give the same bytes, and no place in a message moves', async () => {
    const folder = join(work, 'windows');
    mkdirSync(folder);
    const shop = writeJob(folder, 'shop.yaml', windows(shopText));
    const split = writeJob(folder, 'tray.yaml', `\ufeff${windows(splitText)}`);
    const made = await run(['make', split, '-o', join(folder, 'out'), ...some]);
    expect(made).toMatchObject({ status: 0, err: nothingButSmallParts });
    expectAsUsual(join(folder, 'out'));
    await run(['printer', 'set', shop, '--y', '199.5']);
    const set = readFileSync(shop, 'utf8');
    expect(set).toBe(windows(shopText).replace('scale-x: 1 }', 'scale-x: 1, scale-y: 1.00251 }'));
    const bad = splitText.replace('width: 4-1/2', 'width: wide');
    const [one, two] = [writeJob(folder, 'bad.yaml', bad), writeJob(folder, 'bad-w.yaml', windows(bad))];
    const [plain, other] = [await run(['check', one]), await run(['check', two])];
    expect(other.err.replaceAll('bad-w', 'bad')).toBe(plain.err);
    expect(plain.err).toMatch(/bad\.yaml:\d+:\d+: joints\.tray-corner\.width/);
  }, 60_000);
});

describe('a full disk', () => {
  /** Runs commands on a disk of 64 kB of their own, which is gone with them; undefined where that is not allowed. */
  function onSmallDisk(script: string): { out: string; err: string } | undefined {
    const disk = join(work, 'disk');
    mkdirSync(disk, { recursive: true });
    const mount = 'mount -t tmpfs -o size=64k small "$0" || exit 99; cd "$0"; ';
    const typed = ['-rm', 'sh', '-c', mount + script, disk, process.execPath, command, job];
    const ended = spawnSync('unshare', typed, { encoding: 'utf8', env: { PATH: process.env.PATH ?? '' } });
    return ended.status === 0 ? { out: ended.stdout, err: ended.stderr } : undefined;
  }

  test('is said, and leaves nothing: no file, no folder, and the old shop as it was', ({ skip }) => {
    writeJob(work, 'full-shop.yaml', shopText);
    const ended = onSmallDisk(`cp ../full-shop.yaml shop.yaml
      "$1" "$2" make "$3" -o out --as svg,pdf,dxf; echo "status $?"
      "$1" "$2" printer page -o page.pdf; echo "status $?"
      head -c 1000000 /dev/zero > ballast 2>/dev/null
      "$1" "$2" printer set shop.yaml --x 149.6; echo "status $?"
      "$1" "$2" new box -o new.yaml; echo "status $?"
      rm -f ballast; find . -type f -size +0 -name '*.pdf' ; find . -mindepth 1 -not -name page.pdf | sort; cmp shop.yaml ../full-shop.yaml && echo same`);
    if (ended === undefined) return skip('no disk of one own may be mounted here');
    expect(ended.out).toMatch(/^status 1\n/);
    expect(ended.out.match(/^status 1$/gm)?.length).toBeGreaterThanOrEqual(3);
    expect(ended.err.match(/cannot write in .*: the disk is full/g)?.length).toBeGreaterThanOrEqual(3);
    expect(ended.out).toMatch(/\n\.\/shop\.yaml\nsame\n$/);
    expect(ended.out).not.toMatch(/\.part|\.\/out|new\.yaml/);
    expect(ended.err).not.toMatch(/a fault in halfpin|\n\s+at /);
  }, 60_000);

  test('a file that may not grow: whatever ends the command, no final name holds a part', () => {
    const folder = join(work, 'limited');
    const typed = ['-c', 'ulimit -f 8; exec "$0" "$@"', process.execPath, command, 'make', job, '-o', folder];
    const ended = spawnSync('sh', typed, { encoding: 'utf8' });
    expect(ended.status === 0).toBe(false);
    expect(ended.signal ?? ended.stderr).toMatch(/SIGXFSZ|too large for this disk/);
    const final = (() => {
      try {
        return listing(folder).filter((name) => !name.endsWith('.part'));
      } catch {
        return []; // not even the folder
      }
    })();
    expect(final).toEqual([]);
  }, 60_000);
});

describe('a folder that may not be written in', () => {
  test('is named by every command that writes, and is left as it was', async () => {
    const folder = join(work, 'closed');
    mkdirSync(folder);
    writeJob(folder, 'shop.yaml', shopText);
    chmodSync(folder, 0o555);
    chmodSync(builtIn, 0o755);
    const before = contents(folder);
    const commands = [
      ['make', job, '-o', join(folder, 'out')],
      ['printer', 'page', '-o', join(folder, 'page.pdf')],
      ['printer', 'set', join(folder, 'shop.yaml'), '--x', '149.6'],
      ['new', 'box', '-o', join(folder, 'new.yaml')],
      ['schema', '-o', join(folder, 'schema.json')],
    ];
    for (const typed of commands) {
      const ended = await run(typed, nobody);
      expect(ended.status, typed.join(' ')).toBe(1);
      expect(ended.err).toMatch(/^halfpin: cannot write in .*closed.*: you are not allowed to\n$/);
      expect(ended.out).toBe('');
    }
    expect(contents(folder)).toEqual(before);
    chmodSync(folder, 0o755);
  }, 60_000);
});

describe('a kill that nobody can catch, at the worst moment', () => {
  /** Ends the process in place of the first rename that gives a staged file its final name. */
  const planted = encodeURIComponent(
    'import fs from "node:fs"; import { syncBuiltinESMExports } from "node:module";' +
      'fs.renameSync = () => process.kill(process.pid, "SIGKILL"); syncBuiltinESMExports();',
  );
  const env = { NODE_OPTIONS: `--import=data:text/javascript,${planted}` };

  test('leaves the old shop whole, and the next run clears up and writes', async () => {
    const folder = join(work, 'killed');
    mkdirSync(folder);
    const shop = writeJob(folder, 'shop.yaml', shopText);
    expect((await run(['printer', 'set', shop, '--x', '149.6'], { env })).status).toBe(137);
    expect(readFileSync(shop, 'utf8')).toBe(shopText);
    expect(half(folder)).toHaveLength(1);
    expect(await run(['printer', 'set', shop, '--x', '149.6'])).toMatchObject({ status: 0 });
    expect(readFileSync(shop, 'utf8')).toContain('scale-x: 1.00267');
    expect(listing(folder)).toEqual(['shop.yaml']);
  });

  test('leaves the old files of make whole', async () => {
    const folder = join(work, 'killed-make');
    const only = ['--only', 'finger', '--as', 'svg'];
    await run(['make', job, '-o', folder, ...only]);
    const before = contents(folder);
    const other = writeJob(work, 'other.yaml', jobText.replace('tails: 3', 'tails: 2'));
    expect((await run(['make', other, '-o', folder, '--force', ...only], { env })).status).toBe(137);
    expect(half(folder).length).toBeGreaterThan(0);
    for (const [name, content] of before) expect(contents(folder).get(name)).toBe(content);
    expect(await run(['make', other, '-o', folder, '--force', ...only])).toMatchObject({ status: 0 });
    expect(half(folder)).toEqual([]);
    expect(contents(folder)).not.toEqual(before);
  }, 60_000);
});

describe('links and names', () => {
  test('a linked output folder, a linked shop and a linked file stay links, and what they lead to is written', async () => {
    const folder = join(work, 'links');
    mkdirSync(join(folder, 'real/shops'), { recursive: true });
    symlinkSync('real', join(folder, 'out'));
    expect(await run(['make', job, '-o', join(folder, 'out/made'), ...some])).toMatchObject({ status: 0 });
    expectAsUsual(join(folder, 'real/made'));
    const real = writeJob(folder, 'real/shops/bench.yaml', shopText);
    symlinkSync('real/shops/bench.yaml', join(folder, 'shop.yaml'));
    expect(await run(['printer', 'set', join(folder, 'shop.yaml'), '--x', '149.6'])).toMatchObject({
      status: 0,
    });
    expect(readlinkSync(join(folder, 'shop.yaml'))).toBe('real/shops/bench.yaml');
    expect(readFileSync(real, 'utf8')).toContain('scale-x: 1.00267');
    symlinkSync('real/page.pdf', join(folder, 'page.pdf'));
    const page = ['printer', 'page', '-o', join(folder, 'page.pdf')];
    expect(await run(page)).toMatchObject({ status: 0, err: nothingButSmallParts }); // the link led nowhere yet
    expect(readlinkSync(join(folder, 'page.pdf'))).toBe('real/page.pdf');
    expect(readFileSync(join(folder, 'real/page.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(await run(page)).toMatchObject({ status: 1, err: expect.stringContaining('exists already') });
    expect(await run([...page, '--force'])).toMatchObject({ status: 0, err: nothingButSmallParts });
    expect(readlinkSync(join(folder, 'page.pdf'))).toBe('real/page.pdf');
    expect(half(folder)).toEqual([]);
  }, 60_000);

  test.each(['Käfer und Blätter (標本) & ящик', `it's 3 of 4 "tray", #1 %20`])(
    'a path of the name %j is one like any other',
    async (name) => {
      const folder = join(work, 'names', name);
      mkdirSync(folder, { recursive: true });
      const shop = writeJob(folder, `${name} shop.yaml`, shopText);
      const reference = JSON.stringify(`./${name} shop.yaml`);
      const split = writeJob(folder, `${name}.yaml`, splitText.replace('./shop.yaml', reference));
      const out = join(folder, `${name} out`);
      expect(await run(['make', split, '-o', out, ...some])).toMatchObject({
        status: 0,
        err: nothingButSmallParts,
      });
      expectAsUsual(out);
      const page = join(folder, `${name}.pdf`);
      expect(await run(['printer', 'page', shop, '-o', page])).toMatchObject({
        status: 0,
        err: nothingButSmallParts,
      });
      expect(readFileSync(page).subarray(0, 5).toString()).toBe('%PDF-');
      const set = await run(['printer', 'set', shop, '--x', '149.6']);
      expect(set).toMatchObject({ status: 0, err: '', out: expect.stringContaining(shop) });
      expect(half(folder)).toEqual([]);
    },
    60_000,
  );
});
