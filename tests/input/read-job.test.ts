import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultColours } from '../../shared/operations.js';
import { formatDiagnostic } from '../../src/diagnostics/format.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { layers } from '../../src/drawing/model.js';
import type { JobReading } from '../../src/input/read-job.js';
import { readJob } from '../../src/input/read-job.js';
import type { Job } from '../../src/input/types.js';
import type { BoxJoint } from '../../src/joints/box/fields.js';
import { families } from '../../src/joints/list.js';
import type { ThroughDovetailJoint } from '../../src/joints/through-dovetail/fields.js';
import { badFiles, soundJob } from './bad-files.js';
import { metricShop, slideBox, trayCorner } from './job-text.js';
import { readIn } from './kinds.js';

function linesOf({ result, locate, units }: JobReading): readonly string[] {
  return result.diagnostics.map((one) => formatDiagnostic(one, locate, formatterFor(units)));
}

function jobOf(reading: JobReading): Job {
  if (!reading.result.ok) throw new Error(linesOf(reading).join('\n'));
  return reading.result.value;
}

const shopFile = { 'cabinet/shop.yaml': metricShop };
const radians = (degrees: number) => (degrees * Math.PI) / 180;

describe('a sound job', () => {
  it('comes out in mm and radians, with tools in place of their names', () => {
    const job = jobOf(readIn({}, trayCorner));
    expect(job.title).toBe('Specimen cabinet, small tray');
    expect(job.units).toBe('in');
    const joint = job.joints[0] as ThroughDovetailJoint;
    expect(joint).toEqual({
      name: 'tray-corner',
      kind: 'through-dovetail',
      width: 88.9,
      boards: { tails: { thickness: 12.7 }, pins: { thickness: 12.7 } },
      layout: { spacing: 'even', tails: 3, pin: 12.7 },
      cutters: { tails: job.shop.bits['half-8'], pins: job.shop.bits['straight-38'] },
      bushing: { name: 'seven-sixteenths', outside: 11.1125, bore: 9.525, barrel: 3.96875 },
      slack: 0.1016,
      slackFrom: 'job',
      template: {},
    });
    expect(joint.cutters?.tails).toEqual({
      name: 'half-8',
      kind: 'dovetail',
      diameter: 12.7,
      angle: Math.atan(1 / 8),
      height: 20.6375,
      shank: 6.35,
    });
    expect(job.shop.bits['half-14']?.angle).toBeCloseTo(radians(14), 12);
    expect(job.shop.bits['straight-38']?.angle).toBe(0);
    expect(job.shop.plate).toEqual({
      material: 'plywood',
      thickness: 12.7,
      leastFinger: 4.7625,
      sheet: [609.6, 304.8],
    });
    expect(job.shop.laser).toEqual({ kerf: 0.15, bed: [600, 400] });
    expect(job.shop.cnc).toEqual({
      cutter: 3.175,
      bed: [609.6, 406.4],
      rpm: 18000,
      feed: 1500,
      plunge: 400,
      pass: 3,
      safeHeight: 5,
    });
  });

  it('takes its shop from a file beside it, in that file’s own units', () => {
    const reading = readIn(shopFile, slideBox);
    const job = jobOf(reading);
    expect(reading.files).toEqual(['cabinet/tray.yaml', 'cabinet/shop.yaml']);
    const joint = job.joints[0] as BoxJoint;
    expect(joint.layout).toEqual({ spacing: 'even', finger: 12, start: 'two' });
    expect(joint.cutter?.diameter).toBe(8);
    expect(joint.boards.two).toEqual({ thickness: 9, length: 200, material: 'lime' });
    expect(joint.template).toEqual({ hole: 4, margin: 30 });
    const inches = jobOf(
      readIn(
        shopFile,
        slideBox
          .replace('units: mm', 'units: in')
          .replace('width: 96', 'width: 4')
          .replace('0.1', '0.1 mm')
          .replace('hole: 4', 'hole: 4 mm')
          .replace('thickness: 12', 'thickness: 1/2')
          .replace('thickness: 9', 'thickness: 3/8'),
      ),
    );
    expect(inches.joints[0]?.width).toBeCloseTo(101.6, 9);
    expect((inches.joints[0] as BoxJoint).cutter?.diameter).toBe(8);
  });

  it('says nothing of kerf, feeds and speeds that its owner did not', () => {
    const { shop } = jobOf(readIn(shopFile, slideBox));
    expect(shop.laser).toBeUndefined();
    expect(shop.cnc).toBeUndefined();
    const bare = jobOf(
      readIn({}, soundJob.replace('  plate', '  laser: {}\n  cnc: { rpm: 18000 }\n  plate')),
    );
    expect(bare.shop.laser).toEqual({});
    expect(bare.shop.cnc).toEqual({ rpm: 18000 });
  });

  it('takes paper from the units, true scale, and colours that everyone can tell apart', () => {
    expect(jobOf(readIn(shopFile, slideBox)).shop.printer).toEqual({
      paper: { name: 'a4' },
      margin: 10,
      scaleX: 1,
      scaleY: 1,
    });
    const { printer, colours } = jobOf(readIn({}, soundJob)).shop;
    expect(printer.paper).toEqual({ name: 'letter' });
    expect(Object.keys(colours).sort()).toEqual([...layers].sort());
    // Okabe and Ito, Color Universal Design (2008), without the yellow.
    const set = ['#000000', '#E69F00', '#56B4E9', '#009E73', '#0072B2', '#D55E00', '#CC79A7'];
    for (const colour of Object.values(defaultColours)) expect(set).toContain(colour);
    expect(new Set(Object.values(defaultColours)).size).toBe(layers.length);
  });

  it('may bring a paper of its own', () => {
    const paper = (put: string) =>
      jobOf(readIn({}, soundJob.replace('  plate', `  printer: { paper: ${put} }\n  plate`))).shop.printer
        .paper;
    expect(paper('[13, 19]')).toEqual({ width: 330.2, height: 482.6 });
    expect(paper('Tabloid')).toEqual({ name: 'tabloid' });
  });

  it('may be hand work, without cutters, bushing or shop', () => {
    const text = `units: mm
joints:
  lid: { kind: through-dovetail, width: 120, slope: 1:7, proud: 0.5, boards: { tails: { thickness: 12 }, pins: { thickness: 12 } } }
  tray: { kind: box, width: 60, boards: { one: { thickness: 6 }, two: { thickness: 6 } } }
`;
    const [lid, tray] = jobOf(readIn({}, text)).joints as [ThroughDovetailJoint, BoxJoint];
    expect(lid.slope).toBeCloseTo(Math.atan(1 / 7), 12);
    expect(lid.proud).toBe(0.5);
    expect(lid.cutters).toBeUndefined();
    expect(lid.layout).toEqual({ spacing: 'even' });
    expect(tray.cutter).toBeUndefined();
    expect(tray.slack).toBe(0);
  });

  it('gives a joint without a fit the slack of its kind, and none to one cut by hand; a slack of zero stays', () => {
    for (const { kind, starter } of families) {
      const slackIn = (text: string) => {
        const reading = readJob({ name: `${kind}.yaml`, text }, families, () => undefined);
        const [joint] = jobOf(reading).joints;
        return { slack: joint?.slack, from: joint?.slackFrom };
      };
      const without = starter.replace(/^ {4}fit: .*\n/m, '');
      expect(without, kind).not.toContain('slack');
      expect(slackIn(without), kind).toEqual({ slack: 0.1, from: 'default' });
      expect(slackIn(`${without}    fit: { slack: 0 }\n`), kind).toEqual({ slack: 0, from: 'job' });
    }
    const byHand = trayCorner.replace(/^ {4}(cutters|bushing|fit): .*\n/gm, '');
    const [joint] = jobOf(readIn({}, `${byHand}    slope: 1:8\n`)).joints;
    expect(joint).toMatchObject({ slack: 0, slackFrom: 'default' });
  });

  it('reads the same with Windows line ends, a byte order mark, and as JSON', () => {
    const job = jobOf(readIn({}, trayCorner));
    expect(jobOf(readIn({}, trayCorner.replaceAll('\n', '\r\n')))).toEqual(job);
    expect(jobOf(readIn({}, `\u{feff}${trayCorner}`))).toEqual(job);
    const json = {
      units: 'in',
      joints: {
        a: { kind: 'box', width: '3-1/2', boards: { one: { thickness: 0.5 }, two: { thickness: '1/2' } } },
      },
    };
    expect(jobOf(readIn({}, JSON.stringify(json))).joints[0]?.width).toBe(88.9);
  });

  it('places faults alike with Windows line ends and a byte order mark', () => {
    const bad = trayCorner.replace('width: 3-1/2', 'width: 3-1-2').replace('title:', 'titel:');
    const lines = linesOf(readIn({}, bad));
    expect(lines).toHaveLength(2);
    expect(linesOf(readIn({}, bad.replaceAll('\n', '\r\n')))).toEqual(lines);
    expect(linesOf(readIn({}, `\u{feff}${bad}`))).toEqual(lines);
  });

  it('keeps titles in any script, and takes the file’s name where there is none', () => {
    const title = 'Herbářová skříňka · 植物標本箱';
    expect(jobOf(readIn({}, soundJob.replace('Specimen tray', title))).title).toBe(title);
    expect(jobOf(readIn({}, soundJob.replace('title: Specimen tray\n', ''))).title).toBe('tray');
  });

  it('keeps joints in the order of the file, whatever they are called', () => {
    const one = '{ kind: box, width: 3, boards: { one: { thickness: 1/2 }, two: { thickness: 1/2 } } }';
    const names = ['drawer 2', '12', '3', 'šuplík', 'a.b', 'B_1'];
    const text = `units: in\njoints:\n${names.map((name) => `  ${name}: ${one}\n`).join('')}`;
    expect(jobOf(readIn({}, text)).joints.map(({ name }) => name)).toEqual(names);
  });

  it('may say a thing once and use it again', () => {
    const text = soundJob
      .replace('tails: { thickness: 1/2 }', 'tails: &half { thickness: 1/2 }')
      .replace('pins: { thickness: 1/2 }', 'pins: *half');
    expect((jobOf(readIn({}, text)).joints[0] as ThroughDovetailJoint).boards.pins.thickness).toBe(12.7);
  });

  it('holds two hundred joints', () => {
    const joint = trayCorner.slice(trayCorner.indexOf('  tray-corner:'));
    const more = Array.from({ length: 199 }, (_, i) => joint.replace('tray-corner', `tray-${i}`)).join('');
    expect(jobOf(readIn({}, trayCorner + more)).joints).toHaveLength(200);
  });
});

