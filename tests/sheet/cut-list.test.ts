import { describe, expect, test } from 'vitest';
import { piecesOf } from '../../src/outputs/set-up.js';
import { cutListOf } from '../../src/sheet/cut-list.js';
import { inch, readSample, readText } from '../support/jobs.js';
import { madeJoints } from './sheets.js';

/** Rounded to a millionth of a mm, so that a sum in inches and one in mm are one number. */
const tidy = (value: number) => Math.round(value * 1e6) / 1e6;
const mm = (inches: number) => tidy(inch(inches));

/** Lengths by hand, each with its sum; rules of the trade, common practice, no source. */
describe('the cut list of the cabinet', () => {
  const job = readSample('cabinet.yaml');
  const pieces = piecesOf(job, madeJoints(job));
  const partsOf = (name: string) =>
    pieces.filter(({ piece }) => piece.name === name).flatMap((one) => cutListOf(one));
  const sizeOf = (name: string, part: string) => {
    const found = partsOf(name).find((one) => one.part === part);
    return found && [found.count, ...[found.thickness, found.width, found.length].map(tidy)];
  };

  test('through corners: sides in full, top and bottom and the pins that stand proud', () => {
    expect(sizeOf('case', 'side')).toEqual([2, mm(0.75), mm(11.25), mm(28.5)]);
    expect(sizeOf('case', 'top and bottom')).toEqual([2, mm(0.75), mm(11.25), mm(17 + 2 / 32)]);
  });

  test('half-blind: the side is the outside depth less the lap', () => {
    // Front 3/4, sockets 1/2: lap 1/4, so 10-1/2 − 1/4.
    expect(sizeOf('drawer-2', 'side')).toEqual([2, mm(0.5), mm(4), mm(10.25)]);
    expect(sizeOf('drawer-2', 'front')).toEqual([1, mm(0.75), mm(4), mm(15.375)]);
    // Between two sides of 1/2.
    expect(sizeOf('drawer-2', 'back')).toEqual([1, mm(0.5), mm(4), mm(14.375)]);
    // Inside 14-3/8 by 10-1/2 − 3/4 − 1/2 = 9-1/4, and 1/4 of groove on every side.
    expect(sizeOf('drawer-2', 'bottom')).toEqual([1, mm(0.25), mm(9.75), mm(14.875)]);
  });

  test('a back with a joint of its own runs from outside to outside', () => {
    expect(sizeOf('drawer-1', 'back')).toEqual([1, mm(0.5), mm(2.75), mm(15.375)]);
  });

  test('a lipped front is longer and wider by its lips', () => {
    expect(sizeOf('drawer-4', 'front')).toEqual([1, mm(0.75), mm(7.25), mm(15.375 + 0.75)]);
  });

  test('box joints: both in full, and two trays take twice as many', () => {
    expect(sizeOf('tray', 'side')).toEqual([4, mm(0.375), mm(2.5), mm(8)]);
    expect(sizeOf('tray', 'end')).toEqual([4, mm(0.375), mm(2.5), mm(5)]);
  });

  test('one spare of each kind that is joined', () => {
    for (const { part, spare } of pieces.flatMap((one) => cutListOf(one)))
      expect(spare, part).toBe(part === 'bottom' ? 0 : 1);
  });
});

const piece = (text: string) => `
units: in
shop: ./shop.yaml
joints:
  corner:
    kind: box
    width: 3
    boards: { one: { thickness: 1/2 }, two: { thickness: 1/2 } }
    layout: { finger: 1/2 }
    cutter: straight-38
    bushing: seven-sixteenths
pieces:
  box: ${text}
`;

describe('pieces that cannot be', () => {
  test.each([
    [
      '{ kind: box, outside: { length: 8, width: 5, height: 4 }, corners: corner }',
      /height is 4 in.*corner is 3 in/,
    ],
    ['{ kind: box, outside: { length: 8, width: 5, height: 3 }, corners: corners }', /did you mean corner\?/],
    ['{ kind: box, outside: { width: 5, height: 3 }, corners: corner }', /the length is missing/],
    [
      '{ kind: box, outside: { length: 8, depth: 8, width: 5, height: 3 }, corners: corner }',
      /a box has no depth/,
    ],
    ['{ kind: chest, outside: { width: 5, height: 3 }, corners: corner }', /known are drawer, box and case/],
    ['{ kind: box, outside: { length: 8, width: 5, height: 3 }, corners: corner, count: 0 }', /from 1/],
  ])('%s', (text, says) => {
    expect(() => readText(piece(text))).toThrow(says);
  });

  test('two boards that leave no inside are refused with the width that would do', () => {
    const job = readText(
      piece('{ kind: box, outside: { length: 8, width: 1, height: 3 }, corners: corner }'),
    );
    expect(madeJoints(job)).toEqual([]);
  });
});
