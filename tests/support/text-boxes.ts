import { linesOf } from '../../src/drawing/drawing.js';
import type { Drawing, Layer, TextItem } from '../../src/drawing/model.js';
import { extents } from '../../src/geometry/outline.js';
import type { Extents, Outline, Path } from '../../src/geometry/types.js';

/** Where the words of a drawing stand, and what they would run into. All lettering is upright or at a quarter turn. */

export interface TextBox {
  readonly text: string;
  readonly box: Extents;
}

export function textBoxes({ items }: Drawing): readonly TextBox[] {
  return items
    .filter((item): item is TextItem => item.kind === 'text')
    .map((item) => ({ text: item.text, box: extents(...linesOf(item)) }));
}

/** Pairs of texts whose boxes meet. */
export function meetingTexts(drawing: Drawing): readonly string[] {
  const boxes = textBoxes(drawing);
  return boxes.flatMap((one, i) =>
    boxes.slice(i + 1).flatMap((other) => (meets(one.box, other.box) ? [`${one.text} | ${other.text}`] : [])),
  );
}

/** Texts whose box is crossed by a line of one of the layers. */
export function crossedTexts(drawing: Drawing, layers: readonly Layer[]): readonly string[] {
  const lines = drawing.items
    .filter((item) => item.kind !== 'text' && layers.includes(item.layer))
    .flatMap(linesOf);
  return textBoxes(drawing).flatMap(({ text, box }) =>
    lines.some((line) => crosses(line, box)) ? [text] : [],
  );
}

function meets(one: Extents, other: Extents): boolean {
  return one.minX < other.maxX && other.minX < one.maxX && one.minY < other.maxY && other.minY < one.maxY;
}

/** Whether a line comes inside a box: every piece is looked at in steps of at most a fifth of a millimetre. */
function crosses({ segments }: Outline | Path, box: Extents): boolean {
  return segments.some((segment) => {
    const around = extents({ closed: false, segments: [segment] });
    if (!touches(around, box)) return false;
    if (segment.kind === 'arc') return true;
    const { from, to } = segment;
    const steps = Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / 0.2) + 1;
    return Array.from({ length: steps + 1 }, (_, i) => i / steps).some((t) => {
      const x = from.x + (to.x - from.x) * t;
      const y = from.y + (to.y - from.y) * t;
      return x > box.minX && x < box.maxX && y > box.minY && y < box.maxY;
    });
  });
}

function touches(one: Extents, other: Extents): boolean {
  return one.minX <= other.maxX && other.minX <= one.maxX && one.minY <= other.maxY && other.minY <= one.maxY;
}