describe('findings', () => {
  it('are all told at once, in the order of the files', () => {
    const text = soundJob
      .replace('title:', 'titel:')
      .replace('angle: 8', 'angle: 80')
      .replace('bore: 3/8', 'bore: 3/0')
      .replace('3-1/2', '-3')
      .replace('tails: 3,', 'tails: 0, seed: 4,')
      .replace('pins: straight-38', 'pins: straight')
      .replace('bushing: seven', 'bushing: eleven');
    expect(
      linesOf(readIn({}, text)).map((line) =>
        line.replace(/^cabinet\/tray\.yaml:(\d+:\d+: [^:]+): .*/, '$1'),
      ),
    ).toEqual([
      '1:1: titel',
      '5:46: shop.bits.half-8.angle',
      '8:29: shop.bushings.seven.bore',
      '13:5: joints.corner.width',
      '15:30: joints.corner.layout.tails',
      '15:40: joints.corner.layout.seed',
      '16:31: joints.corner.cutters.pins',
      '17:5: joints.corner.bushing',
    ]);
  });

  it('do not follow from one another: a bad tool is told once, not at each joint that names it', () => {
    expect(linesOf(readIn({}, soundJob.replace('angle: 8', 'angle: 80')))).toHaveLength(1);
    expect(linesOf(readIn({}, soundJob.replace(/shop:\n(?: {2}.*\n)+/, 'shop: lost.yaml\n')))).toHaveLength(
      1,
    );
    expect(linesOf(readIn({}, soundJob.replace('units: in', 'units: metres')))).toHaveLength(1);
    expect(linesOf(readIn({}, soundJob.replace('bushing: seven', 'bushing: *seven')))).toHaveLength(1);
  });

  it('stop at a hundred, and count the rest', () => {
    const text = soundJob + Array.from({ length: 500 }, (_, i) => `odd${i}: 1\n`).join('');
    const lines = linesOf(readIn({}, text));
    expect(lines).toHaveLength(101);
    expect(lines.at(-1)).toContain('400 more problems');
  });

  it('find the nearest key above one that is not there, in the right file', () => {
    const { locate } = readIn(shopFile, slideBox);
    expect(locate('joints.box-corner.layout.finger')).toEqual({
      file: 'cabinet/tray.yaml',
      line: 9,
      column: 15,
    });
    expect(locate('joints.box-corner.layout.groove.from')).toEqual({
      file: 'cabinet/tray.yaml',
      line: 9,
      column: 5,
    });
    expect(locate('joints.box-corner.layout.spans.3')).toEqual({
      file: 'cabinet/tray.yaml',
      line: 9,
      column: 5,
    });
    expect(locate('')).toEqual({ file: 'cabinet/tray.yaml', line: 1, column: 1 });
    expect(locate('shop')).toEqual({ file: 'cabinet/tray.yaml', line: 3, column: 1 });
    expect(locate('shop.plate.thickness')).toEqual({ file: 'cabinet/shop.yaml', line: 6, column: 35 });
    expect(locate('shop.plate.sheet')).toEqual({ file: 'cabinet/shop.yaml', line: 6, column: 1 });
    expect(locate('shop.laser.kerf')).toEqual({ file: 'cabinet/shop.yaml', line: 1, column: 1 });
  });

  it('cannot move the cursor or begin a line', () => {
    const lines = linesOf(readIn({}, soundJob.replace('corner:', '"\\e[31m\\n\\u202Ecorner":')));
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) expect(line).not.toMatch(/[\p{Cc}\u202e]/u);
  });
});

