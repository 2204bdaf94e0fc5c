import { linesOf } from '../../src/drawing/drawing.js';
import { strokesOf } from '../../src/drawing/lettering/lettering.js';
import { lineLength } from '../../src/drawing/lettering/typeface.js';
import type { Item, TextItem } from '../../src/drawing/model.js';
import { type ComposedPage, itemsOn } from '../../src/drawing/page.js';
import { clipToWindow } from '../../src/drawing/tiling/clip.js';
import { extents } from '../../src/geometry/outline.js';
import type { Extents } from '../../src/geometry/types.js';

/** What a reader would stumble over on a page: words on words, lines through words, ink off the paper. */
export function problemsOn(page: ComposedPage, margin: number): readonly string[] {
  const items = itemsOn(page);
  const texts = items.filter((item) => item.kind === 'text');
  const boxes = texts.map(inkBox);
  const lines = items.filter((item) => item.kind !== 'text').flatMap(linesOf);
  const off = items.filter((item) =>
    boxesOf(item).some(({ minX, minY, maxX, maxY }) => {
      return (
        minX < margin - ROUNDING ||
        minY < margin - ROUNDING ||
        maxX > page.width - margin + ROUNDING ||
        maxY > page.height - margin + ROUNDING
      );
    }),
  );
  const onWords = texts.flatMap((one, i) =>
    texts.flatMap((other, k) => {
      const [a, b] = [boxes[i], boxes[k]];
      return k > i && a && b && meet(a, b) ? [`"${one.text}" lies on "${other.text}"`] : [];
    }),
  );
  const struck = texts.flatMap((one, i) => {
    const box = boxes[i];
    const through = box ? lines.filter((line) => clipToWindow(line, box).length > 0) : [];
    return through.length > 0 ? [`${through.length} line(s) through "${one.text}"`] : [];
  });
  return [
    ...onWords,
    ...struck,
    ...off.map((item) => `off the paper: ${item.kind === 'text' ? item.text : item.layer}`),
  ];
}

const ROUNDING = 1e-6;

const boxesOf = (item: Item): readonly Extents[] =>
  item.kind === 'text' ? [inkBox(item)] : linesOf(item).map((line) => extents(line));

/**
 * From the lowest tail of its letters to the highest bracket or accent, at least the box of capitals: in height those of our
 * strokes, which are as high and as low as the font's. A mark that lies on its side stands free of everything.
 */
function inkBox(item: TextItem): Extents {
  const { text, at, height, align, angle, face } = item;
  if (angle !== 0) return turnedBox(item);
  if (face === undefined) throw new Error('words of a sheet are text');
  const width = lineLength(text, height, face);
  const from = at.x - { start: 0, middle: width / 2, end: width }[align];
  const { minY, maxY } = extents(...strokesOf(item));
  return { minX: from, maxX: from + width, minY: Math.min(at.y, minY), maxY: Math.max(at.y + height, maxY) };
}

const meet = (a: Extents, b: Extents): boolean =>
  a.minX < b.maxX && a.maxX > b.minX && a.minY < b.maxY && a.maxY > b.minY;

/** Of one line that is turned by a quarter. */
function turnedBox({ text, at, height, align, angle, face = 'sans' }: TextItem): Extents {
  const width = lineLength(text, height, face);
  const from = -{ start: 0, middle: width / 2, end: width }[align];
  const [up, along] = [Math.sin(angle) > 0 ? -height : height, Math.sin(angle)];
  const ends = [at.y + from * along, at.y + (from + width) * along];
  return {
    minX: Math.min(at.x, at.x + up),
    maxX: Math.max(at.x, at.x + up),
    minY: Math.min(...ends),
    maxY: Math.max(...ends),
  };
}
