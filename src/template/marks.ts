import { type LabelRoom, labelItems } from '../drawing/label.js';
import type { Item, TextItem } from '../drawing/model.js';
import { clipLine } from '../geometry/clip.js';
import { extents } from '../geometry/outline.js';
import type { Extents, Point } from '../geometry/types.js';
import type { Plate } from './plate.js';

/**
 * Scored lines and engraved words on a plate: where the board's edges, faces and centre lie, where the stop
 * goes, which way the reference edge is, and what the plate is for.
 */
export function markItems(plate: Plate, label: readonly string[]): readonly Item[] {
  return [...scores(plate), ...referenceArrow(plate), ...labelItems(label, labelRoom(plate))];
}

/** Length of the ticks on the spine that continue the board's edges and centre, mm. */
const TICK = 12;

/** Clear of the plate's own edge, mm. */
const INSET = 4;

/** Capital height of the words beside a mark, mm. */
const SMALL_LETTERS = 2.5;

function scores(plate: Plate): readonly Item[] {
  const { box, width, spineFrom, cut } = plate;
  const boards = cut.stock.map(({ outline }) => extents(outline));
  const across = (y: number) => scored(plate, { x: box.minX + INSET, y }, { x: box.maxX - INSET, y });
  const along = (x: number, from: number, to: number) => scored(plate, { x, y: from }, { x, y: to });
  const faces = distinct(boards.flatMap(({ minY, maxY }) => [minY, maxY])).filter((y) => y < spineFrom);
  const edges = distinct(boards.flatMap(({ minX, maxX }) => [minX, maxX]));
  return [
    // Where the boards' faces or ends lie, across the plate.
    ...faces.flatMap(across),
    // The boards' edges and the joint's centre, on the fingers and as ticks on both sides of the spine.
    ...distinct([...edges, width / 2]).flatMap((x) => [
      ...along(x, box.minY + INSET, spineFrom + TICK),
      ...along(x, box.maxY - TICK / 2, box.maxY - 1),
    ]),
    ...cut.stock.flatMap(({ board }, i) => stops(plate, board, boards[i])),
  ];
}

/** The corners that the stops of one board are set to; named where two boards lie under the plate. */
function stops(plate: Plate, board: string, at: Extents | undefined): readonly Item[] {
  if (!at) return [];
  const name = plate.cut.stock.length > 1 ? `STOP ${board.toUpperCase()}` : 'STOP';
  const y = plate.spineFrom + TICK - (plate.cut.stock[0]?.board === board ? 0 : SMALL_LETTERS * 1.6);
  return [...stopCorner(plate, name, at.minX, y, -1), ...stopCorner(plate, name, at.maxX, y, 1)];
}

/** A stop's edge stands on the board's edge. `side` is −1 left of the board, 1 right. */
function stopCorner(plate: Plate, name: string, x: number, y: number, side: -1 | 1): readonly Item[] {
  const reach = side < 0 ? Math.min(0, x) - TICK : Math.max(plate.width, x) + TICK;
  return [
    ...scored(plate, { x, y }, { x: reach, y }),
    words(name, { x: reach + side * 1.5, y: y - SMALL_LETTERS / 2 }, side < 0 ? 'end' : 'start'),
  ];
}

function distinct(values: readonly number[]): readonly number[] {
  return values.filter((value, i) => values.findIndex((other) => Math.abs(other - value) < 1e-6) === i);
}

function scored(plate: Plate, from: Point, to: Point): readonly Item[] {
  return clipLine(from, to, [plate.outline]).map((path) => ({ kind: 'open', layer: 'SCORE', path }));
}

/** An arrow in the margin that points at the reference edge. */
function referenceArrow(plate: Plate): readonly Item[] {
  const { referenceEdge: edge, spineFrom } = plate;
  const outward = edge === 0 ? -1 : 1;
  const y = spineFrom + SMALL_LETTERS / 2 + 1;
  const tip = { x: edge + outward * 0.8, y };
  // A lipped front reaches past the reference edge: the words stand clear of it.
  const boards = extents(...plate.cut.stock.map(({ outline }) => outline));
  const outermost = outward < 0 ? Math.min(edge, boards.minX) : Math.max(edge, boards.maxX);
  const tail = { x: outermost + outward * 8, y };
  const barb = (up: number): Item => engraved(tip, { x: tip.x + outward * 2.2, y: y + up });
  return [
    engraved(tail, tip),
    barb(1.1),
    barb(-1.1),
    words(
      'REFERENCE EDGE',
      { x: tail.x + outward * 1.5, y: y - SMALL_LETTERS / 2 },
      outward < 0 ? 'end' : 'start',
    ),
  ];
}

function engraved(from: Point, to: Point): Item {
  return { kind: 'open', layer: 'ENGRAVE', path: { closed: false, segments: [{ kind: 'line', from, to }] } };
}

function words(text: string, at: Point, align: TextItem['align']): TextItem {
  return { kind: 'text', layer: 'ENGRAVE', text, at, height: SMALL_LETTERS, angle: 0, align };
}

/** Between the ticks and the screws, over the whole length of the plate. */
function labelRoom(plate: Plate): LabelRoom {
  const { box, spineFrom, screws } = plate;
  const screwsFrom = Math.min(box.maxY - TICK / 2, ...screws.map(({ y, radius }) => y - radius));
  return {
    x: (box.minX + box.maxX) / 2,
    from: spineFrom + TICK + SMALL_LETTERS + 2,
    to: screwsFrom - 2,
    width: box.maxX - box.minX - 2 * INSET,
  };
}
