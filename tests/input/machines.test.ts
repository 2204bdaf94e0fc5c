import { describe, expect, it } from 'vitest';
import { readJob } from '../../src/input/read-job.js';
import { families } from '../../src/joints/list.js';
import { trayCorner } from './job-text.js';

/** What a shop may say of its laser, its router table and its printer. */
const read = (line: string) => {
  const text = trayCorner
    .replace(/^ {2}(laser|cnc): .*\n/gm, '')
    .replace('  colours', `  ${line}\n  colours`);
  return readJob({ name: 'tray.yaml', text }, families, () => undefined).result;
};
const shopOf = (line: string) => {
  const result = read(line);
  if (!result.ok) throw new Error(JSON.stringify(result.diagnostics));
  return result.value.shop;
};
const refusal = (line: string) => read(line).diagnostics.map(({ code, at }) => [code, at]);

describe('machines of a shop', () => {
  it('takes everything about a router table, mixed units, degrees of a ramp as radians', () => {
    const line =
      'cnc: { cutter: 1/8, through: 0, ramp: 3, direction: conventional, relief: edge, tabs: { count: 0, width: 5 mm, height: 1/16 }, engraver: { tip: 0.3 mm, depth: 0.2 mm } }';
    expect(shopOf(line).cnc).toEqual({
      cutter: 3.175,
      through: 0,
      ramp: (3 * Math.PI) / 180,
      direction: 'conventional',
      relief: 'edge',
      tabs: { count: 0, width: 5, height: 1.5875 },
      engraver: { tip: 0.3, depth: 0.2 },
    });
  });

  it('takes everything about a laser and a printer', () => {
    expect(
      shopOf(
        'laser: { kerf: 0.15 mm, speed: 300 mm, power: 900, score-speed: 40, score-power: 120, lead-in: 0 }',
      ).laser,
    ).toEqual({ kerf: 0.15, speed: 300, power: 900, scoreSpeed: 1016, scorePower: 120, leadIn: 0 });
    expect(shopOf('print: { hole-growth: 0.2 mm, ease: 0.4 mm }').print).toEqual({
      holeGrowth: 0.2,
      ease: 0.4,
    });
  });

  it('takes plates as nominal unless told what cuts them', () => {
    const plate = (asked: string) =>
      readJob(
        { name: 'tray.yaml', text: trayCorner.replace('least-finger', `${asked}least-finger`) },
        families,
        () => undefined,
      ).result;
    const cutFor = (asked: string) => {
      const result = plate(asked);
      return result.ok ? (result.value.shop.plate.cutFor ?? 'nominal') : result.diagnostics[0]?.code;
    };
    expect(['', 'cut-for: nominal, ', 'cut-for: laser, ', 'cut-for: cnc, '].map(cutFor)).toEqual([
      'nominal',
      'nominal',
      'laser',
      'cnc',
    ]);
    expect(cutFor('cut-for: plasma, ')).toBe('value-unlisted');
  });

  it.each([
    ['cnc: { relief: dogbone }', 'value-unlisted', 'shop.cnc.relief'],
    ['cnc: { direction: up }', 'value-unlisted', 'shop.cnc.direction'],
    ['cnc: { ramp: 60 }', 'angle-range', 'shop.cnc.ramp'],
    ['cnc: { tabs: 4 }', 'value-unfit', 'shop.cnc.tabs'],
    ['cnc: { tabs: { count: 4.5 } }', 'number-range', 'shop.cnc.tabs.count'],
    ['cnc: { engraver: { depth: 0.2 mm } }', 'key-missing', 'shop.cnc.engraver.tip'],
    ['cnc: { saf-height: 5 mm }', 'key-unknown', 'shop.cnc.saf-height'],
    ['laser: { power: -1 }', 'number-range', 'shop.laser.power'],
    ['laser: { speed: 0 }', 'length-not-positive', 'shop.laser.speed'],
    ['print: { ease: -0.2 }', 'length-not-positive', 'shop.print.ease'],
  ])('refuses %s', (line, code, at) => {
    expect(refusal(line)).toContainEqual([code, at]);
  });
});
