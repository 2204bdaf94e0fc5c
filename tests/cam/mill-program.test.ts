import { describe, expect, test } from 'vitest';
import { type Motion, replay } from '../../src/cam/program/interpreter.js';
import { faultsOf } from '../../src/cam/program/replay.js';
import { relieved } from '../../src/cam/relief.js';
import type { MillSettings } from '../../src/cam/settings.js';
import { circle, extents, rectangle } from '../../src/geometry/outline.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { translate } from '../../src/geometry/transform.js';
import type { Region } from '../../src/geometry/types.js';
import { grown, minus, piecesOf, polygonsOf, sizeOf, swept } from '../support/swept.js';
import { milled, plateWith, points, roundComb, screwHoles, settingsFor, squareComb } from './plates.js';

const plate = plateWith(roundComb, ...screwHoles);
const settings = settingsFor();
const bottom = -(settings.thickness + settings.through);

/** The plate in the coordinates of its program: one cutter from the lower left corner of the blank. */
const placed = (region: Region, { cutter }: MillSettings): Region =>
  translate(region, cutter + 40, cutter + 20);

const lowest = ({ from, to }: Motion): number => Math.min(from.z ?? 0, to.z ?? 0);
/** The height that all of a cut reaches: going straight down it is the lower end, on a ramp the upper one. */
const reached = (one: Motion): number =>
  across(one) ? Math.max(one.from.z ?? 0, one.to.z ?? 0) : lowest(one);
const across = ({ from, to }: Motion): boolean => from.x !== to.x || from.y !== to.y;

