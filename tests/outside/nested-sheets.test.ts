import { FillRule, type PathsD, unionD } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { plateOf } from '../../src/cam/compensated.js';
import { nestedSheets, sheetOf } from '../../src/cam/nest/nest-drawing.js';
import { replay } from '../../src/cam/program/interpreter.js';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { settled } from '../support/hand-testcut.js';
import { readSample } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { both, grown, minus, polygonsOf, sizeOf, swept } from '../support/swept.js';

/** Sheets with several plates, and plates in parts, judged by ezdxf, by the interpreter and by Clipper2. */

const shelf = readSample('shelf-case.yaml');
const written = (await makeFiles(shelf, solveJob(shelf), { only: ['finger', 'nest'], as: ['dxf'] })).filter(
  ({ path }) => path.endsWith('.dxf'),
);

describe('ezdxf', () => {
  const python = firstAtHand(['python3', '/usr/bin/python3'], '-c', 'import ezdxf');
  const script = [
    'import sys, io, json, ezdxf',
    'def reading(text):',
    '  doc = ezdxf.read(io.StringIO(text))',
    '  audit = doc.audit()',
    '  cut = doc.modelspace().query("LWPOLYLINE[layer==\'CUT\']")',
    '  return [[e.message for e in list(audit.errors) + list(audit.fixes)], len(cut), all(e.closed for e in cut)]',
    'print(json.dumps([reading(text) for text in json.load(sys.stdin)]))',
  ].join('\n');

  testWith('python3-ezdxf', python, 'audits parts and sheets: no error, no fix, all closed', (program) => {
    const texts = JSON.stringify(written.map(({ content }) => content));
    const readings = JSON.parse(output(program, ['-c', script], texts).toString()) as readonly (readonly [
      readonly string[],
      number,
      boolean,
    ])[];
    expect(written.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['shelf-case/finger-template-tails-part-2.dxf', 'nest-1.dxf', 'nest-2.dxf']),
    );
    expect(readings.map(([complaints]) => complaints.length)).toEqual(written.map(() => 0));
    for (const [, cut, closed] of readings) {
      expect(cut).toBeGreaterThan(2);
      expect(closed).toBe(true);
    }
  });
});

describe('the milling program of a sheet', () => {
  const tray = readSample('small-tray.yaml');
  const cutter = 3.175;
  const job: Job = {
    ...tray,
    shop: {
      ...tray.shop,
      plate: { ...tray.shop.plate, sheet: [600, 400], cutFor: 'cnc' },
      cnc: { cutter, rpm: 18000, feed: 1500, plunge: 400, pass: 6 },
    },
  };

  test('leaves every plate whole and frees each of them, within 0.01 mm', { timeout: 60_000 }, async () => {
    const outcomes = solveJob(job);
    const files = await makeFiles(job, outcomes, { only: ['nest'], as: ['gcode'] });
    const program = files.find(({ path }) => path === 'nest-1.ngc');
    const { motions, faults } = replay(String(program?.content));
    expect(faults).toEqual([]);
    const plates = outcomes.flatMap(({ joint, made }) =>
      (made?.plates ?? []).map(({ name, nominal, path }) => ({
        name,
        path,
        drawing: nominal,
        joint: joint.name,
        copies: 1,
      })),
    );
    expect(plates.length).toBeGreaterThan(2);
    const [sheet, ...more] = settled(nestedSheets(plates, settled(sheetOf(job.shop)), job.title));
    expect(more).toEqual([]);
    // Program and drawing have one zero: the corner of the sheet.
    const wanted: PathsD = unionD(polygonsOf(sheet ? plateOf(sheet.drawing) : []), [], FillRule.EvenOdd, 6);
    const cuts = swept(motions, cutter, ({ to }) => (to.z ?? 0) < -1);
    // Nothing of a plate is cut …
    expect(sizeOf(both(cuts, grown(wanted, -0.01)))).toBeLessThan(0.01);
    // … and all round each, and in every opening, a way as wide as the cutter is.
    const way = minus(grown(wanted, cutter - 0.02), grown(wanted, 0.01));
    expect(sizeOf(way)).toBeGreaterThan(5000);
    expect(sizeOf(minus(way, cuts))).toBeLessThan(0.5);
  });
});
