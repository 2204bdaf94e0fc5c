import type { Item } from '../drawing/model.js';
import type { StyleName } from '../drawing/styles.js';
import { extents } from '../geometry/outline.js';
import { clipLine } from '../geometry/regions/clip.js';
import type { Outline } from '../geometry/types.js';

/** Lines at 45° across what is cut through, `step` mm apart on paper; leaning the other way when `back`. */
export function hatch(outline: Outline, style: StyleName, step = 2.2, back = false): readonly Item[] {
  const { minX, minY, maxX, maxY } = extents(outline);
  const tall = maxY - minY;
  const apart = step * Math.SQRT2;
  const count = Math.floor((maxX - minX + tall) / apart);
  return Array.from({ length: count }, (_, i) => minX - tall + (i + 1) * apart).flatMap((x) => {
    const [from, to] = back
      ? [
          { x, y: maxY },
          { x: x + tall, y: minY },
        ]
      : [
          { x, y: minY },
          { x: x + tall, y: maxY },
        ];
    return clipLine(from, to, [outline]).map((path): Item => ({ kind: 'open', layer: 'REF', style, path }));
  });
}
