import { linesOf } from '../drawing/drawing.js';
import { type LabelSpace, labelItems, writable } from '../drawing/lettering/label.js';
import type { Item, TextItem } from '../drawing/model.js';
import { extents } from '../geometry/outline.js';
import { clipLine } from '../geometry/regions/clip.js';
import type { Extents, Point } from '../geometry/types.js';
import { boardsUnder, type PlateSide } from './plate.js';

/**
 * Scored lines and engraved words on a plate: where the board's edges, faces and centre lie, where the stop
 * goes, which way the reference edge is, and what the plate is for.
 */
export function markItems(plate: PlateSide, label: readonly string[]): readonly Item[] {
  const around = [...scores(plate), ...leaveOutCross(plate), ...referenceArrows(plate)];
  return [...around.filter((item) => isOnPlate(item, plate)), ...labelMarks(plate, label)];
}

/** The label alone; of a plate in parts, between two places along x. */
export function labelMarks(
  plate: PlateSide,
  label: readonly string[],
  between: { readonly from: number; readonly to: number } = { from: plate.box.minX, to: plate.box.maxX },
): readonly TextItem[] {
  return labelItems(label, labelSpace(plate, between));
}

/** On a plate with a narrow margin the words beside its marks would run off it: they are left out. */
function isOnPlate(item: Item, { box }: PlateSide): boolean {
  if (item.layer !== 'ENGRAVE') return true;
  const { minX, maxX } = extents(...linesOf(item));
  return minX > box.minX + 1 && maxX < box.maxX - 1;
}

/** How many of the label's paragraphs have no room on the plate. */
export function unsaid(plate: PlateSide, label: readonly string[]): number {
  return label.length - writable(label, labelSpace(plate));
}

/** Length of the ticks on the spine that continue the board's edges and centre, mm. */
const TICK = 12;

/** Clear of the plate's own edge, mm. */
const INSET = 4;

/** Capital height of the words beside a mark, mm. */
const SMALL_LETTERS = 2.5;

/** Every x where a board's edge may stand, at the left and at the right stop, mm. */
export function scoredEdges(plate: PlateSide): readonly number[] {
  return distinct(standsOf(plate).flatMap(({ left, right, at }) => [left, at.minX, at.maxX, right]));
}

function scores(plate: PlateSide): readonly Item[] {
  const { box, width, spineFrom } = plate;
  const boards = standsOf(plate).map(({ at }) => at);
  const across = (y: number) => scored(plate, { x: box.minX + INSET, y }, { x: box.maxX - INSET, y });
  const along = (x: number, from: number, to: number) => scored(plate, { x, y: from }, { x, y: to });
  const faces = distinct(boards.flatMap(({ minY, maxY }) => [minY, maxY])).filter((y) => y < spineFrom);
  const edges = scoredEdges(plate);
  return [
    // Where the boards' faces or ends lie, across the plate.
    ...faces.flatMap(across),
    // The boards' edges and the joint's centre, on the fingers and as ticks on both sides of the spine.
    ...distinct([...edges, width / 2]).flatMap((x) => [
      ...along(x, box.minY + INSET, spineFrom + TICK),
      // At the far edge, unless that is the middle of a plate with two working edges.
      ...(isTwoSided(plate) ? [] : along(x, box.maxY - TICK / 2, box.maxY - 1)),
    ]),
    ...stops(plate),
  ];
}

function isTwoSided({ box, outline }: PlateSide): boolean {
  return extents(outline).maxY > box.maxY + 1e-6;
}

/** A board under the plate: where it is drawn, the name of its stop, and where a stop stands on either side. */
export interface MarkPlace {
  readonly board: string;
  readonly name: string;
  readonly at: Extents;
  readonly left: number;
  readonly right: number;
}

/** Every board at its first stop and, where it is cut twice, at its second one. */
export function standsOf({ cut, width, referenceEdge }: PlateSide): readonly MarkPlace[] {
  const { stock, secondStop } = cut;
  const boards = stock.map(({ board, outline }): MarkPlace => {
    const at = extents(outline);
    // At the right stop a front with unlike lips has its lower lip there, as far past the joint as it is on the left.
    const mirrored = stock.length === 1 && referenceEdge === 0 && at.minX <= 0;
    return {
      board,
      name: stock.length > 1 ? `STOP ${board.toUpperCase()}` : 'STOP',
      at,
      left: at.minX,
      right: mirrored ? width - at.minX : at.maxX,
    };
  });
  if (!secondStop) return boards;
  return [0, secondStop.x].flatMap((dx, i) =>
    boards.map(({ board, name, at, left, right }) => ({
      board,
      name: `${name} ${i + 1}`,
      at: { ...at, minX: at.minX + dx, maxX: at.maxX + dx },
      left: left + dx,
      right: right + dx,
    })),
  );
}

