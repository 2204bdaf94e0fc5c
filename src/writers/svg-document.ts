import { fileDecimals } from '../drawing/contours.js';
import type { Drawing } from '../drawing/model.js';
import { escaped } from '../drawing/xml.js';
import type { Extents } from '../geometry/types.js';
import { decimal } from '../units/decimal.js';

/** What SVG files of halfpin have in common: 1 user unit is 1 mm; SVG's y runs down, so a file's y is the drawing's −y. */
export function svgDocument(
  { title, notes }: Pick<Drawing, 'title' | 'notes'>,
  around: Extents | undefined,
  body: readonly string[],
): string {
  const box = viewBoxOf(around);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${box[2]}mm" height="${box[3]}mm" viewBox="${box.join(' ')}">`,
    `<title>${escaped(title)}</title>`,
    ...(notes.length > 0 ? [`<desc>${notes.map(escaped).join('\n')}</desc>`] : []),
    ...body,
    '</svg>',
    '',
  ].join('\n');
}

/** Left, top, width and height in the file. */
export const viewBoxOf = ({ minX, minY, maxX, maxY }: Extents = NOTHING): readonly string[] =>
  [minX, -maxY, maxX - minX, maxY - minY].map((one) => decimal(one, fileDecimals));

const NOTHING: Extents = { minX: 0, minY: 0, maxX: 0, maxY: 0 };

export const svgGroup = (id: string, elements: readonly string[]): readonly string[] =>
  elements.length === 0 ? [] : [`<g id="${id}">`, ...elements, '</g>'];
