import { type Contour, contoursOf, drawnExtents, fileDecimals } from '../drawing/contours.js';
import {
  type Drawing,
  type Item,
  layers,
  type TextItem,
  type Writer,
  type WriterOptions,
} from '../drawing/model.js';
import { type ArcStyle, pathData } from '../drawing/path-data.js';
import { dashes, FILE_STROKE, paintOrder, type Style, type StyleName, styleOf } from '../drawing/styles.js';
import { FONT_SIZE, lineLength } from '../drawing/typeface.js';
import { escaped } from '../drawing/xml.js';
import { joinedExtents } from '../geometry/point.js';
import type { Extents } from '../geometry/types.js';
import { decimal } from '../units/decimal.js';

export interface SvgOptions extends WriterOptions {
  readonly arcs?: ArcStyle;
  /** Width of the lines, mm; 0.1 when left out. */
  readonly strokeWidth?: number;
  /** For pages and screens instead of machines: white ground, a margin, lines good to look at, boards tinted. */
  readonly picture?: boolean;
}

/**
 * SVG 1.1: one user unit is 1 mm, the page is as large as what is drawn. One path a contour with its own plain
 * attributes, grouped by layer in groups named as the layers; no transforms, styles, clips or uses. SVG's y
 * runs down, so a file's y is the drawing's −y; x is the same.
 */
export const svgWriter: Writer<SvgOptions> = { format: 'svg', extension: 'svg', write: writeSvg };

function writeSvg(drawing: Drawing, options: SvgOptions): string {
  const words = options.picture ? drawing.items.filter(isWords) : [];
  const lines =
    words.length === 0 ? drawing : { ...drawing, items: drawing.items.filter((one) => !isWords(one)) };
  const page = pageOf(lines, words, options.picture ? PICTURE_MARGIN : 0);
  const box = [page.minX, -page.maxY, page.maxX - page.minX, page.maxY - page.minY].map(number);
  const contours = contoursOf(lines);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${box[2]}mm" height="${box[3]}mm" viewBox="${box.join(' ')}">`,
    `<title>${escaped(drawing.title)}</title>`,
    ...(drawing.notes.length > 0 ? [`<desc>${drawing.notes.map(escaped).join('\n')}</desc>`] : []),
    ...(options.picture
      ? [`<rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}" fill="#FFFFFF"/>`]
      : []),
    ...(options.picture ? paintOrder : layers).flatMap((name) =>
      groupOf(
        name,
        contours.filter(({ layer, style }) => name === (options.picture ? style : layer)),
        options,
      ),
    ),
    ...wordsGroup(words),
    '</svg>',
    '',
  ].join('\n');
}

/** mm around a picture. */
const PICTURE_MARGIN = 4;

function pageOf(drawing: Drawing, words: readonly Words[], margin: number): Extents {
  const drawn = drawnExtents(drawing);
  const boxes = [...(drawn ? [drawn] : []), ...words.map(boxOfWords)];
  const nothing = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const { minX, minY, maxX, maxY } = boxes.length > 0 ? boxes.reduce(joinedExtents) : nothing;
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
}

/** Words of a picture that are text, not lettering: a browser can find and read them. */
type Words = TextItem & Required<Pick<TextItem, 'face'>>;

const isWords = (item: Item): item is Words => item.kind === 'text' && item.face !== undefined;

/** Room for the words whichever way they run, mm: tails below the line and accents above count. */
function boxOfWords({ text, face, at, height, angle, align }: Words): Extents {
  const length = lineLength(text, height, face);
  const from = -{ start: 0, middle: length / 2, end: length }[align];
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const corners = [from, from + length].flatMap((x) =>
    [-0.3 * height, 1.2 * height].map((y) => ({ x: at.x + x * cos - y * sin, y: at.y + x * sin + y * cos })),
  );
  return corners.map(({ x, y }) => ({ minX: x, minY: y, maxX: x, maxY: y })).reduce(joinedExtents);
}

function wordsGroup(words: readonly Words[]): readonly string[] {
  if (words.length === 0) return [];
  const texts = words.map(({ text, face, at, height, angle, align }) => {
    const place = `x="${number(at.x)}" y="${number(-at.y)}"`;
    const turned =
      angle === 0
        ? ''
        : ` transform="rotate(${number((-angle * 180) / Math.PI)} ${number(at.x)} ${number(-at.y)})"`;
    const set = `font-size="${number(FONT_SIZE * height)}" text-anchor="${align}"${face === 'bold' ? ' font-weight="bold"' : ''}`;
    // The room that the words were given, whatever font a viewer has.
    const length = `textLength="${number(lineLength(text, height, face))}" lengthAdjust="spacingAndGlyphs"`;
    return `<text ${place} ${set} ${length}${turned}>${escaped(text)}</text>`;
  });
  return ['<g font-family="Helvetica, Arial, sans-serif" fill="#000000">', ...texts, '</g>'];
}

function groupOf(name: StyleName, contours: readonly Contour[], options: SvgOptions): readonly string[] {
  if (contours.length === 0) return [];
  const format = { digits: fileDecimals, ...(options.arcs && { arcs: options.arcs }) };
  const paths = contours.map(
    (one) => `<path d="${pathData(one.line, format)}" ${attributesOf(one, options)}/>`,
  );
  return [`<g id="${name}">`, ...paths, '</g>'];
}

function attributesOf({ layer, style, line, dashed }: Contour, options: SvgOptions): string {
  const { colour, width, tint }: Style = options.picture
    ? styleOf(style, 'picture', options.colours)
    : { colour: options.colours[layer], width: options.strokeWidth ?? FILE_STROKE };
  return [
    tint !== undefined && line.closed
      ? `fill="${escaped(colour)}" fill-opacity="${number(tint)}"`
      : 'fill="none"',
    `stroke="${escaped(colour)}" stroke-width="${number(width)}"`,
    ...(dashed ? [`stroke-dasharray="${dashes.drawing.join(' ')}"`] : []),
    ...(options.picture ? ['stroke-linecap="round" stroke-linejoin="round"'] : []),
  ].join(' ');
}

function number(value: number): string {
  return decimal(value, fileDecimals);
}