/** A small cross beside an opening that is not to be used at the second stop. */
function leaveOutCross({ cut, spineFrom }: PlateSide): readonly Item[] {
  const leaveOut = cut.secondStop?.leaveOut;
  if (!leaveOut) return [];
  const x = (leaveOut[0] + leaveOut[1]) / 2;
  const y = spineFrom + TICK / 2;
  return [1, -1].map((side) => engraved({ x: x - 2, y: y - 2 * side }, { x: x + 2, y: y + 2 * side }));
}

/** The corners that stops are set to; named and a step apart where there are two. */
function stops(plate: PlateSide): readonly Item[] {
  return standsOf(plate).flatMap(({ name, left, right }, i) => {
    const y = plate.spineFrom + TICK - i * SMALL_LETTERS * 1.6;
    return [...stopCorner(plate, name, left, y, -1), ...stopCorner(plate, name, right, y, 1)];
  });
}

/** A stop's edge stands on the board's edge. `side` is −1 left of the board, 1 right. */
function stopCorner(plate: PlateSide, name: string, x: number, y: number, side: -1 | 1): readonly Item[] {
  const boards = boardsUnder(plate.cut);
  const reach = side < 0 ? Math.min(0, boards.minX, x) - TICK : Math.max(plate.width, boards.maxX, x) + TICK;
  return [
    ...scored(plate, { x, y }, { x: reach, y }),
    textAt(name, { x: reach + side * 1.5, y: y - SMALL_LETTERS / 2 }, side < 0 ? 'end' : 'start'),
  ];
}

function distinct(values: readonly number[]): readonly number[] {
  return values.filter((value, i) => values.findIndex((other) => Math.abs(other - value) < 1e-6) === i);
}

function scored(plate: PlateSide, from: Point, to: Point): readonly Item[] {
  return clipLine(from, to, [plate.outline]).map((path) => ({ kind: 'open', layer: 'SCORE', path }));
}

/** An arrow in each margin where a reference edge may be: at the left, at the right, or at either stop. */
function referenceArrows(plate: PlateSide): readonly Item[] {
  const { referenceEdge, bothStops } = plate;
  return [
    ...(referenceEdge === 0 || bothStops ? referenceArrow(plate, -1) : []),
    ...(referenceEdge !== 0 || bothStops ? referenceArrow(plate, 1) : []),
  ];
}

/** It points at the scored line of the edge that goes against the stop: of a lipped front that of its lip. */
function referenceArrow(plate: PlateSide, outward: -1 | 1): readonly Item[] {
  const { spineFrom, cut } = plate;
  const y = spineFrom + SMALL_LETTERS / 2 + 1;
  const atFirstStop = standsOf(plate).slice(0, cut.stock.length);
  const boards = boardsUnder(cut);
  const [edge, outermost] =
    outward < 0
      ? [Math.min(...atFirstStop.map(({ left }) => left)), boards.minX]
      : [Math.max(...atFirstStop.map(({ right }) => right)), boards.maxX];
  const tip = { x: edge + outward * 0.8, y };
  const tail = { x: (outward < 0 ? Math.min(edge, outermost) : Math.max(edge, outermost)) + outward * 8, y };
  const barb = (up: number): Item => engraved(tip, { x: tip.x + outward * 2.2, y: y + up });
  return [
    engraved(tail, tip),
    barb(1.1),
    barb(-1.1),
    textAt(
      'REFERENCE EDGE',
      { x: tail.x + outward * 1.5, y: y - SMALL_LETTERS / 2 },
      outward < 0 ? 'end' : 'start',
    ),
  ];
}

function engraved(from: Point, to: Point): Item {
  return { kind: 'open', layer: 'ENGRAVE', path: { closed: false, segments: [{ kind: 'line', from, to }] } };
}

function textAt(text: string, at: Point, align: TextItem['align']): TextItem {
  return { kind: 'text', layer: 'ENGRAVE', text, at, height: SMALL_LETTERS, angle: 0, align };
}

/** Between the ticks and the screws, over the whole length of the plate. */
function labelSpace(
  plate: PlateSide,
  { from, to }: { readonly from: number; readonly to: number } = { from: plate.box.minX, to: plate.box.maxX },
): LabelSpace {
  const { box, spineFrom, screws } = plate;
  const screwsFrom = Math.min(
    isTwoSided(plate) ? box.maxY : box.maxY - TICK / 2,
    ...screws.map(({ y, radius }) => y - radius),
  );
  return {
    x: (from + to) / 2,
    from: spineFrom + TICK + SMALL_LETTERS + 2,
    to: screwsFrom - 2,
    width: to - from - 2 * INSET,
  };
}
