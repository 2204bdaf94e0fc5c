import { text } from '../drawing/drawing.js';
import { textWidth } from '../drawing/lettering/lettering.js';
import type { Item, Layer, TextItem } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { extents } from '../geometry/outline.js';
import { joinedExtents } from '../geometry/point.js';
import { line } from '../geometry/segment.js';
import { scale, translate } from '../geometry/transform.js';
import type { Extents, Point } from '../geometry/types.js';

/** Small helpers for building and moving what is drawn on a sheet, mm. */

export const stroke = (layer: Layer, from: Point, to: Point, dashed = false): Item => ({
  kind: 'open',
  layer,
  path: { closed: false, segments: [line(from, to)] },
  ...(dashed && { dashed }),
});

/** A line of the sheet itself: no part of anything that is drawn on it. */
export const ruled = (style: StyleName, from: Point, to: Point): Item => ({
  ...stroke('REF', from, to),
  style,
});

export const lettering = (
  words: string,
  at: Point,
  height: number,
  align: TextItem['align'] = 'start',
): TextItem => text('ENGRAVE', words, at, height, { align });

export function movedItems(items: readonly Item[], dx: number, dy: number): readonly Item[] {
  return items.map((item) => {
    if (item.kind === 'closed') return { ...item, outline: translate(item.outline, dx, dy) };
    if (item.kind === 'open') return { ...item, path: translate(item.path, dx, dy) };
    return { ...item, at: { x: item.at.x + dx, y: item.at.y + dy } };
  });
}

/** Lines scaled about the origin; lettering is left out, as it would not stay readable. */
export function scaledLines(items: readonly Item[], factor: number): readonly Item[] {
  return items.flatMap((item): readonly Item[] => {
    if (item.kind === 'closed') return [{ ...item, outline: scale(item.outline, factor) }];
    if (item.kind === 'open') return [{ ...item, path: scale(item.path, factor) }];
    return [];
  });
}

/** The box around items, lettering by its letters' box and not by every stroke. */
export function boxOf(items: readonly Item[]): Extents {
  const boxes = items.map((item): Extents => {
    if (item.kind === 'text') return textBox(item);
    return extents(item.kind === 'closed' ? item.outline : item.path);
  });
  return boxes.length === 0 ? { minX: 0, minY: 0, maxX: 0, maxY: 0 } : boxes.reduce(joinedExtents);
}

/** How far letters like g, or a comma, reach below the base line, in capital heights. */
export const DESCENT = 0.35;

/** The upright box of a level line of lettering, its descenders counted, mm. */
export function textBox({ text: words, at, height, align }: TextItem): Extents {
  const width = textWidth(words, height);
  const from = at.x - { start: 0, middle: width / 2, end: width }[align];
  return { minX: from, maxX: from + width, minY: at.y - DESCENT * height, maxY: at.y + height };
}
