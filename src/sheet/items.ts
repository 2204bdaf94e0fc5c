import { closed, linesOf, movedItem, open, shift, text } from '../drawing/drawing.js';
import { lineLength } from '../drawing/lettering/typeface.js';
import { wrapped } from '../drawing/lettering/wrapped.js';
import type { Face, Item, TextItem } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { extents } from '../geometry/outline.js';
import { joinedExtents } from '../geometry/point.js';
import { line } from '../geometry/segment.js';
import type { Extents, Outline, Point } from '../geometry/types.js';

/** Small helpers for building and moving what is drawn on a sheet, mm. */

/** A line of the sheet, or of a figure on it: nothing of it is done to anything. */
export const ruled = (style: StyleName, from: Point, to: Point, dashed = false): Item => ({
  ...open('REF', { closed: false, segments: [line(from, to)] }, dashed),
  style,
});

/** An outline of the same. */
export const outlined = (style: StyleName, outline: Outline): Item => ({ ...closed('REF', outline), style });

export const lettering = (
  words: string,
  at: Point,
  height: number,
  align: TextItem['align'] = 'start',
  face: Face = 'sans',
): TextItem => ({ ...text('REF', words, at, height, { align }), style: 'words', face });

/** Words of a sheet in lines no longer than `width`, mm. */
export const inLines = (
  words: string,
  height: number,
  width: number,
  face: Face = 'sans',
  most = Infinity,
): readonly string[] =>
  wrapped(words, height, width, most, (line, capital) => lineLength(line, capital, face));

export const movedItems = (items: readonly Item[], dx: number, dy: number): readonly Item[] =>
  items.map((item) => movedItem(item, shift(dx, dy)));

/** The box around items, lettering by its letters' box and not by every stroke. */
export function boxOf(items: readonly Item[]): Extents {
  const boxes = items.map((item): Extents => {
    if (item.kind === 'text') return textBox(item);
    return extents(...linesOf(item));
  });
  return boxes.length === 0 ? { minX: 0, minY: 0, maxX: 0, maxY: 0 } : boxes.reduce(joinedExtents);
}

/** How far letters like g, or a comma, reach below the base line, in capital heights. */
export const DESCENT = 0.35;

/** The upright box of a line of words, whichever way it runs, its descenders counted, mm. */
export function textBox({ text: words, at, height, align, angle, face = 'sans' }: TextItem): Extents {
  const width = lineLength(words, height, face);
  const from = -{ start: 0, middle: width / 2, end: width }[align];
  const low = -DESCENT * height;
  if (angle === 0) {
    return { minX: at.x + from, maxX: at.x + from + width, minY: at.y + low, maxY: at.y + height };
  }
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [from, from + width]
    .flatMap((x) => [low, height].map((y) => ({ x: at.x + x * cos - y * sin, y: at.y + x * sin + y * cos })))
    .map(({ x, y }): Extents => ({ minX: x, minY: y, maxX: x, maxY: y }))
    .reduce(joinedExtents);
}
