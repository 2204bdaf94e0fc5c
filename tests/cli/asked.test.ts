import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import type { Job } from '../../src/input/types.js';
import { families } from '../../src/joints/list.js';
import {
  type Asked,
  defaultFormats,
  defaultProducts,
  formats,
  neverMade,
  type Product,
  products,
} from '../../src/outputs/ask.js';
import { solveJob } from '../../src/outputs/joint.js';
import type { Format } from '../../src/writers/list.js';
import { judgeFiles, makeFiles } from '../support/made.js';
import { builtCommand, goodJob, listing, twoJoints, workFolder, writeJob } from './command.js';

/** What `make` is asked for is made, or is an error that names what works: every combination on every kind. */

const machines = `  cnc: { cutter: 1/8, rpm: 18000, feed: 60, plunge: 15, pass: 1/8 }
`;
const sheet = (text: string) => text.replace(/plate: *\{ ([^}]*) \}/, 'plate: { $1, sheet: [60, 40] }');
const withMachines = (text: string) => sheet(text.replace(/^joints:/m, `${machines}joints:`));
const byHand = (text: string) =>
  text
    .replace(/^ {4}(cutters|cutter|bushing): .*\n/gm, '')
    .replace(/(kind: \S+dovetail)/, '$1\n    slope: 1:8');

const starters = Object.fromEntries(
  families.flatMap(({ kind, starter }) => {
    // Starters may hold their sheet already.
    const routed = starter.includes('sheet:')
      ? withMachines(starter).replace(/, sheet: \[60, 40\]/, '')
      : withMachines(starter);
    return [
      [kind, routed],
      [`${kind} by hand`, byHand(routed)],
    ];
  }),
);
const jobs: Readonly<Record<string, string>> = {
  ...starters,
  'a marker that hooks': withMachines(`${goodJob}    marker: { form: hook }\n`),
  'two joints, one by hand': withMachines(twoJoints('lid', byHand)),
};

function jobOf(name: string, text: string): Job {
  const { result } = readJob({ name, text }, families, () => undefined);
  if (!result.ok) throw new Error(`${name}: ${JSON.stringify(result.diagnostics)}`);
  return result.value;
}

const askedProducts: readonly (readonly Product[] | undefined)[] = [
  undefined,
  ...products.map((one) => [one]),
  ['finger', 'marker'],
  ['pattern', 'sheet', 'nest'],
];
const askedFormats: readonly (readonly Format[] | undefined)[] = [
  undefined,
  ...formats.map((one) => [one]),
  ['svg', 'gcode'],
  ['dxf', '3mf', 'stl'],
];

const stems: Readonly<Record<Product, RegExp>> = {
  finger: /\/finger-template/,
  carrier: /\/carrier-/,
  marker: /\/marker/,
  pattern: /\/pattern/,
  sheet: /\/set-up/,
  nest: /^nest-\d/,
};
const endings: Readonly<Record<Format, RegExp>> = {
  svg: /(?<!-backplot)\.(svg|html)$/,
  dxf: /\.dxf$/,
  pdf: /\.pdf$/,
  gcode: /\.ngc$/,
  '3mf': /\.3mf$/,
  stl: /\.stl$/,
};

/** What there is of a job: each product alone in every format, which is what all of them together hold. */
async function givenBy(job: Job): Promise<(product: Product, format: Format) => boolean> {
  const outcomes = solveJob(job);
  const alone: string[] = [];
  for (const only of products) {
    alone.push(...(await makeFiles(job, outcomes, { only: [only], as: formats })).map(({ path }) => path));
  }
  const together = (await makeFiles(job, outcomes, { only: products, as: formats })).map(({ path }) => path);
  expect(new Set(alone)).toEqual(new Set(together));
  return (product, format) => alone.some((path) => stems[product].test(path) && endings[format].test(path));
}

