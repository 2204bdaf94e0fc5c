import { describe, expect, test } from 'vitest';
import { replay } from '../../src/cam/program/interpreter.js';
import { beamFaultsOf } from '../../src/cam/program/replay.js';
import { sentence } from '../../src/diagnostics/catalogue.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { area, extents, outlineFromBulges } from '../../src/geometry/outline.js';
import type { Job, Shop } from '../../src/input/types.js';
import type { MadeFile } from '../../src/outputs/artifact.js';
import type { Asked } from '../../src/outputs/ask.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample } from '../support/jobs.js';
import { judgeFiles, makeFiles } from '../support/made.js';
import { contoursOn } from '../support/read-plate.js';
import { readPdf } from '../writers/pdf-read.js';

/** Files of the samples by the same door as the command, in workshops with machines. */
const cnc = { cutter: 3.175, rpm: 18000, feed: 1500, plunge: 400, pass: 3 };
const tray = readSample('small-tray.yaml');

const inShop = (job: Job, more: Partial<Shop>): Job => ({ ...job, shop: { ...job.shop, ...more } });
const cutFor = (what: 'laser' | 'cnc', more: Partial<Shop> = {}): Job =>
  inShop(tray, { plate: { ...tray.shop.plate, cutFor: what }, ...more });

const made = (job: Job, options: Asked): Promise<readonly MadeFile[]> =>
  makeFiles(job, solveJob(job), options);
const judged = (job: Job, options: Asked) => judgeFiles(job, solveJob(job), options);
const textOf = (files: readonly MadeFile[], path: string): string =>
  String(files.find((file) => file.path === path)?.content);
const cutIn = (dxf: string) => contoursOn(dxf, 'CUT').map(outlineFromBulges);
const endings = (files: readonly MadeFile[]): readonly string[] =>
  [...new Set(files.map(({ path }) => path.replace(/^[^.]*/, '')))].sort();

describe('what a plate’s files hold', () => {
  test('is said in each: nominal unless asked, in the metadata and on the label', async () => {
    const files = await made(tray, { only: ['finger'], as: ['svg', 'dxf', 'pdf'] });
    for (const ending of ['svg', 'dxf']) {
      const text = textOf(files, `small-tray/finger-template-tails.${ending}`);
      expect(text.replace(/\n999\n/g, ' ')).toContain('Nominal outline in mm');
      expect(text).toMatch(/PVC or vinyl/);
      expect(text).toMatch(/local rules come first/);
    }
    const pdf = files.find(({ path }) => path.endsWith('tails.pdf'))?.content as Uint8Array;
    expect((await readPdf(pdf)).info.Subject).toContain('Nominal outline in mm');
  });

  test.each([
    ['laser', { laser: { kerf: 0.15 } }, 0.15, /laser with a kerf of .*0\.15 mm/],
    ['cnc', { cnc }, 3.175, /end mill of .*3\.175 mm/],
  ] as const)(
    'is the path of the %s where the shop cuts its plates for it',
    async (what, more, width, says) => {
      const options: Asked = { only: ['finger'], as: ['svg', 'dxf', 'pdf'] };
      const [nominal, files] = await Promise.all([made(tray, options), made(cutFor(what, more), options)]);
      for (const { path, content } of files.filter((file) => /\.(svg|dxf)$/.test(file.path))) {
        const text = String(content);
        expect(text.replace(/\n999\n/g, ' ')).toMatch(says);
        expect(text).not.toContain('Nominal');
        if (!path.endsWith('.dxf')) continue;
        const [held, plain] = [cutIn(text), cutIn(textOf(nominal, path))];
        expect(held).toHaveLength(plain.length);
        const [box, inner] = [extents(...held), extents(...plain)];
        expect(box.maxX - box.minX).toBeCloseTo(inner.maxX - inner.minX + width, 4);
        expect(box.maxY - box.minY).toBeCloseTo(inner.maxY - inner.minY + width, 4);
      }
      const pdf = files.find(({ path }) => path.endsWith('tails.pdf'))?.content as Uint8Array;
      expect((await readPdf(pdf)).info.Subject).toMatch(says);
    },
  );

  test.each([
    ['nominal', {}, 'nominal outline', 0],
    ['laser', { laser: { kerf: 0.15 } }, 'outline for a laser kerf of', 0.15],
    ['cnc', { cnc }, 'outline for an end mill of', 3.175],
  ] as const)('stands on the label and in the report: %s', (what, more, label, width) => {
    const [outcome] = solveJob(what === 'nominal' ? tray : cutFor(what, more));
    expect(outcome?.made?.report.holds).toEqual({ for: what, width });
    for (const { drawing } of outcome?.made?.templates ?? []) {
      const words = drawing.items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])).join(' ');
      expect(words).toContain(label);
    }
  });

  test('stands on a marker too: its lettering is another for another tool', async () => {
    const lettering = async (job: Job): Promise<string> => {
      const files = await made(job, { only: ['marker'], as: ['svg'] });
      const svg = textOf(files, 'small-tray/marker.svg');
      return /<g id="ENGRAVE".*?<\/g>/s.exec(svg)?.[0] ?? '';
    };
    const [nominal, laser, other] = await Promise.all([
      lettering(tray),
      lettering(cutFor('laser', { laser: { kerf: 0.15 } })),
      lettering(cutFor('laser', { laser: { kerf: 0.2 } })),
    ]);
    expect(nominal.length).toBeGreaterThan(1000);
    expect(new Set([nominal, laser, other]).size).toBe(3);
  });

  test('comes in the order of cutting: lettering, scores, holes, the outline last', async () => {
    const files = await made(tray, { only: ['finger'], as: ['svg', 'dxf'] });
    const svg = textOf(files, 'small-tray/finger-template-tails.svg');
    const layers = [...svg.matchAll(/<g id="(\w+)"/g)].map(([, id]) => id);
    expect(layers).toEqual(['ENGRAVE', 'SCORE', 'CUT', 'STOCK']);
    const sizes = cutIn(textOf(files, 'small-tray/finger-template-tails.dxf')).map((one) =>
      Math.abs(area(one)),
    );
    expect(sizes.length).toBeGreaterThan(1);
    expect(sizes.at(-1)).toBe(Math.max(...sizes));
  });

  test('is refused where the shop does not say how wide the cut is', () => {
    const [outcome] = solveJob(cutFor('laser'));
    expect(outcome?.made).toBeUndefined();
    expect(outcome?.diagnostics.map(({ code }) => code)).toContain('kerf-missing');
    const [other] = solveJob(cutFor('cnc', { cnc: { rpm: 1 } }));
    expect(other?.diagnostics.map(({ code, at }) => [code, at])).toContainEqual([
      'cutter-missing',
      'shop.plate.cut-for',
    ]);
  });

  test('is never a pattern: paper is not compensated', async () => {
    const patterns = async (job: Job) =>
      (await made(job, { only: ['pattern'], as: ['svg'] })).filter(({ path }) => path.endsWith('.svg'));
    expect(await patterns(cutFor('laser', { laser: { kerf: 0.15 } }))).toEqual(await patterns(tray));
  });
});

