import { extents } from '../../geometry/outline.js';
import { line } from '../../geometry/segment.js';
import type { Extents, Outline, Path, Point } from '../../geometry/types.js';
import type { Contour } from '../contours.js';
import { drawn, linesOf, movedItem, seen, shift, text } from '../drawing.js';
import type { Item } from '../model.js';
import type { StyleName } from '../styles.js';
import { clipToWindow, within } from './clip.js';
import { lettering, straight } from './marks.js';
import type { Frame, Tile } from './types.js';

/** Where one page lies over the drawing. */
export type TilePlace = Pick<Tile, 'row' | 'column' | 'cell' | 'shown'>;

/** Length of a cross's arms, mm. */
const ARM = 3;

/** Crosses stand this far inside the outer ends of a seam, mm, or a quarter of a short one. */
const INSET = 6;

/** What the drawing has on a page, with crosses and the lines for trimming and laying down. */
export function tileItems(
  place: TilePlace,
  places: readonly TilePlace[],
  crosses: readonly Point[],
  contours: readonly Contour[],
  { area }: Frame,
): Pick<Tile, 'offset' | 'crosses' | 'items'> {
  const { shown } = place;
  const offset = {
    x: (area.minX + area.maxX - shown.minX - shown.maxX) / 2,
    y: (area.minY + area.maxY - shown.minY - shown.maxY) / 2,
  };
  const own = crosses.filter((one) => windowHolds(shown, one));
  const crossed = own.flatMap((one) => crossAt(one, shown));
  const lines = [...contours.map(({ line }) => line), ...crossed.flatMap(linesOf)];
  const items = [...drawnIn(contours, shown), ...crossed, ...seamsOf(place, places, lines)];
  return { offset, crosses: own, items: items.map((one) => movedItem(one, shift(offset.x, offset.y))) };
}

/**
 * Crosses on every seam between two pages: at its ends and in its middle, where four pages meet on the corner
 * of all four. In the drawing's coordinates.
 */
export function sharedCrosses(places: readonly TilePlace[]): readonly Point[] {
  const points = places.flatMap((place) => {
    const { cell } = place;
    const xs = along(cell.minX, cell.maxX, place.shown.minX < cell.minX, place.shown.maxX > cell.maxX);
    const ys = along(cell.minY, cell.maxY, place.shown.minY < cell.minY, place.shown.maxY > cell.maxY);
    return [
      ...(neighbourOf(place, places, 0, 1) ? ys.map((y) => ({ x: cell.maxX, y })) : []),
      ...(neighbourOf(place, places, -1, 0) ? xs.map((x) => ({ x, y: cell.maxY })) : []),
    ];
  });
  return points.filter((one, i) => points.findIndex((other) => other.x === one.x && other.y === one.y) === i);
}

/** Ends and middle of a seam; an end where another seam crosses is the crossing itself. */
function along(from: number, to: number, seamBefore: boolean, seamAfter: boolean): readonly number[] {
  const inset = Math.min(INSET, (to - from) / 4);
  return [seamBefore ? from : from + inset, (from + to) / 2, seamAfter ? to : to - inset];
}

const neighbourOf = (
  place: TilePlace,
  places: readonly TilePlace[],
  down: number,
  right: number,
): TilePlace | undefined =>
  places.find((one) => one.row === place.row + down && one.column === place.column + right);

const windowHolds = (window: Extents, p: Point): boolean =>
  p.x >= window.minX && p.x <= window.maxX && p.y >= window.minY && p.y <= window.maxY;

/** Letters stay whole where they can: only one that the page's edge goes through is drawn stroke by stroke. */
function drawnIn(contours: readonly Contour[], shown: Extents): readonly Item[] {
  const items: Item[] = [];
  let next = 0;
  for (let first = contours[0]; first; first = contours[next]) {
    const { letter, layer } = first;
    const from = next;
    next += 1;
    while (letter && contours[next]?.letter === letter) next += 1;
    const own = contours.slice(from, next);
    if (letter && within(extents(...own.map(({ line }) => line)), shown)) {
      const { letter: words, at, height, angle } = letter;
      items.push(text(layer, words, at, height, { angle }));
    } else items.push(...own.flatMap((one) => partsIn(one, shown)));
  }
  return items;
}

const partsIn = ({ line, layer, dashed }: Contour, shown: Extents): readonly Item[] =>
  clipToWindow(line, shown).map((part) => ({
    ...drawn(layer, part.line),
    ...(dashed && { dashed, phase: part.start }),
  }));

const crossAt = ({ x, y }: Point, shown: Extents): readonly Item[] =>
  [line({ x: x - ARM, y }, { x: x + ARM, y }), line({ x, y: y - ARM }, { x, y: y + ARM })].flatMap((arm) =>
    seen(
      'cross',
      clipToWindow({ closed: false, segments: [arm] }, shown).map((part) => drawn('REF', part.line)),
    ),
  );

/**
 * Left and below, where the page is trimmed to lie over its neighbours; right and above, where theirs will
 * end. A word names the line to cut, where the drawing leaves room for it in what is cut off.
 */
function seamsOf(
  place: TilePlace,
  places: readonly TilePlace[],
  inUse: readonly (Outline | Path)[],
): readonly Item[] {
  const { cell, shown } = place;
  const upright = (style: StyleName, x: number) =>
    straight(style, { x, y: shown.minY }, { x, y: shown.maxY }, true);
  const level = (style: StyleName, y: number) =>
    straight(style, { x: shown.minX, y }, { x: shown.maxX, y }, true);
  return [
    ...(neighbourOf(place, places, 0, -1)
      ? [...upright('trim', cell.minX), ...trimWord(place, 'left', inUse)]
      : []),
    ...(neighbourOf(place, places, 1, 0)
      ? [...level('trim', cell.minY), ...trimWord(place, 'below', inUse)]
      : []),
    ...(neighbourOf(place, places, 0, 1) ? upright('lay', cell.maxX) : []),
    ...(neighbourOf(place, places, -1, 0) ? level('lay', cell.maxY) : []),
  ];
}

const WORD = { height: 1.8, length: 6 };

function trimWord(
  { cell, shown }: TilePlace,
  side: 'left' | 'below',
  inUse: readonly (Outline | Path)[],
): readonly Item[] {
  const gap = 0.8;
  if (Math.max(cell.minX - shown.minX, cell.minY - shown.minY) < WORD.height + 2 * gap) return [];
  const [from, to] = side === 'left' ? [cell.minY, cell.maxY] : [cell.minX, cell.maxX];
  for (let at = from + INSET + ARM + 1; at + WORD.length < to - INSET; at += WORD.length) {
    const box =
      side === 'left'
        ? { minX: cell.minX - gap - WORD.height, maxX: cell.minX - gap, minY: at, maxY: at + WORD.length }
        : { minX: at, maxX: at + WORD.length, minY: cell.minY - gap - WORD.height, maxY: cell.minY - gap };
    const clear = { minX: box.minX - gap, minY: box.minY - gap, maxX: box.maxX + gap, maxY: box.maxY + gap };
    if (inUse.some((one) => clipToWindow(one, clear).length > 0)) continue;
    return side === 'left'
      ? lettering(
          'trim',
          { x: box.maxX, y: box.minY },
          { height: WORD.height, angle: Math.PI / 2, style: 'trim-word' },
        )
      : lettering('trim', { x: box.minX, y: box.minY }, { height: WORD.height, style: 'trim-word' });
  }
  return [];
}
