import { rectangle } from '../../geometry/outline.js';
import { scale, translate } from '../../geometry/transform.js';
import type { Extents, Point } from '../../geometry/types.js';
import type { Contour } from '../contours.js';
import { area, closed, drawn, seen } from '../drawing.js';
import { textWidth } from '../lettering/lettering.js';
import { wrapped } from '../lettering/wrapped.js';
import type { Item } from '../model.js';
import { lettering } from './marks.js';
import type { TilePlace } from './tile.js';
import type { Frame } from './types.js';

export interface MapContent {
  readonly frame: Frame;
  readonly places: readonly TilePlace[];
  readonly contours: readonly Contour[];
  readonly whole: Extents;
  /** What is worth saying about the drawing. */
  readonly notes: readonly string[];
}

const heading = { height: 3.5, line: 6.5 };
const mapLetters = { height: 2.4, line: 4.4 };

/** mm between the words and the map. */
const MAP_MARGIN = 5;

/** A small drawing of the whole with the page that each part is on, and words on how to join them. */
export function mapItems({ frame: { area }, places, contours, whole, notes }: MapContent): readonly Item[] {
  const width = area.maxX - area.minX;
  const size = [whole.maxX - whole.minX, whole.maxY - whole.minY];
  const sentences = [
    `Joined, the drawing is ${size.map((one) => one.toFixed(1)).join(' × ')} mm (${size.map((one) => (one / 25.4).toFixed(2)).join(' × ')} in). Each cell of this map shows the page that holds it.`,
    ...notes,
  ].flatMap((one) => wrapped(one, mapLetters.height, width));
  const top = area.maxY - heading.height;
  const foot = top - sentences.length * mapLetters.line - MAP_MARGIN;
  const small = fitted(whole, { ...area, maxY: Math.max(foot, area.minY + (area.maxY - area.minY) / 3) });
  return [
    ...lettering(`Map of ${places.length} pages, not to scale`, { x: area.minX, y: top }, heading),
    ...sentences.flatMap((one, i) =>
      lettering(
        one,
        { x: area.minX, y: top - heading.line + mapLetters.height - (i + 0.5) * mapLetters.line },
        mapLetters,
      ),
    ),
    ...contours.map(({ line, layer }) =>
      drawn(layer, translate(scale(line, small.factor), small.offset.x, small.offset.y)),
    ),
    ...places.flatMap((place, i) => cellItems(place, i + 2, small)),
  ];
}

interface Small {
  readonly factor: number;
  /** Page = drawing × factor + offset. */
  readonly offset: Point;
}

/** The largest factor up to 1 at which the drawing goes into the room, in the room's middle at its top. */
function fitted(whole: Extents, room: Extents): Small {
  const factor = Math.min(
    1,
    (room.maxX - room.minX) / Math.max(whole.maxX - whole.minX, 1),
    (room.maxY - room.minY) / Math.max(whole.maxY - whole.minY, 1),
  );
  return {
    factor,
    offset: {
      x: (room.minX + room.maxX - (whole.minX + whole.maxX) * factor) / 2,
      y: room.maxY - whole.maxY * factor,
    },
  };
}

/** A cell's edge and in its middle its page, row and column on white, as large as the cell allows. */
function cellItems(
  { cell, row, column }: TilePlace,
  page: number,
  { factor, offset }: Small,
): readonly Item[] {
  const box = rectangle(
    cell.minX * factor + offset.x,
    cell.minY * factor + offset.y,
    cell.maxX * factor + offset.x,
    cell.maxY * factor + offset.y,
  );
  const edge = seen('cell', [closed('REF', box)]);
  const wide = (cell.maxX - cell.minX) * factor;
  const high = (cell.maxY - cell.minY) * factor;
  const middle = {
    x: ((cell.minX + cell.maxX) / 2) * factor + offset.x,
    y: ((cell.minY + cell.maxY) / 2) * factor + offset.y,
  };
  const full = labelled([`page ${page}`, `row ${row}`, `column ${column}`], middle, wide, high);
  return [...edge, ...(full ?? labelled([`${page}`], middle, wide, high) ?? [])];
}

const largest = 3;
const readable = 1.5;

/** Lines of lettering about a point on a white ground; undefined when they would be too small to read. */
function labelled(
  lines: readonly string[],
  middle: Point,
  wide: number,
  high: number,
): readonly Item[] | undefined {
  const longest = Math.max(...lines.map((one) => textWidth(one, 1)));
  const spacing = 1.6;
  const stack = (lines.length - 1) * spacing + 1;
  const height = Math.min(largest, (wide * 0.8) / longest, (high * 0.8) / (stack + 1));
  if (height < readable) return undefined;
  const halfWide = (longest * height) / 2 + 0.6;
  const halfHigh = (stack * height) / 2 + 0.8;
  const { x, y } = middle;
  return [
    ...seen('ground', [area('REF', [rectangle(x - halfWide, y - halfHigh, x + halfWide, y + halfHigh)])]),
    ...lines.flatMap((one, i) =>
      lettering(
        one,
        { x, y: y + (stack * height) / 2 - height * (1 + i * spacing) },
        { height, align: 'middle' },
      ),
    ),
  ];
}
