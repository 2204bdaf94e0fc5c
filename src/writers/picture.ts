import { type Contour, contoursOf, drawnExtents, fileDecimals } from '../drawing/contours.js';
import { FONT_SIZE, lineLength } from '../drawing/lettering/typeface.js';
import type { AreaItem, Drawing, Item, TextItem, Writer, WriterOptions } from '../drawing/model.js';
import { pathData } from '../drawing/path-data.js';
import { dashes, paintOrder, type StyleName, styleOf } from '../drawing/styles.js';
import { escaped } from '../drawing/xml.js';
import { extents } from '../geometry/outline.js';
import { joinedExtents } from '../geometry/point.js';
import type { Extents } from '../geometry/types.js';
import { decimal } from '../units/decimal.js';
import { svgDocument, svgGroup, viewBoxOf } from './svg-document.js';

/**
 * SVG 1.1 for pages and screens instead of machines: what is drawn has the looks of its style, on a white ground with a
 * margin, grouped by style; words are text. True to scale, 1 user unit is 1 mm.
 */
export const pictureWriter = {
  format: 'picture',
  extension: 'svg',
  write: writePicture,
} satisfies Writer<WriterOptions>;

function writePicture(drawing: Drawing, { colours }: WriterOptions): string {
  const words = drawing.items.filter(isWords);
  const areas = drawing.items.filter((item) => item.kind === 'area');
  // A drawing of lines alone is asked for its contours as it is, as their own writer does.
  const plain = words.length + areas.length === 0;
  const lines = plain
    ? drawing
    : { ...drawing, items: drawing.items.filter((item) => item.kind !== 'area' && !isWords(item)) };
  const contours = contoursOf(lines);
  const page = pageOf([
    ...[drawnExtents(lines)].filter((one) => one !== undefined),
    ...areas.filter(({ region }) => region.length > 0).map(({ region }) => extents(...region)),
    ...words.map(boxOfWords),
  ]);
  const [x, y, width, height] = viewBoxOf(page);
  return svgDocument(drawing, page, [
    `<rect x="${x}" y="${y}" width="${width}" height="${height}" fill="#FFFFFF"/>`,
    ...paintOrder.flatMap((name) => {
      const looks = styleOf(name, 'picture', colours);
      return svgGroup(name, [
        ...areas.filter((one) => styleNameOf(one) === name).map((one) => areaOf(one, looks)),
        ...contours.filter(({ style }) => style === name).map((one) => contourOf(one, looks)),
      ]);
    }),
    ...wordsGroup(words),
  ]);
}

const styleNameOf = ({ layer, style = layer }: AreaItem): StyleName => style;

/** mm around a picture. */
const MARGIN = 4;

function pageOf(boxes: readonly Extents[]): Extents {
  const nothing = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const { minX, minY, maxX, maxY } = boxes.length > 0 ? boxes.reduce(joinedExtents) : nothing;
  return { minX: minX - MARGIN, minY: minY - MARGIN, maxX: maxX + MARGIN, maxY: maxY + MARGIN };
}

/** Words of a picture that are text, not lettering: a browser can find and read them. */
type Words = TextItem & Required<Pick<TextItem, 'face'>>;

const isWords = (item: Item): item is Words => item.kind === 'text' && item.face !== undefined;

/** Viewers without the font, or that don't hold to the length given, set wider ones: common practice, no source. */
const WIDER = 1.15;

/** Room for the words whichever way they run, mm: tails below the line and accents above count. */
function boxOfWords({ text, face, at, height, angle, align }: Words): Extents {
  const length = lineLength(text, height, face) * WIDER;
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

type Looks = ReturnType<typeof styleOf>;

const FINE = { digits: fileDecimals };

function areaOf({ region }: AreaItem, { colour, tint = 1 }: Looks): string {
  return `<path d="${region.map((one) => pathData(one, FINE)).join('')}" fill="${escaped(colour)}" fill-opacity="${number(tint)}"/>`;
}

function contourOf({ line, dashed }: Contour, { colour, width, tint }: Looks): string {
  const attributes = [
    tint !== undefined && line.closed
      ? `fill="${escaped(colour)}" fill-opacity="${number(tint)}"`
      : 'fill="none"',
    `stroke="${escaped(colour)}" stroke-width="${number(width)}"`,
    ...(dashed ? [`stroke-dasharray="${dashes.drawing.join(' ')}"`] : []),
    'stroke-linecap="round" stroke-linejoin="round"',
  ];
  return `<path d="${pathData(line, FINE)}" ${attributes.join(' ')}/>`;
}

const number = (value: number): string => decimal(value, fileDecimals);
