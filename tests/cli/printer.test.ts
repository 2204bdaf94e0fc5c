import { chmodSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { POINTS_PER_MM } from '../../src/writers/pdf/content.js';
import { readPdf } from '../writers/pdf-read.js';
import { builtCommand, goodJob, listing, root, workFolder, writeJob } from './command.js';

const { run } = builtCommand();
const work = workFolder();

const shopText = `# The bench by the window.
units: mm

bits: {}               # none yet
printer:               # the old one
  paper: a4            # from the box
  scale-x: 1.0         # never measured
  margin:   8 mm

# last words
`;

let count = 0;
function shopFile(text: string): string {
  count += 1;
  return writeJob(work, `shop ${count}.yaml`, text);
}

describe('halfpin printer page', () => {
  test('writes one page whose bars an outside reader finds as long as the words beside them say', async () => {
    const file = join(work, 'page.pdf');
    const { status, out, err } = await run(['printer', 'page', '--paper', 'a4', '-o', file]);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('Its bars are x 150 mm, y 250 mm.');
    const lengths = await strokeLengths(file);
    expect(lengths.some((each) => Math.abs(each - 150) < 0.01)).toBe(true);
    expect(lengths.some((each) => Math.abs(each - 250) < 0.01)).toBe(true);
    expect((await run(['printer', 'page', '--paper', 'a4', '-o', '-'])).out.length).toBeGreaterThan(1000);
    expect((await run(['printer', 'page', '--paper', 'a4', '-o', file])).status).toBe(1);
  });

  test('takes paper and factors of the shop, and says so to programs', async () => {
    const shop = shopFile(shopText.replace('scale-x: 1.0', 'scale-x: 1.01'));
    const file = join(work, 'corrected.pdf');
    const { status, out } = await run(['printer', 'page', shop, '-o', file, '--json']);
    expect(status).toBe(0);
    expect(JSON.parse(out)).toEqual({ file, bars: { x: 150, y: 250 }, factors: { x: 1.01, y: 1 } });
    expect((await strokeLengths(file)).some((each) => Math.abs(each - 150 * 1.01) < 0.01)).toBe(true);
  });
});

/** Lengths of the straight strokes of a page in mm of the paper, as pdf.js finds them. */
async function strokeLengths(file: string): Promise<readonly number[]> {
  const { pages } = await readPdf(new Uint8Array(readFileSync(file)));
  return pages.flatMap(({ strokes }) =>
    strokes.flatMap(({ points: [from, to, ...more] }) =>
      from && to && more.length === 0 ? [Math.hypot(to.x - from.x, to.y - from.y) / POINTS_PER_MM] : [],
    ),
  );
}

describe('halfpin printer set', () => {
  test('changes the numbers that were measured and no other byte', async () => {
    const shop = shopFile(shopText);
    const { status, out, err } = await run(['printer', 'set', shop, '--x', '149.6', '--y', '250.3 mm']);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(
      /scale-x: 1 -> 1\.00267 {3}\(bar of 150 mm measured 149\.6 mm\)\nscale-y: 1 -> 0\.9988 /,
    );
    // 150 / 149.6 and 250 / 250.3, to five decimals.
    expect(readFileSync(shop, 'utf8')).toBe(
      shopText.replace('scale-x: 1.0 ', 'scale-x: 1.00267 ').replace('8 mm\n', '8 mm\n  scale-y: 0.9988\n'),
    );
  });

  test.each([
    [
      'without a section',
      'units: mm\nbits: {}   # none\n',
      'units: mm\nbits: {}   # none\nprinter: { scale-x: 1.00267 }\n',
    ],
    [
      'with Windows line ends',
      'units: mm\r\nprinter:\r\n  paper: a4 # x\r\n',
      'units: mm\r\nprinter:\r\n  paper: a4 # x\r\n  scale-x: 1.00267\r\n',
    ],
    [
      'without an end of the last line',
      'units: mm\nprinter: { paper: a4 }',
      'units: mm\nprinter: { paper: a4, scale-x: 1.00267 }',
    ],
    [
      'with a byte order mark',
      '\ufeffunits: mm\nprinter: { scale-x: 1 } # é\n',
      '\ufeffunits: mm\nprinter: { scale-x: 1.00267 } # é\n',
    ],
    [
      'as JSON',
      '{ "units": "mm", "bits": {} }\n',
      '{ "units": "mm", "bits": {}, "printer": { "scale-x": 1.00267 } }\n',
    ],
    [
      'with a bad bit, which is another matter',
      'units: mm\nbits: { a: 3 }\n',
      'units: mm\nbits: { a: 3 }\nprinter: { scale-x: 1.00267 }\n',
    ],
  ])('takes a shop file %s', async (_, before, after) => {
    const shop = shopFile(before);
    expect(await run(['printer', 'set', shop, '--x', '149.6'])).toMatchObject({ status: 0, err: '' });
    expect(readFileSync(shop, 'utf8')).toBe(after);
  });

  test('takes a job that holds its shop; one that names a shop file is told which', async () => {
    const job = writeJob(work, 'own.yaml', goodJob);
    // 250 mm ÷ (9.86 × 25.4 mm) = 0.998227.
    expect(await run(['printer', 'set', job, '--y', '9.86 in'])).toMatchObject({ status: 0 });
    expect(readFileSync(job, 'utf8').replace(/\n.*scale-y: 0\.99823.*/, '')).toBe(goodJob);
    expect(await run(['check', job])).toMatchObject({ status: 0 });
    const sample = join(root, 'samples/small-tray.yaml');
    const ended = await run(['printer', 'set', sample, '--x', '150']);
    expect(ended).toMatchObject({
      status: 2,
      err: expect.stringMatching(/takes its shop from .*shop\.yaml; give that file/),
    });
  });

  test('asks which page was measured where the shop has factors, and composes them', async () => {
    const shop = shopFile('units: mm\nprinter: { scale-x: 1.01 }\n');
    const asked = await run(['printer', 'set', shop, '--x', '149.6']);
    expect(asked).toMatchObject({
      status: 1,
      err: expect.stringMatching(/--page plain .* --page corrected /),
    });
    await run(['printer', 'set', shop, '--x', '149.6', '--page', 'corrected']);
    expect(readFileSync(shop, 'utf8')).toContain('scale-x: 1.0127 '); // 1.01 × 150 / 149.6
    await run(['printer', 'set', shop, '--x', '149,6', '--page', 'plain']); // a decimal comma is a point
    expect(readFileSync(shop, 'utf8')).toContain('scale-x: 1.00267 ');
  });

  test.each([
    [['--x', '141'], 1, /--x: 141 mm .* is no scale bar within 5 %: the nearest is 150 mm .*print at 100 %/],
    [['--x', '149.6', '--y', '175'], 1, /--y: 175 mm/],
    [['--x', '1,500'], 2, /1,500/],
    [['--x', '-150'], 2, /no length|argument missing/],
    [[], 2, /give --x, --y or both/],
  ])('refuses %j, says what would do, and writes nothing', async (typed, status, says) => {
    const shop = shopFile(shopText);
    const ended = await run(['printer', 'set', shop, ...typed]);
    expect(ended).toMatchObject({ status, out: '', err: expect.stringMatching(says) });
    expect(readFileSync(shop, 'utf8')).toBe(shopText);
  });

  test('warns of a fitted page, writes nothing on a dry run, and keeps the rights of the file', async () => {
    const shop = shopFile(shopText);
    const dry = await run(['printer', 'set', shop, '--x', '145', '--dry-run', '--json']);
    expect(dry.err).toMatch(/caution: a bar of 150 mm .*fit to page/);
    expect(JSON.parse(dry.out)).toMatchObject({
      written: false,
      changes: [{ axis: 'x', nominal: 150, before: 1 }],
    });
    expect(readFileSync(shop, 'utf8')).toBe(shopText);
    chmodSync(shop, 0o600);
    await run(['printer', 'set', shop, '--x', '149.6']);
    expect(statSync(shop).mode & 0o777).toBe(0o600);
    expect(listing(work).filter((name) => name.includes('.part'))).toEqual([]);
  });

  test('a shop that cannot be read is refused at its place', async () => {
    const shop = shopFile('units: mm\nprinter: { scale-x: wide }\n');
    const ended = await run(['printer', 'set', shop, '--x', '150']);
    expect(ended.status).toBe(2);
    expect(ended.err).toMatch(/shop \d+\.yaml:2:12: shop\.printer\.scale-x: /);
  });
});
