import { closed, movedDrawing, open } from '../../drawing/drawing.js';
import { labelItems } from '../../drawing/lettering/label.js';
import type { Drawing, Item } from '../../drawing/model.js';
import { circle, extents } from '../../geometry/outline.js';
import { line } from '../../geometry/segment.js';
import type { Extents, Point } from '../../geometry/types.js';
import type { Screw } from '../plate.js';
import type { Carrier, CarrierLayer, CarrierPart } from './types.js';

/** The carrier's parts as drawings: each by itself, or all of them side by side as they are cut. */

/** One piece of sheet, its lower left corner at 0. */
export interface CarrierPiece {
  /** `carrier-tails-fence`: without spaces or commas. */
  readonly name: string;
  readonly copies: number;
  readonly drawing: Drawing;
  readonly width: number;
  readonly height: number;
}

export interface CarrierContext {
  readonly jobTitle: string;
  readonly joint: string;
  /** Sentences for the files' metadata. */
  readonly notes: readonly string[];
  /** What a machine has room for; absent where there is no limit. */
  readonly bed?: { readonly width: number; readonly height: number };
}

/** Every piece of a carrier, with how many of it are cut. */
export function carrierPieces(
  carrier: Carrier,
  { jobTitle, joint, notes }: CarrierContext,
): readonly CarrierPiece[] {
  return carrier.parts.flatMap((part) =>
    part.layers.map((layer, i): CarrierPiece => {
      const words = [part.name, ...layerWords(part, i)];
      const name = [carrier.file, ...words].join('-').replaceAll(/[ ,]+/g, '-');
      const box = extents(layer.outline);
      const title = `${jobTitle}: ${joint}, ${carrier.file.replace('-', ' ')}, ${words.join(', ')}`;
      const items = [
        ...pieceItems(part, layer),
        ...labelOn(box, part.holes, [...words, `${joint}: ${carrier.file}`]),
      ];
      const drawing = movedDrawing({ title, notes, items }, -box.minX, -box.minY);
      return { name, copies: layer.copies, drawing, width: box.maxX - box.minX, height: box.maxY - box.minY };
    }),
  );
}

/** Where there are two shapes, which of them lies nearer to the plate. */
function layerWords({ layers }: CarrierPart, index: number): readonly string[] {
  if (layers.length < 2) return [];
  return [index === 0 ? 'upper' : 'lower'];
}

/** Contour and holes, and a scored line beside every edge that stands on a line of the plate. */
function pieceItems({ edges, holes }: CarrierPart, { outline, clear }: CarrierLayer): readonly Item[] {
  const { minX, minY, maxX, maxY } = extents(outline);
  const beside = edges.flatMap(({ axis, at }): readonly Item[] => {
    const [low, high] = axis === 'x' ? [minX, maxX] : [minY, maxY];
    if (clear || (Math.abs(at - low) > 1e-6 && Math.abs(at - high) > 1e-6)) return [];
    const inside = Math.abs(at - low) < 1e-6 ? low + BESIDE : high - BESIDE;
    const ends: readonly [Point, Point] =
      axis === 'x'
        ? [
            { x: inside, y: minY + BESIDE },
            { x: inside, y: maxY - BESIDE },
          ]
        : [
            { x: minX + BESIDE, y: inside },
            { x: maxX - BESIDE, y: inside },
          ];
    return [open('SCORE', { closed: false, segments: [line(...ends)] })];
  });
  return [...beside, ...holes.map((at) => closed('CUT', circle(at, at.radius))), closed('CUT', outline)];
}

/** From an edge that boards or the plate lie against to the line that marks it, mm. */
const BESIDE = 2;

/** The label in the largest stretch, across or up the piece, that has no hole in it. */
function labelOn(
  { minX, minY, maxX, maxY }: Extents,
  holes: readonly Screw[],
  words: readonly string[],
): readonly Item[] {
  const across = gaps(
    [minY, maxY],
    holes.map(({ y, radius }) => [y - radius, y + radius]),
  );
  const up = gaps(
    [minX, maxX],
    holes.map(({ x, radius }) => [x - radius, x + radius]),
  );
  const rooms = [
    ...across.map(([from, to]) => ({ minX, maxX, minY: from, maxY: to })),
    ...up.map(([from, to]) => ({ minX: from, maxX: to, minY, maxY })),
  ].map((one) => ({
    x: (one.minX + one.maxX) / 2,
    from: one.minY + 1.5 * BESIDE,
    to: one.maxY - 1.5 * BESIDE,
    width: one.maxX - one.minX - 3 * BESIDE,
  }));
  const size = ({ from, to, width }: (typeof rooms)[number]): number =>
    Math.max(0, Math.min(to - from, LABEL_HIGH)) * Math.max(0, Math.min(width, LABEL_WIDE));
  const [best] = rooms.toSorted((a, b) => size(b) - size(a));
  return best && size(best) > 0 ? labelItems(words, best) : [];
}

/** A label wants no more room than this, mm. */
const LABEL_HIGH = 20;
const LABEL_WIDE = 80;

type Stretch = readonly [number, number];

function gaps([from, to]: Stretch, taken: readonly Stretch[]): readonly Stretch[] {
  const found: Stretch[] = [];
  let at = from;
  for (const [start, end] of taken.toSorted((a, b) => a[0] - b[0])) {
    if (start > at) found.push([at, start]);
    at = Math.max(at, end);
  }
  return to > at ? [...found, [at, to]] : found;
}

// All of them side by side

/** Between pieces, mm: a cutter and sheet that holds. */
const APART = 10;

/** Rows are no longer than this, or than the longest piece, where no machine says, mm. */
const ROW = 400;

/** All pieces in rows, as many times as they are cut, in as few drawings as the bed wants. */
export function carrierDrawings(
  carrier: Carrier,
  context: CarrierContext,
): readonly { readonly name: string; readonly drawing: Drawing }[] {
  const pieces = carrierPieces(carrier, context).flatMap((one) =>
    Array.from({ length: one.copies }, () => one),
  );
  const { bed } = context;
  const longest = Math.max(...pieces.map(({ width }) => width));
  const wide = bed ? Math.max(bed.width, bed.height, longest) : Math.max(ROW, longest);
  const high = bed ? Math.min(bed.width, bed.height) : Number.POSITIVE_INFINITY;
  const sheets: Item[][] = [[]];
  let [x, y, row] = [0, 0, 0];
  for (const { width, height, drawing } of pieces) {
    if (x > 0 && x + width > wide) [x, y, row] = [0, y + row + APART, 0];
    if (y > 0 && y + height > high) {
      sheets.push([]);
      [x, y, row] = [0, 0, 0];
    }
    sheets.at(-1)?.push(...movedDrawing(drawing, x, y).items);
    [x, row] = [x + width + APART, Math.max(row, height)];
  }
  const title = `${context.jobTitle}: ${context.joint}, ${carrier.file.replace('-', ' ')}`;
  return sheets.map((items, i) => ({
    name: sheets.length > 1 ? `${carrier.file}-sheet-${i + 1}` : carrier.file,
    drawing: {
      title: sheets.length > 1 ? `${title}, sheet ${i + 1} of ${sheets.length}` : title,
      notes: context.notes,
      items,
    },
  }));
}
