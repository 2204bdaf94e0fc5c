import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paperNames, paperSize } from '../../shared/paper.js';
import { closed, linesOf, open, text } from '../../src/drawing/drawing.js';
import type { Drawing, Item } from '../../src/drawing/model.js';
import { pens } from '../../src/drawing/styles.js';
import { frameOf, joining, printing as printing100 } from '../../src/drawing/tiling/frame.js';
import { judgePaper } from '../../src/drawing/tiling/paper.js';
import { tileDrawing } from '../../src/drawing/tiling/tiling.js';
import type { PrintOptions, TiledPages } from '../../src/drawing/tiling/types.js';
import { circle, roundedRectangle } from '../../src/geometry/outline.js';
import { distanceToSegment, line, pointAt } from '../../src/geometry/segment.js';
import type { Point } from '../../src/geometry/types.js';

const usual: PrintOptions = { margin: 10, scaleX: 1, scaleY: 1 };

function sizeOf(name: string) {
  const size = paperSize({ name });
  if (!size) throw new Error(`no paper ${name}`);
  return size;
}

const titled = (items: readonly Item[]): Drawing => ({ title: 'Specimen drawer', notes: [], items });

/** Lines across everywhere, nearer to each other than any page is high: no cell is empty. */
const filled = (width: number, height: number): Drawing =>
  titled([
    closed('CUT', roundedRectangle(0, 0, width, height, 3)),
    ...Array.from({ length: Math.ceil(height / 20) - 1 }, (_, i) =>
      open('REF', {
        closed: false,
        segments: [line({ x: 0, y: (i + 1) * 20 }, { x: width, y: (i + 1) * 20 })],
      }),
    ),
  ]);

const coordinate = (most: number) => fc.double({ min: -most, max: most, noNaN: true });

const item: fc.Arbitrary<Item> = fc.oneof(
  fc
    .record({ x: coordinate(500), y: coordinate(400), w: fc.double({ min: 5, max: 300, noNaN: true }) })
    .map(({ x, y, w }) => closed('CUT', roundedRectangle(x, y, x + w, y + w * 0.7, 4))),
  fc
    .record({ x: coordinate(500), y: coordinate(400), r: fc.double({ min: 1, max: 200, noNaN: true }) })
    .map(({ x, y, r }) => closed('STOCK', circle({ x, y }, r))),
  fc
    .record({ x: coordinate(500), y: coordinate(400), dx: coordinate(400), dy: coordinate(400) })
    .filter(({ dx, dy }) => Math.hypot(dx, dy) > 1)
    .map(({ x, y, dx, dy }) =>
      open('REF', { closed: false, segments: [line({ x, y }, { x: x + dx, y: y + dy })] }, true),
    ),
  fc
    .record({ x: coordinate(500), y: coordinate(400), angle: coordinate(3) })
    .map(({ x, y, angle }) => text('ENGRAVE', 'tails', { x, y }, 6, { angle })),
);

const printing = fc.record({
  paper: fc.constantFrom(...paperNames),
  margin: fc.double({ min: 5, max: 18, noNaN: true }),
  overlap: fc.double({ min: 0.01, max: 25, noNaN: true }),
  scaleX: fc.double({ min: 0.98, max: 1.02, noNaN: true }),
  scaleY: fc.double({ min: 0.98, max: 1.02, noNaN: true }),
});

/** What is printed around a drawing has looks of its own. */
const ofDrawing = (items: readonly Item[]): readonly Item[] =>
  items.filter(({ style }) => style === undefined);

function near(p: Point, items: readonly Item[]): boolean {
  return items
    .flatMap(linesOf)
    .some(({ segments }) => segments.some((segment) => distanceToSegment(p, segment) < 1e-6));
}

