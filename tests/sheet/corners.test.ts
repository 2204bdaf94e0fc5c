import { describe, expect, test } from 'vitest';
import { standsOf } from '../../src/sheet/corners.js';
import { readSample, readText } from '../support/jobs.js';
import { makeSheets } from './sheets.js';

/**
 * How a board is held, as three directions at the bench (x right, y away from the operator, z up): u along
 * the board to the right and v from the reference edge, both as seen on its outside face with the reference
 * edge down, and n out of that face. A real board is right-handed: u × v = n. A table that swapped left and
 * right, or a face, would ask for a board that does not exist.
 */
type Direction = readonly [number, number, number];

const cross = ([a, b, c]: Direction, [d, e, f]: Direction): Direction => [
  b * f - c * e,
  c * d - a * f,
  a * e - b * d,
];
const minus = ([a, b, c]: Direction): Direction => [-a, -b, -c];
const [X, Y, Z]: readonly [Direction, Direction, Direction] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** What each words of the table mean at the bench. */
function held(end: 'left' | 'right', face: string, stop: 'left' | 'right') {
  const flat = face.endsWith('up');
  // The end that is cut is up, or toward the operator for a board that lies flat.
  const toEnd = flat ? minus(Y) : Z;
  const outward = flat ? Z : minus(Y);
  return {
    u: end === 'left' ? minus(toEnd) : toEnd,
    v: stop === 'left' ? X : minus(X),
    n: face.startsWith('outside') ? outward : minus(outward),
  };
}

const same = (a: Direction, b: Direction) => a.every((one, i) => Math.abs(one - (b[i] ?? 0)) < 1e-12);

const uneven = (kind: string, more: string) => `
title: Specimen cabinet
units: in
shop: ./shop.yaml
joints:
  tray:
    kind: ${kind}
    width: 5-1/2
    layout: { spacing: varied, tails: 3, seed: 7, spread: 0.3 }
    ${more}
    bushing: seven-sixteenths
`;
const through = uneven(
  'through-dovetail',
  'boards: { tails: { thickness: 1/2 }, pins: { thickness: 1/2 } }\n    cutters: { tails: half-8, pins: straight-38 }',
);
const halfBlind = uneven(
  'half-blind-dovetail',
  'boards: { tails: { thickness: 1/2 }, pins: { thickness: 3/4 } }\n    method: apart\n    depth: 1/2\n    cutter: half-8',
);

describe('which face and which edge go where', () => {
  const jobs = {
    'case corner': readSample('case-corner.yaml'),
    'slide box': readSample('slide-box.yaml'),
    cabinet: readSample('cabinet.yaml'),
    'uneven tray': readText(through),
    'uneven drawer': readText(halfBlind),
  };
  test.each(Object.entries(jobs))('%s: every board can be held as the table says', (_, job) => {
    for (const { input } of makeSheets(job)) {
      const stands = standsOf(input);
      expect(stands).toHaveLength(4);
      for (const { end, face, stop, board } of stands) {
        const { u, v, n } = held(end, face, stop);
        expect(same(cross(u, v), n), `${board}, ${end} end`).toBe(true);
      }
    }
  });

  test('the check would find left and right swapped', () => {
    const { u, v, n } = held('right', 'outside face toward you', 'left');
    expect(same(cross(u, v), n)).toBe(false);
  });

  test('a tapered pin board keeps its outside face toward the operator, a half-blind side its inside face', () => {
    const [tray] = makeSheets(readText(through));
    const pins = tray ? standsOf(tray.input).filter(({ board }) => board === 'pins') : [];
    expect(pins.map(({ face }) => face)).toEqual(['outside face toward you', 'outside face toward you']);
    expect(pins.map(({ template }) => template)).toEqual([
      'finger-template-pins',
      'finger-template-pins-mirrored',
    ]);
    const [drawer] = makeSheets(readText(halfBlind));
    const sides = drawer ? standsOf(drawer.input).filter(({ board }) => board === 'tails') : [];
    expect(sides.map(({ face }) => face)).toEqual(['inside face toward you', 'inside face toward you']);
  });

  test('ends that meet carry one number', () => {
    const [box] = makeSheets(readSample('slide-box.yaml'));
    const at = (letter: string, end: string) =>
      box
        ? standsOf(box.input).find((one) => one.letters.includes(letter) && one.end === end)?.corners
        : undefined;
    // Seen from above: D's right end and A's left end at the front left, and so on round the box.
    expect(at('A', 'left')).toBe('1 and 3');
    expect(at('D', 'right')).toBe('1 and 3');
    expect(at('A', 'right')).toBe('2 and 4');
    expect(at('B', 'left')).toBe('2 and 4');
  });
});
