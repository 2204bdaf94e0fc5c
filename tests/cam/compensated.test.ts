import { describe, expect, test } from 'vitest';
import { type Cutting, compensated, plateOf } from '../../src/cam/compensated.js';
import { plateNote } from '../../src/cam/plate-note.js';
import { beamSettings, millSettings } from '../../src/cam/settings.js';
import { formatterFor } from '../../src/diagnostics/formatter.js';
import { area, extents, perimeter, rectangle, reversed } from '../../src/geometry/outline.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { grown, minus, polygonsOf, sizeOf } from '../support/swept.js';
import { plateWith, roundComb, screwHoles, sheet, squareComb } from './plates.js';

const source = { name: 'plate', at: 'shop' };
const drawing = plateWith(roundComb, ...screwHoles);
const cutOf = (cutting: Cutting, of = drawing) => {
  const made = compensated(of, cutting, source);
  if (!made.ok) throw new Error(made.diagnostics.map(({ code }) => code).join());
  return plateOf(made.value);
};

describe('compensation of a plate', () => {
  test('is none when nominal: the same outlines', () => {
    const outlines = cutOf({ for: 'nominal' });
    expect(outlines.map(area).sort()).toEqual(
      regionOf([roundComb, ...screwHoles])
        .map(area)
        .sort(),
    );
  });

  test('moves the outline out and holes in by half a kerf, exactly', () => {
    const w = 0.2;
    const outlines = cutOf({ for: 'laser', kerf: w });
    const box = extents(...outlines);
    expect([box.minX, box.minY, box.maxX, box.maxY]).toEqual(
      [-40 - w / 2, -20 - w / 2, 120 + w / 2, 60 + w / 2].map((side) => expect.closeTo(side, 5)),
    );
    const holes = outlines.filter((one) => area(one) < 0);
    expect(holes).toHaveLength(2);
    for (const hole of holes) expect(perimeter(hole)).toBeCloseTo(2 * Math.PI * (2.5 - w / 2), 4);
  });

  test.each([
    { for: 'laser', kerf: 0.15 },
    { for: 'laser', kerf: 0 },
    { for: 'cnc', cutter: 3.175, relief: 'none' },
    { for: 'cnc', cutter: 5, relief: 'corner' },
  ] as const)('gives the plate back when the tool has gone round: %o', (cutting) => {
    const width = cutting.for === 'laser' ? cutting.kerf : cutting.cutter;
    const path = polygonsOf(cutOf(cutting));
    const plate = polygonsOf(regionOf([roundComb, ...screwHoles]));
    // What the beam or mill leaves is its path less half its width all round: Clipper2 erodes, ours has dilated.
    const left = width === 0 ? path : grown(path, -width / 2);
    expect(sizeOf(minus(left, grown(plate, 0.002)))).toBeLessThan(0.01);
    // Holes as wide as their mill come 0.0065 mm wider: a path of no width is none.
    expect(sizeOf(minus(grown(plate, width === 5 ? -0.004 : -0.002), left))).toBeLessThan(0.01);
  });

  test('takes every plate the same way: a hole may be drawn in either direction', () => {
    const turned = plateWith(reversed(roundComb), ...screwHoles.map(reversed));
    const sizes = (of: typeof drawing) => cutOf({ for: 'laser', kerf: 0.2 }, of).map(area);
    expect(sizes(turned)).toEqual(sizes(drawing).map((size) => expect.closeTo(size, 6)));
  });

  test('leaves every other layer as it is', () => {
    const made = compensated(drawing, { for: 'laser', kerf: 0.2 }, source);
    const others = drawing.items.filter(({ layer }) => layer !== 'CUT');
    expect(made.ok && made.value.items.filter(({ layer }) => layer !== 'CUT')).toEqual(
      expect.arrayContaining([...others]),
    );
  });

  test('refuses what the tool cannot make, with place, radius and the widest end mill', () => {
    const square = plateWith(squareComb);
    const made = compensated(square, { for: 'cnc', cutter: 6, relief: 'none' }, source);
    expect(made.ok).toBe(false);
    expect(made.diagnostics[0]).toMatchObject({
      code: 'corner-under-mill',
      level: 'refused',
      data: { name: 'plate', x: 10, y: 12, radius: 0, cutter: 6, more: 3 },
    });
    const round = compensated(drawing, { for: 'cnc', cutter: 13, relief: 'none' }, source);
    expect(round.diagnostics.map(({ data }) => data)).toContainEqual(expect.objectContaining({ largest: 5 }));
    const relief = compensated(square, { for: 'cnc', cutter: 6, relief: 'edge' }, source);
    expect(relief).toMatchObject({
      ok: true,
      diagnostics: [{ code: 'corners-relieved', level: 'ok', data: { count: 4 } }],
    });
    const slit = plateWith(rectangle(0, 0, 50, 50), rectangle(10, 10, 40, 10.1));
    expect(compensated(slit, { for: 'laser', kerf: 0.15 }, source).diagnostics).toMatchObject([
      { code: 'kerf-fills-gap', level: 'refused' },
    ]);
  });
});

test('a label and a note say what a file holds', () => {
  const fmt = formatterFor('mm');
  expect(plateNote({ for: 'nominal' }, fmt).label).toBe('nominal outline: no kerf, no cutter');
  expect(plateNote({ for: 'laser', kerf: 0.15 }, fmt)).toMatchObject({
    label: 'outline for a laser kerf of 0.15 mm (0.0059 in)',
    note: expect.stringContaining('Do not compensate them again'),
  });
  expect(plateNote({ for: 'cnc', cutter: 3.175, relief: 'none' }, fmt).label).toBe(
    'outline for an end mill of 3.175 mm (1/8 in)',
  );
});

describe('settings', () => {
  test('that hang on wood and machine are never assumed; every missing one is named', () => {
    expect(millSettings(undefined, sheet).diagnostics).toMatchObject([
      { code: 'mill-settings-missing', data: { missing: ['cutter', 'rpm', 'feed', 'plunge', 'pass'] } },
    ]);
    expect(millSettings({ cutter: 3, rpm: 1, feed: 1, pass: 1 }, sheet).diagnostics).toMatchObject([
      { data: { missing: ['plunge'] } },
    ]);
    expect(beamSettings({ kerf: 0.1 }).diagnostics).toMatchObject([
      { code: 'beam-settings-missing', data: { missing: ['speed', 'power'] } },
    ]);
  });

  test('refuse a tab as high as the sheet', () => {
    const all = { cutter: 3, rpm: 1, feed: 1, plunge: 1, pass: 1 };
    expect(millSettings({ ...all, tabs: { height: 12 } }, sheet).diagnostics).toMatchObject([
      { code: 'tab-over-sheet' },
    ]);
    expect(millSettings({ ...all, tabs: { height: 12, count: 0 } }, sheet).ok).toBe(true);
    // Unsaid, they are a third of a thin sheet.
    const thin = millSettings(all, { ...sheet, thickness: 3 });
    expect(thin.ok && thin.value.tabs.height).toBe(1);
  });
});