describe('any drawing on any paper', () => {
  test('every point is on a page, and every page has something of the drawing on it', () => {
    let several = 0;
    fc.assert(
      fc.property(fc.array(item, { minLength: 1, maxLength: 6 }), printing, (items, print) => {
        const tiled = tileDrawing(titled(items), sizeOf(print.paper), print);
        if (tiled.tiles.length > 1) several++;
        for (const segment of items.flatMap(linesOf).flatMap((one) => one.segments)) {
          for (const t of [0, 0.13, 0.5, 0.77, 1]) {
            const p = pointAt(segment, t);
            const shown = tiled.tiles.some((tile) =>
              near({ x: p.x + tile.offset.x, y: p.y + tile.offset.y }, ofDrawing(tile.items)),
            );
            expect(shown).toBe(true);
          }
        }
        for (const tile of tiled.tiles) {
          // Not only in the overlap that a neighbour shows as well: in the cell itself.
          const own = ofDrawing(tile.items)
            .flatMap(linesOf)
            .some((one) =>
              one.segments.some((segment) =>
                Array.from({ length: 201 }, (_, i) => pointAt(segment, i / 200)).some(
                  (p) =>
                    p.x - tile.offset.x >= tile.cell.minX - 0.5 &&
                    p.x - tile.offset.x <= tile.cell.maxX + 0.5 &&
                    p.y - tile.offset.y >= tile.cell.minY - 0.5 &&
                    p.y - tile.offset.y <= tile.cell.maxY + 0.5,
                ),
              ),
            );
          expect(own).toBe(true);
        }
        expect(tiled.pages).toHaveLength(tiled.tiles.length + (tiled.tiles.length > 1 ? 1 : 0));
      }),
      { numRuns: 60, seed: 2 },
    );
    expect(several).toBeGreaterThan(20);
  });

  test('what a page shows lies in the room for the drawing', () => {
    fc.assert(
      fc.property(fc.array(item, { minLength: 1, maxLength: 6 }), printing, (items, print) => {
        const { frame, tiles } = tileDrawing(titled(items), sizeOf(print.paper), print);
        for (const { shown, offset } of tiles) {
          expect(shown.minX + offset.x).toBeGreaterThanOrEqual(frame.area.minX);
          expect(shown.maxX + offset.x).toBeLessThanOrEqual(frame.area.maxX);
          expect(shown.minY + offset.y).toBeGreaterThanOrEqual(frame.area.minY);
          expect(shown.maxY + offset.y).toBeLessThanOrEqual(frame.area.maxY);
        }
      }),
      { numRuns: 60, seed: 3 },
    );
  });
});

describe('pages', () => {
  /** Lays windows one after the other until the length is covered. */
  function windowsNeeded(length: number, longest: number, overlap: number): number {
    let count = 1;
    for (let reach = longest; reach < length - 1e-9; reach += longest - overlap) count++;
    return count;
  }

  /** Pages for a drawing that is filled everywhere, one way up: the room is the frame's, the counting is done here. */
  function pagesNeeded(width: number, height: number, name: string, turned: boolean): number {
    for (const instructions of [printing100, [...printing100, joining]]) {
      const { area } = frameOf(sizeOf(name), turned, usual, { title: filled(1, 1).title, instructions });
      const count =
        windowsNeeded(width, area.maxX - area.minX - pens.drawing, 10) *
        windowsNeeded(height, area.maxY - area.minY - pens.drawing, 10);
      if (count === 1 || instructions.includes(joining)) return count;
    }
    throw new Error('the loop returns');
  }

  test('are as few as the better of two orientations allows', () => {
    const turns = new Set<boolean>();
    let apart = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 1200 }),
        fc.integer({ min: 30, max: 900 }),
        fc.constantFrom('a5', 'a4', 'letter', 'legal'),
        (width, height, name) => {
          const tiled = tileDrawing(filled(width, height), sizeOf(name), usual);
          const upright = pagesNeeded(width, height, name, false);
          const turned = pagesNeeded(width, height, name, true);
          turns.add(tiled.frame.turned);
          if (upright !== turned) apart++;
          expect(tiled.tiles.length).toBe(Math.min(upright, turned));
        },
      ),
      { numRuns: 40, seed: 5 },
    );
    expect(turns.size).toBe(2);
    expect(apart).toBeGreaterThan(10);
  });

  test('without anything of the drawing are left out', () => {
    const frame = titled([closed('CUT', roundedRectangle(0, 0, 1000, 1200, 5))]);
    const tiled = tileDrawing(frame, sizeOf('a4'), usual);
    expect(tiled.rows * tiled.columns).toBeGreaterThan(tiled.tiles.length);
    expect(tiled.tiles.length).toBe(2 * (tiled.rows + tiled.columns) - 4);
  });

  test('a line that lies on a seam keeps one row of pages, not two or none', () => {
    const probe = tileDrawing(filled(900, 100), sizeOf('a4'), usual);
    const seam = probe.tiles[0]?.cell.maxX ?? 0;
    const ends = [0, 900].map((x) =>
      open('CUT', { closed: false, segments: [line({ x, y: 0 }, { x, y: 100 })] }),
    );
    const on = open('CUT', { closed: false, segments: [line({ x: seam, y: 0 }, { x: seam, y: 100 })] });
    const columns = tileDrawing(titled([...ends, on]), sizeOf('a4'), usual).tiles.map((tile) => tile.column);
    expect(columns).toEqual([1, 2, probe.columns]);
  });

  test('a drawing that goes on one page has no map, crosses or trim lines', () => {
    const tiled = tileDrawing(filled(120, 80), sizeOf('a4'), usual);
    expect(tiled.pages.map((page) => page.kind)).toEqual(['tile']);
    expect(tiled.tiles[0]?.crosses).toEqual([]);
    const styles = tiled.pages.flatMap(({ items }) => items.map(({ style }) => style));
    for (const one of ['cross', 'trim', 'lay', 'cell'] as const) expect(styles).not.toContain(one);
  });

  test('an empty drawing still gives its title and scale bars', () => {
    const tiled = tileDrawing(titled([]), sizeOf('letter'), usual);
    expect(tiled.pages).toHaveLength(1);
    expect(tiled.onEveryPage.length).toBeGreaterThan(10);
  });

  test('are numbered from the top left, row by row', () => {
    const { tiles } = tileDrawing(filled(420, 560), sizeOf('a4'), usual);
    const order = tiles.map(({ row, column }) => row * 1000 + column);
    expect(order).toEqual([...order].sort((a, b) => a - b));
    const first = tiles.find((tile) => tile.row === 1 && tile.column === 1);
    expect(first?.cell.maxY).toBe(560);
    expect(first?.cell.minX).toBe(0);
  });
});

