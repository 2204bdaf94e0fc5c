import { extents } from '../geometry/outline.js';
import { joinedExtents } from '../geometry/point.js';
import { mirrorX, translate } from '../geometry/transform.js';
import type { Extents, Outline, Path, Point, Region } from '../geometry/types.js';
import { strokesOf } from './lettering/lettering.js';
import type {
  AreaItem,
  ClosedItem,
  Drawing,
  Interval,
  Item,
  KeepClear,
  Layer,
  OpenItem,
  TextItem,
} from './model.js';
import type { StyleName } from './styles.js';

/** Building and moving drawings. Millimetres, x right, y up. */

export const closed = (layer: Layer, outline: Outline): ClosedItem => ({ kind: 'closed', layer, outline });

export const open = (layer: Layer, path: Path, dashed = false): OpenItem => ({
  kind: 'open',
  layer,
  path,
  ...(dashed && { dashed }),
});

/** A line that is closed or isn't. */
export const drawn = (layer: Layer, line: Outline | Path): ClosedItem | OpenItem =>
  line.closed ? closed(layer, line) : open(layer, line);

export const area = (layer: Layer, region: Region): AreaItem => ({ kind: 'area', layer, region });

/** What is only seen: nothing of it is done to the sheet, and it has looks of its own. */
export const seen = <T extends Item>(style: StyleName, items: readonly T[]): readonly T[] =>
  items.map((item) => ({ ...item, layer: 'REF', style }));

export interface TextOptions {
  /** Radians, counter-clockwise; 0 when left out. */
  readonly angle?: number;
  readonly align?: TextItem['align'];
}

/** Lettering on its baseline, `height` being that of a capital. */
export const text = (
  layer: Layer,
  words: string,
  at: Point,
  height: number,
  { angle = 0, align = 'start' }: TextOptions = {},
): TextItem => ({ kind: 'text', layer, text: words, at, height, angle, align });

/** The lines that an item is drawn with: its outline, its path or the strokes of its letters. */
export function linesOf(item: Item): readonly (Outline | Path)[] {
  switch (item.kind) {
    case 'closed':
      return [item.outline];
    case 'open':
      return [item.path];
    case 'area':
      return item.region;
    case 'text':
      return strokesOf(item);
  }
}

/** Smallest upright rectangle around what is drawn on the layers asked for (all of them when left out); undefined when nothing is. */
export function extentsOf(drawing: Drawing, layers?: readonly Layer[]): Extents | undefined {
  return drawing.items
    .filter((item) => layers === undefined || layers.includes(item.layer))
    .flatMap(linesOf)
    .filter((line) => line.segments.length > 0)
    .map((line) => extents(line))
    .reduce<Extents | undefined>((all, one) => (all ? joinedExtents(all, one) : one), undefined);
}

/** The drawing moved by (dx, dy), mm. */
export const movedDrawing = (drawing: Drawing, dx: number, dy: number): Drawing =>
  withItems(
    drawing,
    (item) => movedItem(item, shift(dx, dy)),
    ({ x, y }) => ({ ...(x && { x: x.map(shifted(dx)) }), ...(y && { y: y.map(shifted(dy)) }) }),
  );

const shifted =
  (by: number) =>
  ({ from, to }: Interval): Interval => ({ from: from + by, to: to + by });

/**
 * The drawing mirrored left to right, x becoming c − x. Lettering stays readable: each line of it is set
 * anew so that it covers the mirror image of the place it had.
 */
export const mirrored = (drawing: Drawing, c = 0): Drawing =>
  withItems(
    drawing,
    (item) => mirroredItem(item, c),
    ({ x, ...rest }) => ({
      ...rest,
      ...(x && { x: x.map(({ from, to }) => ({ from: c - to, to: c - from })) }),
    }),
  );

function withItems(
  drawing: Drawing,
  change: (item: Item) => Item,
  place: (keepClear: KeepClear) => KeepClear,
): Drawing {
  const { items, keepClear } = drawing;
  return { ...drawing, items: items.map(change), ...(keepClear && { keepClear: place(keepClear) }) };
}

/** How lines and places are moved, and how far lettering turns with them, radians. */
export interface Motion {
  readonly line: <T extends Outline | Path>(line: T) => T;
  readonly at: (place: Point) => Point;
  readonly turn?: number;
}

export const shift = (dx: number, dy: number): Motion => ({
  line: (line) => translate(line, dx, dy),
  at: ({ x, y }) => ({ x: x + dx, y: y + dy }),
});

/** Letters keep their height. */
export function movedItem(item: Item, { line, at, turn = 0 }: Motion): Item {
  switch (item.kind) {
    case 'closed':
      return { ...item, outline: line(item.outline) };
    case 'open':
      return { ...item, path: line(item.path) };
    case 'area':
      return { ...item, region: item.region.map(line) };
    case 'text':
      return { ...item, at: at(item.at), angle: item.angle + turn };
  }
}

function mirroredItem(item: Item, c: number): Item {
  const image = movedItem(item, {
    line: (line) => mirrorX(line, c),
    at: ({ x, y }) => ({ x: c - x, y }),
  });
  return image.kind === 'text' ? { ...image, angle: -image.angle, align: otherEnd[image.align] } : image;
}

const otherEnd = { start: 'end', middle: 'middle', end: 'start' } as const;

/** Intervals that touch or overlap as one, in their order. */
export function joinedIntervals(all: readonly Interval[]): readonly Interval[] {
  const joined: Interval[] = [];
  for (const one of [...all].sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last && one.from <= last.to) joined.splice(-1, 1, { from: last.from, to: Math.max(last.to, one.to) });
    else joined.push(one);
  }
  return joined;
}
