import { describe, expect, test } from 'vitest';
import { piecesOf } from '../../src/outputs/set-up.js';
import { cutListOf, stockTotals } from '../../src/sheet/cut-list.js';
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
    // Inside 14-3/8 by 10-1/2 − 3/4 − 1/2 = 9-1/4, and 1/4 of groove on every side, less 1/16 of clearance.
    expect(sizeOf('drawer-2', 'bottom')).toEqual([1, mm(0.25), mm(9.75 - 1 / 16), mm(14.875 - 1 / 16)]);
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

describe('allowances and stock', () => {
  const listed = (more: string) => {
    const job = readText(
      piece(
        `{ kind: box, outside: { length: 8, width: 5, height: 3 }, corners: corner, groove-depth: 1/4${more} }`,
      ).replace('finger: 1/2', 'finger: 1/2, groove: { from: 5/8, width: 1/4 }'),
    );
    return piecesOf(job, madeJoints(job)).flatMap((one) => cutListOf(one));
  };
  const sizes = (more: string) =>
    listed(more).map(({ part, width, length }) => [part, tidy(width), tidy(length)]);

  test('a bottom has 1/16 in of clearance, or what the job gives', () => {
    // Inside 7 by 4, 1/4 into both grooves.
    expect(sizes('').at(-1)).toEqual(['bottom', mm(7.5 - 1 / 16), mm(4.5 - 1 / 16)]);
    expect(sizes(', bottom-clearance: 0').at(-1)).toEqual(['bottom', mm(7.5), mm(4.5)]);
  });

  test('what is sanded off the outside is added at each end, and the inside grows with it', () => {
    const sanded = sizes(', sanding: 1/32, bottom-clearance: 0');
    expect(sanded[0]).toEqual(['side', mm(3), mm(8 + 1 / 16)]);
    expect(sanded.at(-1)).toEqual(['bottom', mm(7.5 + 1 / 16), mm(4.5 + 1 / 16)]);
  });

  test('stock by wood and thickness: every part and spare once', () => {
    const parts = listed('');
    const totals = stockTotals(parts);
    expect(totals.map(({ thickness }) => tidy(thickness))).toEqual([mm(0.5), mm(0.25)]);
    // Two sides and a spare of 3 by 8, two ends and a spare of 3 by 5; a bottom.
    expect(tidy(totals[0]?.area ?? 0)).toBe(tidy(25.4 ** 2 * 3 * (3 * 8 + 3 * 5)));
    expect(totals.map((one) => one.parts)).toEqual([6, 1]);
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
