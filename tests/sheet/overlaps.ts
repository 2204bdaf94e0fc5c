import { linesOf } from '../../src/drawing/drawing.js';
import { strokesOf, textWidth } from '../../src/drawing/lettering/lettering.js';
import type { TextItem } from '../../src/drawing/model.js';
import { clipToWindow } from '../../src/drawing/tiling/clip.js';
import { extents } from '../../src/geometry/outline.js';
import type { Extents } from '../../src/geometry/types.js';
import type { SheetPage } from '../../src/sheet/pages.js';

/** What a reader would stumble over on a page: words on words, lines through words, ink off the paper. */
export function problemsOn(page: SheetPage, margin: number): readonly string[] {
  const texts = page.items.filter((item) => item.kind === 'text');
  const boxes = texts.map(inkBox);
  const lines = page.items.filter((item) => item.kind !== 'text').flatMap(linesOf);
  const off = page.items.filter((item) =>
    linesOf(item).some((line) => {
      const { minX, minY, maxX, maxY } = extents(line);
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

/** From the lowest tail of its letters to the highest bracket or accent, at least the box of capitals. */
function inkBox(item: TextItem): Extents {
  const { text, at, height, align, angle } = item;
  if (angle !== 0) throw new Error('only level lettering is expected on a sheet');
  const width = textWidth(text, height);
  const from = at.x - { start: 0, middle: width / 2, end: width }[align];
  const { minY, maxY } = extents(...strokesOf(item));
  return { minX: from, maxX: from + width, minY: Math.min(at.y, minY), maxY: Math.max(at.y + height, maxY) };
}

const meet = (a: Extents, b: Extents): boolean =>
  a.minX < b.maxX && a.maxX > b.minX && a.minY < b.maxY && a.maxY > b.minY;
