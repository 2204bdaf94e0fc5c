import { type Contour, contoursOf, drawnExtents, fileDecimals } from '../drawing/contours.js';
import { type Drawing, type Layer, layers, type Writer, type WriterOptions } from '../drawing/model.js';
import { split, sweepOf } from '../geometry/segment.js';
import type { Arc, Extents, Outline, Path, Point, Segment } from '../geometry/types.js';
import { bezierPieces } from './bezier.js';
import { decimal } from './decimal.js';

export interface SvgOptions extends WriterOptions {
  /** How arcs are written: as elliptical arc commands, or as cubic béziers within 0.0005 mm for readers without arcs. */
  readonly arcs?: 'true' | 'bezier';
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
  const page = pageOf(drawing, options.picture ? PICTURE_MARGIN : 0);
  const box = [page.minX, -page.maxY, page.maxX - page.minX, page.maxY - page.minY].map(number);
  const contours = contoursOf(drawing);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${box[2]}mm" height="${box[3]}mm" viewBox="${box.join(' ')}">`,
    `<title>${escaped(drawing.title)}</title>`,
    ...(drawing.notes.length > 0 ? [`<desc>${drawing.notes.map(escaped).join('\n')}</desc>`] : []),
    ...(options.picture
      ? [`<rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}" fill="#FFFFFF"/>`]
      : []),
    ...(options.picture ? pictureOrder : layers).flatMap((layer) =>
      groupOf(
        layer,
        contours.filter((one) => one.layer === layer),
        options,
      ),
    ),
    '</svg>',
    '',
  ].join('\n');
}

/** Boards lie under the plate that is looked at. */
const pictureOrder: readonly Layer[] = ['STOCK', 'REF', 'SCORE', 'ENGRAVE', 'CUT'];

/** mm around a picture. */
const PICTURE_MARGIN = 4;

function pageOf(drawing: Drawing, margin: number): Extents {
  const { minX, minY, maxX, maxY } = drawnExtents(drawing) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
}

function groupOf(layer: Layer, contours: readonly Contour[], options: SvgOptions): readonly string[] {
  if (contours.length === 0) return [];
  const paths = contours.map(
    (one) => `<path d="${pathData(one.line, options)}" ${attributesOf(one, options)}/>`,
  );
  return [`<g id="${layer}">`, ...paths, '</g>'];
}

function attributesOf({ layer, line, dashed }: Contour, options: SvgOptions): string {
  const colour = escaped(options.colours[layer]);
  const width = options.picture ? pictureWidth[layer] : (options.strokeWidth ?? 0.1);
  const filled = options.picture && layer === 'STOCK' && line.closed;
  return [
    filled ? `fill="${colour}" fill-opacity="0.15"` : 'fill="none"',
    `stroke="${colour}" stroke-width="${number(width)}"`,
    ...(dashed ? ['stroke-dasharray="3 1.5"'] : []),
    ...(options.picture ? ['stroke-linecap="round" stroke-linejoin="round"'] : []),
  ].join(' ');
}

const pictureWidth: Readonly<Record<Layer, number>> = {
  CUT: 0.5,
  SCORE: 0.35,
  ENGRAVE: 0.35,
  REF: 0.25,
  STOCK: 0.35,
};

/** Path data: `Z` draws an outline's last line, so its first point stands there once. */
function pathData(line: Outline | Path, options: SvgOptions): string {
  const segments = line.closed ? lineLast(line.segments) : line.segments;
  const [first] = segments;
  if (first === undefined) return '';
  const drawn = line.closed && segments.at(-1)?.kind === 'line' ? segments.slice(0, -1) : segments;
  return `M${place(first.from)}${drawn.map((one) => command(one, options)).join('')}${line.closed ? 'Z' : ''}`;
}

/** The same outline, started where its last piece is a line, if it has one. */
function lineLast(segments: readonly Segment[]): readonly Segment[] {
  const last = segments.findLastIndex((one) => one.kind === 'line');
  return [...segments.slice(last + 1), ...segments.slice(0, last + 1)];
}

function command(segment: Segment, options: SvgOptions): string {
  if (segment.kind === 'line') return `L${place(segment.to)}`;
  if (options.arcs === 'bezier') {
    return bezierPieces(segment)
      .map((piece) => `C${piece.map(place).join(' ')}`)
      .join('');
  }
  const beyondHalf = Math.abs(sweepOf(segment)) - Math.PI;
  if (Math.abs(beyondHalf) < EXACT_HALF) return arcCommand(segment, halfChordOf(segment), false);
  if (Math.abs(beyondHalf) < NEARLY_HALF)
    return split(segment, 0.5)
      .map((one) => command(one, options))
      .join('');
  return arcCommand(segment, segment.radius, beyondHalf > 0);
}

/** An arc this near to half a turn, radians, is half a turn: its far point moves by less than 1e-7 of its radius. */
const EXACT_HALF = 1e-7;

/**
 * Near half a turn the center hangs on the difference of radius and half chord, and rounding either by 1e-6 mm
 * moves it by √(r · 1e-6 mm), 0.003 mm for r = 10: such arcs are written as two. From here on, radians, the
 * roundings grow less than a hundredfold.
 */
const NEARLY_HALF = 0.02;

/** An exact half arc is written with a radius no larger than its chord needs: SVG 1.1, F.6.6, scales it to fit. */
function halfChordOf({ from, to }: Segment): number {
  const unit = 10 ** fileDecimals;
  const written = (value: number): number => Number(number(value));
  return (
    Math.floor((Math.hypot(written(to.x) - written(from.x), written(to.y) - written(from.y)) / 2) * unit) /
    unit
  );
}

function arcCommand({ to, ccw }: Arc, radius: number, large: boolean): string {
  // SVG's sweep flag is 1 where angles grow in its own axes, which is clockwise to the eye.
  return `A${number(radius)} ${number(radius)} 0 ${large ? 1 : 0} ${ccw ? 0 : 1} ${place(to)}`;
}

/** A point in the file: y is turned over here and nowhere else. */
function place({ x, y }: Point): string {
  return `${number(x)} ${number(-y)}`;
}

function number(value: number): string {
  return decimal(value, fileDecimals);
}

/** Text for XML 1.0: markup escaped, characters that XML cannot hold shown as U+FFFD. */
function escaped(words: string): string {
  return words
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