describe('a milling program', () => {
  const { programs, codes } = milled(plate, settings);
  const [engrave, cut] = programs;

  test('is two where an engraving bit cuts the marks: run first, named apart', () => {
    expect(programs.map(({ suffix }) => suffix)).toEqual(['-engrave', '']);
    expect(codes).toEqual([]);
  });

  test('does nothing that the replay finds fault with', () => {
    for (const { played, program } of programs) {
      expect(faultsOf(played, { ...settings, blank: program.blank })).toEqual([]);
      expect(played.ended).toBe(true);
      expect(played.radiusError).toBeLessThan(0.002);
      expect(played.motions.length).toBeGreaterThan(20);
    }
  });

  test('marks at the depth of marks, and cuts through with an allowance below', () => {
    const depthsOf = (motions: readonly Motion[] = []) => Math.min(...motions.map(lowest));
    expect(depthsOf(engrave?.played.motions)).toBe(-settings.marks.depth);
    expect(depthsOf(cut?.played.motions)).toBe(bottom);
  });

  test.each([
    ['round slots', regionOf([roundComb, ...screwHoles]), {}],
    ['square slots with bites at corners', regionOf([squareComb, ...screwHoles]), { relief: 'corner' }],
    ['square slots with bites along edges', regionOf([squareComb, ...screwHoles]), { relief: 'edge' }],
    [
      'another cutter, conventional',
      regionOf([roundComb, ...screwHoles]),
      { cutter: 3.175, direction: 'conventional' },
    ],
    ['a cutter as wide as its holes', regionOf([roundComb, ...screwHoles]), { cutter: 5 }],
    ['a cutter next to as wide as its holes', regionOf([roundComb, ...screwHoles]), { cutter: 4.9 }],
    ['no tabs', regionOf([roundComb, ...screwHoles]), { tabs: { count: 0 } }],
    ['one pass', regionOf([roundComb, ...screwHoles]), { pass: 20 }],
    [
      'a window with an island',
      regionOf([roundComb, rectangle(-20, 25, 100, 55), rectangle(0, 30, 60, 50)]),
      { relief: 'corner', cutter: 3 },
    ],
    ['a wide round hole', regionOf([roundComb, circle({ x: 40, y: 36 }, 11)]), { cutter: 4 }],
    ['a round hole too wide for a helix', regionOf([roundComb, circle({ x: 40, y: 36 }, 20)]), { cutter: 4 }],
  ] as const)('takes all that it should and nothing else: %s', (_, region, more) => {
    const chosen = settingsFor(more);
    const made = milled(plateWith(...region), chosen);
    const program = made.programs.at(-1);
    if (!program) throw new Error(`no program: ${made.codes.join()}`);
    expect(faultsOf(program.played, { ...chosen, blank: program.program.blank })).toEqual([]);
    const { motions } = program.played;
    const wanted = polygonsOf(placed(relieved(region, chosen.cutter, chosen.relief).plate, chosen));
    // Nothing else: wherever the tool is under the face of the sheet it stays 0.01 mm out of the plate.
    const touched = swept(motions, chosen.cutter, (one) => lowest(one) < 0);
    expect(sizeOf(minus(grown(wanted, -0.01), minus(grown(wanted, -0.01), touched)))).toBeLessThan(1e-3);
    // All that it should: all around the plate, from 0.01 mm off it to a cutter's width but 0.01 mm.
    const band = minus(grown(wanted, Math.min(0.5, chosen.cutter) - 0.01), grown(wanted, 0.01));
    const tabTop = chosen.tabs.height - chosen.thickness;
    const overTabs = swept(motions, chosen.cutter, (one) => reached(one) <= tabTop + 1e-6);
    expect(sizeOf(minus(band, overTabs))).toBeLessThan(1e-3);
    // At the bottom tabs alone are left, each as wide as asked, where the tool's middle was up for its diameter more.
    const through = swept(motions, chosen.cutter, (one) => reached(one) <= -chosen.thickness);
    const left = piecesOf(minus(band, through)).filter((one) => sizeOf([one]) > 0.01);
    const held = region.filter((one) => extents(one).maxX - extents(one).minX > 24);
    expect(left).toHaveLength(chosen.tabs.count * held.length);
    for (const tab of left) {
      const wide = Math.max(
        Math.max(...tab.map(({ x }) => x)) - Math.min(...tab.map(({ x }) => x)),
        Math.max(...tab.map(({ y }) => y)) - Math.min(...tab.map(({ y }) => y)),
      );
      // Beside the plate the tab is as wide as asked; the tool's round makes it wider further off, in the waste.
      expect(wide).toBeGreaterThan(chosen.tabs.width - 0.01);
      expect(wide).toBeLessThan(chosen.tabs.width + chosen.cutter);
    }
  });

  test('never travels below the safe height, and goes up alone, across, then down', () => {
    for (const { played } of programs) {
      for (const [i, motion] of played.motions.entries()) {
        if (!motion.rapid) continue;
        if (across(motion)) expect(motion.from.z).toBe(settings.safeHeight);
        else expect(motion.to.z).toBeGreaterThanOrEqual(played.motions[i - 1]?.to.z ?? 0);
      }
    }
  });

  test('cuts holes before the outline, and what lies in a hole before the hole', () => {
    const nestedPlate = plateWith(
      roundComb,
      rectangle(-20, 25, 100, 55),
      rectangle(0, 30, 60, 50),
      circle({ x: 30, y: 40 }, 4),
    );
    const made = milled(nestedPlate, settingsFor({ relief: 'corner', cutter: 3 }));
    const starts = (made.programs.at(-1)?.played.motions ?? [])
      .filter((motion) => motion.rapid && across(motion))
      .map(({ to }) => ({ x: (to.x ?? 0) - 43, y: (to.y ?? 0) - 23 }));
    const inside = (box: readonly [number, number, number, number]) => (p: { x: number; y: number }) =>
      p.x > box[0] && p.x < box[2] && p.y > box[1] && p.y < box[3];
    const last = (box: readonly [number, number, number, number]) => starts.findLastIndex(inside(box));
    const hole = last([25, 35, 35, 45]);
    const island = starts.findIndex((p) => inside([-3, 27, 63, 53])(p) && !inside([1, 31, 59, 49])(p));
    const window = starts.findIndex((p) => inside([-20, 25, 100, 55])(p) && !inside([-3, 27, 63, 53])(p));
    expect(hole).toBeGreaterThanOrEqual(0);
    expect([hole, island, window, starts.length - 1]).toEqual(
      [...[hole, island, window, starts.length - 1]].sort((a, b) => a - b),
    );
    expect(new Set([hole, island, window, starts.length - 1]).size).toBe(4);
  });

  test('climbs for a spindle that turns clockwise: clockwise outside, counter-clockwise in holes; or the other way', () => {
    for (const [direction, sign] of [
      ['climb', 1],
      ['conventional', -1],
    ] as const) {
      const { motions } = milled(plate, settingsFor({ direction })).programs.at(-1)?.played ?? {
        motions: [],
      };
      const level = motions.filter((one) => one.to.z === bottom && one.from.z === bottom && across(one));
      // Twice the area that a closed way encloses: the sum of cross products, with a circle's own for arcs in holes.
      const round = level.filter(({ arc }) => arc && arc.radius < 1);
      expect(round.length).toBeGreaterThan(0);
      expect(round.every(({ arc }) => arc?.ccw === sign > 0)).toBe(true);
      const outer = level.filter(({ arc }) => !arc || arc.radius > 1);
      const twice = outer.reduce(
        (sum, { from, to }) => sum + (from.x ?? 0) * (to.y ?? 0) - (to.x ?? 0) * (from.y ?? 0),
        0,
      );
      expect(Math.sign(twice)).toBe(-sign);
    }
  });

  test('enters by ramps no steeper than asked, each pass no deeper than asked, on the path itself', () => {
    const { motions } = cut?.played ?? { motions: [] };
    const ramps = motions.filter((one) => !one.rapid && across(one) && one.to.z !== one.from.z);
    expect(ramps.length).toBeGreaterThan(5);
    for (const { from, to, arc } of ramps) {
      const drop = (from.z ?? 0) - (to.z ?? 0);
      const chord = Math.hypot((to.x ?? 0) - (from.x ?? 0), (to.y ?? 0) - (from.y ?? 0));
      const length = arc ? 2 * arc.radius * Math.asin(Math.min(1, chord / (2 * arc.radius))) : chord;
      expect(drop).toBeGreaterThan(0);
      // Heights are written to 1e-4 mm.
      expect(drop).toBeLessThanOrEqual(length * Math.tan(settings.ramp) + 1e-4);
    }
    const levels = [
      ...new Set(
        motions.filter((one) => across(one) && one.from.z === one.to.z && lowest(one) < -0.5).map(lowest),
      ),
    ];
    const passes = levels
      .filter((z) => z !== settings.tabs.height - settings.thickness)
      .sort((a, b) => b - a);
    for (const [i, z] of passes.entries())
      expect((passes[i - 1] ?? 0) - z).toBeLessThanOrEqual(settings.pass + 1e-9);
  });

  test('plunges at the plunge feed and cuts at the feed, and nothing is faster', () => {
    for (const { played } of programs) {
      for (const motion of played.motions.filter(({ rapid }) => !rapid)) {
        expect(motion.feed).toBe(across(motion) ? settings.feed : settings.plunge);
        expect(motion.speed).toBe(settings.rpm);
      }
    }
  });

  test('stands in the blank that it names: a cutter’s width around the plate', () => {
    expect(cut?.program.blank).toEqual({ width: 160 + 2 * 4, height: 80 + 2 * 4 });
    const xs = (cut?.played.motions ?? []).flatMap(({ to }) => to.x ?? []);
    expect(Math.min(...xs)).toBeCloseTo(2, 4);
    expect(Math.max(...xs)).toBeCloseTo(168 - 2, 4);
  });

  test('is the same text again', () => {
    expect(milled(plate, settings).programs.map(({ text }) => text)).toEqual(
      programs.map(({ text }) => text),
    );
  });
});

