import type { Colours } from '../../../shared/operations.js';
import { linesOf } from '../../drawing/drawing.js';
import type { Item, TextItem } from '../../drawing/model.js';
import { type Medium, styleOf } from '../../drawing/styles.js';
import type { LineMark } from './content.js';

/** The lines of an item with the looks that its style has on a medium; an area is filled. */
export function lineMarks(
  item: Exclude<Item, TextItem>,
  medium: Medium,
  colours: Colours,
): readonly LineMark[] {
  const { colour, width, dash, square } = styleOf(item.style ?? item.layer, medium, colours);
  const isDashed = item.kind === 'open' && item.dashed === true;
  const phase = isDashed ? (item.phase ?? 0) : 0;
  return linesOf(item)
    .filter(({ segments }) => segments.length > 0)
    .map((line) => ({
      line,
      colour,
      pen: item.kind === 'area' ? 0 : width,
      ...(square && { square }),
      ...(isDashed && { dash: { pattern: dash, phase } }),
    }));
}
