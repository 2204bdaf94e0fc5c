import type { Item, TextItem } from '../drawing/model.js';
import { clipLine } from '../geometry/clip.js';
import { extents } from '../geometry/outline.js';
import type { Point } from '../geometry/types.js';
import { type LabelRoom, labelItems } from './label.js';
import type { Plate } from './plate.js';

/**
 * Scored lines and engraved words on a plate: where the board's edges, faces and centre lie, where the stop
 * goes, which way the reference edge is, and what the plate is for.
 */
export function markItems(plate: Plate, label: readonly string[]): readonly Item[] {
  return [...scores(plate), ...referenceArrow(plate), ...labelItems(label, labelRoom(plate))];
}

/** Length of the ticks on the spine that continue the board's edges and centre, mm. */
const TICK = 9;

/** Clear of the plate's own edge, mm. */
const INSET = 4;

/** Capital height of the words beside a mark, mm. */
const SMALL_LETTERS = 2.5;

function scores(plate: Plate): readonly Item[] {
  const { box, width, spineFrom, cut } = plate;
  const nearFace = extents(...cut.stock).minY;
  const across = (y: number) => scored(plate, { x: box.minX + INSET, y }, { x: box.maxX - INSET, y });
  const along = (x: number, from: number, to: number) => scored(plate, { x, y: from }, { x, y: to });
  const tickTo = spineFrom + TICK;
  return [
    // Back face against the fence, and the face toward the operator.
    ...across(0),
    ...across(nearFace),
    // The board's edges and its centre, on the fingers and as ticks on both sides of the spine.
    ...[0, width / 2, width].flatMap((x) => [
      ...along(x, box.minY + INSET, tickTo),
      ...along(x, box.maxY - TICK / 2, box.maxY - 1),
    ]),
    ...stopCorner(plate, 0, -1),
    ...stopCorner(plate, width, 1),
  ];
}

/** A corner that the stop is set to: its edge on the board's edge. `side` is −1 left of the board, 1 right. */
function stopCorner(plate: Plate, x: number, side: -1 | 1): readonly Item[] {
  const y = plate.spineFrom + TICK;
  return [
    ...scored(plate, { x, y }, { x: x + side * TICK, y }),
    words('STOP', { x: x + side * (TICK + 1.5), y: y - SMALL_LETTERS / 2 }, side < 0 ? 'end' : 'start'),
  ];
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
  const tail = { x: edge + outward * 8, y };
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