describe('seams', () => {
  const seamsOf = (tiled: TiledPages): readonly number[] =>
    tiled.tiles
      .filter((tile) => tile.row === 1)
      .map((tile) => tile.cell.maxX)
      .slice(0, -1);

  test('keep clear of fingers where they can', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 400, max: 1500 }),
        fc.integer({ min: 8, max: 60 }),
        fc.integer({ min: 4, max: 30 }),
        (width, finger, slot) => {
          const fingers = Array.from({ length: Math.floor(width / (finger + slot)) }, (_, i) => ({
            from: slot / 2 + i * (finger + slot),
            to: slot / 2 + i * (finger + slot) + finger,
          }));
          const free = tileDrawing(filled(width, 100), sizeOf('a4'), usual);
          const kept = tileDrawing({ ...filled(width, 100), keepClear: { x: fingers } }, sizeOf('a4'), usual);
          expect(kept.tiles).toHaveLength(free.tiles.length);
          const longest = kept.frame.area.maxX - kept.frame.area.minX;
          const inFinger = seamsOf(kept).filter((x) =>
            fingers.some(({ from, to }) => x > from + 1e-9 && x < to - 1e-9),
          );
          // A page may be up to this much shorter than the paper allows without one page more.
          const slack = free.columns * longest - (free.columns - 1) * 10 - width;
          if (slack > free.columns * finger + 1) expect(inFinger).toEqual([]);
        },
      ),
      { numRuns: 40, seed: 7 },
    );
  });

  test('are even when nothing is in the way', () => {
    const tiled = tileDrawing(filled(900, 100), sizeOf('a4'), usual);
    const widths = tiled.tiles.map(({ shown }) => shown.maxX - shown.minX);
    expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(1e-9);
  });
});

describe('paper', () => {
  test('with room passes, and then never fails', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 500, noNaN: true }),
        fc.double({ min: 20, max: 700, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (a, b, margin) => {
          const size = paperSize({ width: a, height: b });
          if (!size) throw new Error('a size of its own is always known');
          const print = { ...usual, margin };
          if (judgePaper(size, print, 'shop.printer.paper').length > 0) return;
          expect(tileDrawing(filled(300, 200), size, print).tiles.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 40, seed: 11 },
    );
  });

  test('too small is refused with what is left of it', () => {
    const [found, ...more] = judgePaper({ width: 60, height: 90 }, usual, 'shop.printer.paper');
    expect(more).toEqual([]);
    expect(found).toMatchObject({ code: 'paper-small', level: 'refused', at: 'shop.printer.paper' });
  });

  test('of every name in the table has room', () => {
    for (const name of paperNames) expect(judgePaper(sizeOf(name), usual, 'x')).toEqual([]);
  });
});