describe('what a program warns of', () => {
  const codes = (...args: Parameters<typeof milled>) => milled(...args).codes;

  test('letters that the end mill would fill are left out, scores stay', () => {
    const own = { ...settings, marks: { tip: 4, depth: 0.3, ownTool: false } };
    const made = milled(plate, own);
    expect(made.codes).toEqual(['letters-under-mill']);
    expect(made.programs.map(({ suffix }) => suffix)).toEqual(['']);
    const marks = made.programs[0]?.played.motions.filter((one) => across(one) && lowest(one) === -0.3) ?? [];
    expect(marks).toHaveLength(2);
    // Fine enough, and both are there, in one program, before anything else.
    const fine = milled(plate, { ...own, cutter: 0.5, marks: { ...own.marks, tip: 0.5 } });
    expect(fine.codes).toEqual([]);
    expect(fine.programs).toHaveLength(1);
    const depths = (fine.programs[0]?.played.motions ?? [])
      .filter((one) => !one.rapid && across(one))
      .map(lowest);
    expect(depths.lastIndexOf(-0.3)).toBeLessThan(depths.findIndex((z) => z < -0.3 || z > -0.3));
  });

  test('a corner or a gap too tight for the end mill, with the way out', () => {
    const square = plateWith(squareComb);
    expect(codes(square, settingsFor({ relief: 'none' }))).toEqual(['corner-under-mill']);
    expect(codes(square, settingsFor({ relief: 'corner' }))).toEqual(['corners-relieved']);
    expect(codes(plate, settingsFor({ cutter: 13, relief: 'none' }))).toContain('corner-under-mill');
    expect(codes(plate, settingsFor({ cutter: 19, relief: 'corner' }))).toContain('gap-under-mill');
  });

  test('small parts, tabs that do not fit, no tabs, a bed that is too small', () => {
    const small = plateWith(rectangle(0, 0, 30, 80));
    expect(codes(small, settings)).toEqual(['part-small']);
    expect(codes(plateWith(circle({ x: 0, y: 0 }, 60)), settings)).toEqual([]);
    expect(codes(plateWith(points([0, 0], [25, 0], [12, 20])), settings)).toContain('tabs-few');
    expect(codes(plate, settingsFor({ tabs: { count: 0 } }))).toEqual(['tabs-none']);
    expect(codes(plate, settingsFor({ bed: [150, 400] }))).toEqual(['program-over-bed']);
  });
});

test('the interpreter sees a program spoilt: the checks above can fail', () => {
  const [, cut] = milled(plate, settings).programs;
  const text = cut?.text ?? '';
  const stock = { ...settings, blank: cut?.program.blank ?? { width: 0, height: 0 } };
  const faults = (spoilt: string) => faultsOf(replay(spoilt), stock).map(({ what }) => what);
  expect(faults(text)).toEqual([]);
  expect(faults(text.replace(/^M3 .*\n/m, ''))).toContain('a cut with the spindle off');
  expect(faults(text.replace(/ F\d+/g, ''))).toContain('a cut without a feed');
  expect(faults(text.replace('G21 ', ''))[0]).toMatch(/before G21/);
  expect(faults(text.replace(/Z-12\.2/, 'Z-12.4')).join()).toContain('below sheet and allowance');
  expect(faults(text.replace(/^G0 Z5$/gm, '')).join()).toContain('travel below the safe height');
  expect(faults(text.replace(/I(-?)(\d)/, 'I$19$2')).join()).toContain('radii differ');
  expect(faults(text.replace(/M2\n/, ''))).toContain('the program does not end');
  expect(faults(text.replace(/M5\nM2/, 'M2'))).toContain('the end of the program with the spindle on');
});