describe('programs', () => {
  test.each(['case-corner.yaml', 'small-tray.yaml', 'slide-box.yaml'])(
    'of %s replay without a fault, each beside its picture',
    async (name) => {
      const job = inShop(readSample(name), { cnc: { ...cnc, engraver: { tip: 0.3 } } });
      expect(await judged(job, { only: ['finger'], as: ['gcode'] })).toEqual([]);
      // Stops are small parts, and said to be.
      const codes = (await judged(job, { as: ['gcode'] })).map(({ code }) => code);
      expect([...new Set(codes)]).toEqual(['part-small']);
      const files = await made(job, { as: ['gcode'] });
      expect(endings(files)).toEqual(['.json', '.ngc', '.svg']);
      const programs = files.filter(({ path }) => path.endsWith('.ngc'));
      expect(programs.length).toBeGreaterThanOrEqual(4);
      for (const { path, content } of programs) {
        expect(replay(String(content))).toMatchObject({ faults: [], ended: true });
        expect(files.map((file) => file.path)).toContain(path.replace('.ngc', '-backplot.svg'));
      }
    },
  );

  test('are not written without speeds and feeds, and the message says how to find them', async () => {
    expect(await made(tray, { as: ['gcode'] })).toEqual(await made(tray, { as: [] }));
    const [diagnostic, ...more] = await judged(tray, { as: ['gcode'] });
    expect(more).toEqual([]);
    expect(diagnostic).toMatchObject({ code: 'mill-settings-missing', level: 'refused', at: 'shop.cnc' });
    const text = diagnostic ? sentence(diagnostic, formatterFor('mm')) : '';
    expect(text).toContain('feed = rpm × flutes × chip load');
    // No number is suggested.
    expect(text).not.toMatch(/\d/);
  });

  test('are those of a laser where the shop cuts its plates for one', async () => {
    const job = cutFor('laser', { laser: { kerf: 0.15, speed: 300, power: 900 } });
    expect((await judged(job, { as: ['gcode'] })).map(({ code, level }) => [code, level])).toContainEqual([
      'beam-marks-missing',
      'caution',
    ]);
    const programs = (await made(job, { as: ['gcode'] })).filter(({ path }) => path.endsWith('.ngc'));
    expect(programs.length).toBeGreaterThan(1);
    for (const { content } of programs) expect(beamFaultsOf(replay(String(content)))).toEqual([]);
    expect(await judged(cutFor('laser', { laser: { kerf: 0.15 } }), { as: ['gcode'] })).toMatchObject([
      { code: 'beam-settings-missing', level: 'refused' },
    ]);
  });

  test('are refused with the place for an end mill that is too wide for the plate', async () => {
    const diagnostics = await judged(inShop(tray, { cnc: { ...cnc, cutter: 12.7 } }), { as: ['gcode'] });
    expect(diagnostics.some(({ code, level }) => level === 'refused' && /under-mill$/.test(code))).toBe(true);
    for (const one of diagnostics) expect(sentence(one, formatterFor('mm'))).not.toMatch(/undefined|NaN/);
  });
});

describe('solids', () => {
  test('are refused where the ease would use up a part, else as many as there are templates', async () => {
    const files = await made(tray, { as: ['3mf', 'stl'] });
    expect(endings(files)).toEqual(['.3mf', '.json', '.stl']);
    const eased = inShop(tray, { print: { ease: 30 } });
    expect(
      (await judged(eased, { only: ['finger'], as: ['stl'] })).map(({ code, level }) => [code, level]),
    ).toContainEqual(['ease-too-large', 'refused']);
  });

  test('hold a marker that hooks, and say why not one that folds', async () => {
    expect(await judged(tray, { only: ['marker'], as: ['stl'] })).toMatchObject([
      { code: 'asked-unmade', level: 'refused', data: { why: 'folded' } },
      { code: 'marker-not-printed', level: 'ok' },
    ]);
    const [joint] = tray.joints;
    if (!joint) throw new Error('the tray has no joint');
    const hooked = { ...tray, joints: [{ ...joint, marker: { form: 'hook' as const } }] };
    const files = await made(hooked, { only: ['marker'], as: ['3mf'] });
    expect(files.map(({ path }) => path)).toContain('small-tray/marker.3mf');
  });
});
