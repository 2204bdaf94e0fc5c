import { describe, expect, test } from 'vitest';
import type { TextItem } from '../../src/drawing/model.js';
import { extents } from '../../src/geometry/outline.js';
import type { SheetInput } from '../../src/sheet/input.js';
import { type Stand, standsOf } from '../../src/sheet/stands.js';
import { area, difference, evenOdd, type Polygons, union } from '../../src/verify/cut/polygons.js';
import { centresAtStops, cutAt } from '../../src/verify/cut/route.js';
import { EVERY_SECOND, holder } from '../support/holder.js';
import { readText } from '../support/jobs.js';
import { isWritten, requestFor, writeJoint } from '../support/written-joint.js';
import { makeSheets } from './sheets.js';

/**
 * A plate with every second slot, used as the sheet says: the stop on the scored line that it names, the spacer
 * between stop and board for the cut that it names. Where the board then lies comes from the marks on the plate,
 * what is cut from its written outlines. Both boards of a corner must then fit: what one loses the other keeps.
 */
const text = holder(EVERY_SECOND);

const written = await writeJoint(text);
const [sheet] = makeSheets(readText(text));

/** x of the line that a stop named so stands on, at one side: where its scored line begins. */
function lineOf({ templates }: SheetInput, stand: Stand, mark: number): number {
  const items = templates.find(({ plate }) => plate.name === stand.template)?.drawing.items ?? [];
  const side = stand.stop === 'left' ? 'end' : 'start';
  const words = items.find(
    (item): item is TextItem => item.kind === 'text' && item.text === `STOP ${mark}` && item.align === side,
  );
  if (!words) throw new Error(`no STOP ${mark} at the ${stand.stop}`);
  const y = words.at.y + words.height / 2;
  const lines = items.flatMap((item) => {
    if (item.layer !== 'SCORE' || item.kind !== 'open') return [];
    const box = extents(item.path);
    return Math.abs(box.minY - y) < 1e-9 && Math.abs(box.maxY - y) < 1e-9 ? [box] : [];
  });
  const near = lines.filter(({ minX, maxX }) =>
    side === 'end' ? Math.abs(minX - words.at.x) < 2 : Math.abs(maxX - words.at.x) < 2,
  );
  return side === 'end'
    ? Math.max(...near.map(({ maxX }) => maxX))
    : Math.min(...near.map(({ minX }) => minX));
}

/** x of the board's left edge at both cuts, and the board left over, x from its reference edge. */
function cutAs(input: SheetInput, stand: Stand, swap = false): Polygons {
  if (!isWritten(written)) throw new Error(written.join());
  const board = requestFor(written).boards.find((one) => one.board === stand.board);
  const { twice } = stand;
  if (!board || !twice) throw new Error(`${stand.board} is cut once`);
  const stopAt = swap ? 3 - twice.stopAt : twice.stopAt;
  const line = lineOf(input, stand, stopAt);
  const { width } = input.solved;
  const at = [1, 2].map((cut) => {
    const spacer = cut === twice.spacerFor ? twice.spacer : 0;
    return stand.stop === 'left' ? line + spacer : line - spacer - width;
  });
  const plate = evenOdd(board.drawing.layers.CUT ?? []);
  const stock = union(evenOdd(board.drawing.layers.STOCK ?? []));
  const radius = board.cutter.diameter / 2;
  const leaveOut = twice.leaveOut ? board.stops?.leaveOut : undefined;
  const stops = leaveOut ? { at, leaveOut } : { at };
  const left = difference(stock, cutAt(centresAtStops(plate, stock, board.bushing, radius, stops), radius));
  return stand.stop === 'left'
    ? left
    : left.map((ring) => ring.map(({ x, y }) => ({ x: width - x, y })).reverse());
}

/** Wood of both boards in one place, and room that neither fills, mm², at one corner. */
function corner(input: SheetInput, number: number, swap = false) {
  const stands = standsOf(input).filter((one) => one.corner === number);
  const [one = [], two = []] = stands.map((stand) => cutAs(input, stand, swap));
  const whole = input.solved.width * 6.35;
  const both = area(union([...one, ...two]));
  return { overlap: area(one) + area(two) - both, empty: whole - both };
}

describe('every second slot, with the stop and the spacer of the sheet', () => {
  if (!sheet) throw new Error('refused');
  const { input } = sheet;

  test.each([1, 2, 3, 4])('corner %i closes', (number) => {
    const { overlap, empty } = corner(input, number);
    expect(overlap).toBeLessThan(0.1);
    // Eight glue lines, a quarter of the slack on each board.
    expect(empty).toBeLessThan(8 * 0.05 * 6.35 + 0.1);
  });

  test('corners use both stops, and the spacer is in for the other cut at the other side', () => {
    const ways = standsOf(input).map(({ stop, twice }) => `${stop} ${twice?.stopAt} ${twice?.spacerFor}`);
    expect(new Set(ways)).toEqual(new Set(['left 2 1', 'right 1 2']));
  });

  test('with the stop on the other line it would not close', () => {
    const { overlap, empty } = corner(input, 1, true);
    expect(overlap + empty).toBeGreaterThan(5);
  });
});
