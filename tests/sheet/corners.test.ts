import { describe, expect, test } from 'vitest';
import { cornerTable } from '../../src/sheet/corners.js';
import { faceWords, type Stand, standsOf } from '../../src/sheet/stands.js';
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

/** What the data of a stand means at the bench. */
function held({ end, face, posture, stop }: Pick<Stand, 'end' | 'face' | 'posture' | 'stop'>) {
  const flat = posture === 'flat';
  // The end that is cut is up, or toward the operator for a board that lies flat.
  const toEnd = flat ? minus(Y) : Z;
  const outward = flat ? Z : minus(Y);
  return {
    u: end === 'left' ? minus(toEnd) : toEnd,
    v: stop === 'left' ? X : minus(X),
    n: face === 'outside' ? outward : minus(outward),
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
  test.each(Object.entries(jobs))('%s: every board can be held as its stand says', (_, job) => {
    for (const { input } of makeSheets(job)) {
      const stands = standsOf(input);
      expect(stands.length).toBeGreaterThanOrEqual(4);
      for (const stand of stands) {
        const { u, v, n } = held(stand);
        expect(same(cross(u, v), n), `${stand.board}, ${stand.end} end`).toBe(true);
      }
    }
  });

  test('the check would find left and right swapped', () => {
    const { u, v, n } = held({ end: 'right', face: 'outside', posture: 'on end', stop: 'left' });
    expect(same(cross(u, v), n)).toBe(false);
  });

  test('a tapered pin board keeps its outside face toward the operator, a half-blind side its inside face', () => {
    const [tray] = makeSheets(readText(through));
    const pins = tray ? standsOf(tray.input).filter(({ board }) => board === 'pins') : [];
    expect(new Set(pins.map(faceWords))).toEqual(new Set(['outside face toward you']));
    expect(pins.map(({ end, template }) => [end, template])).toEqual([
      ['left', 'finger-template-pins'],
      ['right', 'finger-template-pins-mirrored'],
      ['left', 'finger-template-pins'],
      ['right', 'finger-template-pins-mirrored'],
    ]);
    const [drawer] = makeSheets(readText(halfBlind));
    const sides = drawer ? standsOf(drawer.input).filter(({ board }) => board === 'tails') : [];
    expect(sides.map(faceWords)).toEqual(['inside face toward you', 'inside face toward you']);
  });

  /** Seen from above: D's right end and A's left end at the front left, and so on round the box. */
  test('ends that meet carry one number', () => {
    const [box] = makeSheets(readSample('slide-box.yaml'));
    const stands = box ? standsOf(box.input) : [];
    const at = (corner: number) =>
      stands.filter((one) => one.corner === corner).map(({ letter, end }) => `${letter} ${end}`);
    expect([1, 2, 3, 4].map(at)).toEqual([
      ['D right', 'A left'],
      ['B left', 'A right'],
      ['B right', 'C left'],
      ['D left', 'C right'],
    ]);
  });

  test('a joint at the back of a drawer stands at corners 3 and 4, the one at its front at 1 and 2', () => {
    const sheets = makeSheets(readSample('cabinet.yaml'));
    const ends = (name: string) => {
      const found = sheets.find((one) => one.name === name);
      return found
        ? standsOf(found.input).map(({ letter, end, corner }) => `${letter} ${end} ${corner}`)
        : [];
    };
    // The case has A to D, the first drawer E to H.
    expect(ends('drawer-back').toSorted()).toEqual(['F right 3', 'G left 3', 'G right 4', 'H left 4']);
    expect(ends('drawer-1').toSorted()).toEqual(['E left 1', 'E right 2', 'F left 2', 'H right 1']);
    expect(ends('drawer-4').toSorted()).toEqual(['Q left 1', 'Q right 2', 'R left 2', 'T right 1']);
    expect(ends('case-corner')).toHaveLength(8);
  });

  test('where pieces have the joint at other corners, the table says which piece', () => {
    const [tray] = makeSheets(
      readText(`${through}pieces:
  whole: { kind: box, outside: { length: 8, width: 6, height: 5-1/2 }, corners: tray }
  front: { kind: drawer, outside: { depth: 8, width: 6, height: 5-1/2 }, corners: tray }
`),
    );
    const rows = tray ? cornerTable(tray.input).rows : [];
    expect(rows.map(([, end, corner]) => [end, corner])).toContainEqual(['left', '1 and 3 (whole)']);
  });
});
