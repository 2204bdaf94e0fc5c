import { describe, expect, test } from 'vitest';
import { cutPathOf } from '../../src/cam/compensated.js';
import { beamProgram } from '../../src/cam/program/beam-program.js';
import { type Motion, replay } from '../../src/cam/program/interpreter.js';
import { beamFaultsOf } from '../../src/cam/program/replay.js';
import type { BeamSettings } from '../../src/cam/settings.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { translate } from '../../src/geometry/transform.js';
import { gcodeWriter } from '../../src/writers/gcode.js';
import { settled } from '../support/hand-testcut.js';
import { both, grown, minus, polygonsOf, sizeOf, swept } from '../support/swept.js';
import { plateWith, roundComb, screwHoles } from './plates.js';

const settings: BeamSettings = {
  kerf: 0.2,
  speed: 400,
  power: 800,
  leadIn: 0,
  marks: { speed: 2000, power: 120 },
};
const drawing = plateWith(roundComb, ...screwHoles);

function burnt(more: Partial<BeamSettings> = {}) {
  const all = { ...settings, ...more };
  const source = { name: 'plate', at: 'shop.laser' };
  const path = settled(cutPathOf(drawing, { for: 'laser', kerf: all.kerf }, source));
  const made = beamProgram(drawing, path, all, source);
  if (!made.ok) throw new Error('no program');
  const text = gcodeWriter.write(made.value);
  return { text, played: replay(text), diagnostics: made.diagnostics, program: made.value };
}

const through = ({ speed }: Motion): boolean => speed === settings.power;

describe('a laser program', () => {
  const { text, played, program } = burnt();

  test('has no power while it moves between, no heights, and an end', () => {
    expect(beamFaultsOf(played)).toEqual([]);
    expect(text).not.toMatch(/^[^(]*Z/m);
    expect(text).toMatch(/M5\nM2\n$/);
  });

  test('leaves the plate, and burns no more of the sheet than its kerf around it', () => {
    const plate = polygonsOf(translate(regionOf([roundComb, ...screwHoles]), 40 + 0.2, 20 + 0.2));
    const taken = swept(played.motions, settings.kerf, through);
    expect(sizeOf(both(grown(plate, -0.01), taken))).toBeLessThan(1e-3);
    const band = minus(grown(plate, settings.kerf - 0.02), grown(plate, 0.01));
    expect(sizeOf(minus(band, taken))).toBeLessThan(0.02);
    expect(program.blank).toEqual({ width: expect.closeTo(160.4, 4), height: expect.closeTo(80.4, 4) });
  });

  test('marks first, then holes, then the outline, each with its own power and speed', () => {
    const powers = played.motions.filter(({ rapid }) => !rapid).map(({ speed }) => speed);
    expect(powers.lastIndexOf(120)).toBeLessThan(powers.indexOf(800));
    for (const { rapid, speed, feed } of played.motions) {
      if (!rapid) expect(feed).toBe(speed === 120 ? 2000 : 400);
    }
    const starts = played.motions.filter(({ rapid }) => rapid).slice(-3);
    const near = (x: number, y: number) => ({
      x: expect.closeTo(x + 40.2 + 2.4, 3),
      y: expect.closeTo(y + 20.2, 3),
    });
    expect(starts.slice(0, 2).map(({ to }) => ({ x: to.x, y: to.y }))).toEqual(
      expect.arrayContaining([near(-28, 48), near(108, 48)]),
    );
  });

  test('starts on the line, or beside it in the waste when a lead-in is asked for', () => {
    const count = (of: typeof played) => of.motions.filter(through).length;
    const led = burnt({ leadIn: 1.5 });
    expect(beamFaultsOf(led.played)).toEqual([]);
    expect(count(led.played)).toBe(count(played) + 3);
    const edge = 0.2 + 1.5;
    const plate = polygonsOf(translate(regionOf([roundComb, ...screwHoles]), 40 + edge, 20 + edge));
    for (const { to } of led.played.motions) {
      expect(Math.min(to.x ?? 0, to.y ?? 0)).toBeGreaterThanOrEqual(0);
      expect(to.x ?? 0).toBeLessThanOrEqual(led.program.blank.width);
    }
    expect(sizeOf(both(grown(plate, -0.01), swept(led.played.motions, settings.kerf, through)))).toBeLessThan(
      1e-3,
    );
    // 5 mm on from the wall of a hole 5 mm wide is the other wall: no lead-in there.
    expect(count(burnt({ leadIn: 6 }).played)).toBe(count(played) + 1);
  });

  test('leaves out marks that have no power of their own, and says so', () => {
    const { marks: _, ...bare } = settings;
    const source = { name: 'plate', at: 'shop.laser' };
    const path = settled(cutPathOf(drawing, { for: 'laser', kerf: bare.kerf }, source));
    const made = beamProgram(drawing, path, bare, source);
    expect(made.diagnostics).toMatchObject([{ code: 'beam-marks-missing', level: 'caution' }]);
  });

  test('says on a spoilt program what is wrong: the checks above can fail', () => {
    const faults = (spoilt: string) => beamFaultsOf(replay(spoilt)).map(({ what }) => what);
    expect(faults(text.replace(/^M5\nG0/gm, 'G0'))).toContain('power while moving between');
    expect(faults(text.replace(/^M3 .*\n/gm, ''))).toContain('a cut without power');
    expect(faults(text.replace('F400', '').replace(/F2000/g, ''))).toContain('a cut without a feed');
  });
});