describe.each(Object.entries(jobs))('%s', (name, text) => {
  test('each product and format asked for has its files, or there is an error', async () => {
    const job = jobOf(name, text);
    const outcomes = solveJob(job);
    expect(outcomes.filter(({ made }) => !made).map(({ diagnostics }) => diagnostics)).toEqual([]);
    const isGiven = await givenBy(job);
    const counts = { made: 0, never: 0, refused: 0 };
    for (const only of askedProducts) {
      for (const as of askedFormats) {
        const asked: Asked = { ...(only && { only }), ...(as && { as }) };
        const combination = `--only ${only} --as ${as}`;
        const never = neverMade(asked);
        const none = (only ?? []).filter(
          (product) => !(as ?? defaultFormats).some((one) => isGiven(product, one)),
        );
        const odd = (as ?? []).filter(
          (format) => !(only ?? defaultProducts).some((one) => isGiven(one, format)),
        );
        // Where no product is made, that says it all.
        const lacking = [...none, ...(none.length === only?.length ? [] : odd)];
        const said = await judgeFiles(job, outcomes, asked);
        const refused = said.filter(({ level }) => level === 'refused');
        expect(
          refused.map(({ code, data }) => ({ code, asked: (data as { asked?: string }).asked })),
          combination,
        ).toEqual(lacking.map((one) => ({ code: 'asked-unmade', asked: one })));
        counts[lacking.length === 0 ? 'made' : never.length > 0 ? 'never' : 'refused']++;
        if (lacking.length === 0) expect(never, combination).toEqual([]);
        // What is said to work does.
        for (const { data } of refused) {
          const one = data as { what: string; asked: string; works: readonly string[] };
          for (const works of one.works) {
            const [product, format] = one.what === 'product' ? [one.asked, works] : [works, one.asked];
            expect(isGiven(product as Product, format as Format), `${combination}: ${works}`).toBe(true);
          }
        }
      }
    }
    expect(counts.made).toBeGreaterThan(8);
    expect(counts.never).toBeGreaterThan(8);
  }, 120_000);
});

test('a joint without what the others have is a caution', async () => {
  const job = jobOf('two.yaml', jobs['two joints, one by hand'] ?? '');
  const said = await judgeFiles(job, solveJob(job), { as: ['gcode'] });
  expect(said.filter(({ code }) => code === 'asked-unmade')).toMatchObject([
    { level: 'caution', at: 'joints.lid', data: { asked: 'gcode', why: 'by-hand' } },
  ]);
});

describe('the command', () => {
  const { run } = builtCommand();
  const work = workFolder();
  const routed = writeJob(work, 'routed.yaml', withMachines(goodJob));
  const hand = writeJob(work, 'hand.yaml', byHand(withMachines(goodJob)));
  const both = writeJob(work, 'both.yaml', withMachines(twoJoints('lid', byHand)));
  let count = 0;

  test.each([
    [
      2,
      routed,
      ['--only', 'marker', '--as', 'gcode'],
      /marker as gcode; it is made as svg, dxf, pdf, 3mf or stl/,
    ],
    [2, routed, ['--only', 'nest', '--as', '3mf'], /nest as 3mf; it is made as svg, dxf, pdf or gcode/],
    [2, routed, ['--only', 'finger,sheet', '--as', 'dxf'], /sheet as dxf; it is made as svg or pdf/],
    [1, routed, ['--only', 'marker', '--as', '3mf'], /form: hook/],
    [1, hand, ['--as', 'gcode'], /joints\.tray-corner: .*gcode.*cut by hand/],
    [1, hand, ['--as', 'svg,gcode'], /gcode/],
    [1, hand, ['--only', 'nest'], /nest.*cut by hand/],
    [1, both, ['--as', 'gcode', '--joint', 'lid'], /joints\.lid: .*gcode/],
    [0, both, ['--as', 'gcode'], /joints\.lid: caution: .*gcode/],
    [0, routed, ['--as', 'svg,gcode,svg'], /^(?!.*asked)/],
    [0, hand, ['--only', 'pattern,marker', '--as', 'svg'], /^$/],
  ])('ends with %d for %s %j', async (status, file, options, says) => {
    const folder = join(work, `out-${count++}`);
    const ended = await run(['make', file, '-o', folder, ...options]);
    expect(ended.err).toMatch(says);
    expect(ended.status).toBe(status);
    expect(existsSync(folder)).toBe(status === 0);
    if (status === 0) expect(listing(folder).length).toBeGreaterThan(1);
  });
});