describe('whatever stands in a file', () => {
  const pieces = [
    '{',
    '}',
    '[',
    ']',
    ':',
    ',',
    '\n',
    '  ',
    '- ',
    '"',
    "'",
    '#',
    '&a ',
    '*a',
    '!t ',
    '|',
    '>',
    '%',
    '1e999',
    '-1',
    '0',
    '.nan',
    '~',
    'null',
    '\t',
    '\r',
    '\u{0}',
    '\u{feff}',
    '🜚',
    '<<: *a',
    '---\n',
    '...\n',
    '3/0',
    'tails: 10000',
    '__proto__: 1',
    'constructor: 1',
  ];
  const seeds = [
    soundJob,
    trayCorner,
    slideBox,
    ...badFiles.map(({ text }) => text).filter((text) => text.length < 2000),
  ];
  const edit = fc.record({
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.integer({ min: 0, max: 12 }),
    put: fc.oneof(fc.constantFrom(...pieces), fc.string({ maxLength: 4 })),
  });

  it('it is read or refused with a place and a cure, never thrown', () => {
    let refusals = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...seeds),
        fc.array(edit, { minLength: 1, maxLength: 3 }),
        (seed, edits) => {
          const text = edits.reduce((left, { at, cut, put }) => {
            const from = Math.floor(at * left.length);
            return left.slice(0, from) + put + left.slice(from + cut);
          }, seed);
          const reading = readIn(shopFile, text);
          if (reading.result.ok) return;
          refusals++;
          const lines = linesOf(reading);
          expect(lines.length).toBeGreaterThan(0);
          expect(reading.result.diagnostics.some(({ level }) => level === 'refused')).toBe(true);
          for (const line of lines) {
            expect(line).toMatch(/^cabinet\/(tray|shop)\.yaml:\d+:\d+: \S/);
            expect(line).not.toMatch(/undefined|\[object/);
          }
        },
      ),
      { numRuns: 500 },
    );
    expect(refusals).toBeGreaterThan(200);
  });
});
