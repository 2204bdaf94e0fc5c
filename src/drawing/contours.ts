import { extents } from '../geometry/outline.js';
import { joinedExtents } from '../geometry/point.js';
import { pointAt, split, sweepOf } from '../geometry/segment.js';
import type { Extents, Outline, Path, Segment } from '../geometry/types.js';
import { inCutOrder } from './cut-order.js';
import { linesOf } from './drawing.js';
import { lettersSet, type SetLetter, strokesOfLetter } from './lettering/lettering.js';
import type { Drawing, Item, Layer } from './model.js';
import type { StyleName } from './styles.js';

/** One line that a tool runs along without lifting. */
export interface Contour {
  readonly layer: Layer;
  /** Its layer where the item has none. */
  readonly style: StyleName;
  readonly line: Outline | Path;
  readonly dashed: boolean;
  /** The letter that the line is a stroke of: the same one for all strokes of it, which follow each other. */
  readonly letter?: SetLetter;
}

/**
 * Digits after the decimal point, mm, in drawing files: a millionth of a millimetre is far below any machine,
 * and the error of a few roundings stays far below the 1e-4 mm that readers of the files check to.
 */
export const fileDecimals = 6;

/** Shorter pieces than this, mm, could be written as two equal points. */
const SHORTEST_PIECE = 2e-6;

/** An arc that turns further than this, radians, is written as two: ends too near each other fix no centre. */
const WIDEST_ARC = 1.5 * Math.PI;

/**
 * What the writers draw, in the order in which a machine should take it, lettering as its strokes: no piece of no
 * length, no arc wider than three quarters of a turn, and no contour twice on one layer in one style, as it would be cut twice.
 */
export const contoursOf = (drawing: Drawing): readonly Contour[] => workedOut(drawing).contours;

/** Smallest upright rectangle around all contours; undefined when there are none. */
export const drawnExtents = (drawing: Drawing): Extents | undefined => workedOut(drawing).around;

interface Worked {
  readonly drawing: Drawing;
  readonly contours: readonly Contour[];
  readonly around: Extents | undefined;
}

/**
 * Every writer asks for the contours of the same drawings, one joint's after another's, so the last few are kept.
 * To keep them as long as their drawings held a million strokes of a cabinet for the collector to look through.
 */
const lately: Worked[] = [];
const KEPT = 12;

function workedOut(drawing: Drawing): Worked {
  const known = lately.find((one) => one.drawing === drawing);
  if (known) return known;
  const contours = inCutOrder(withoutRepeats(drawing.items.flatMap(contoursOfItem)));
  const around = contours
    .map(({ line }) => extents(line))
    .reduce<Extents | undefined>((all, one) => (all ? joinedExtents(all, one) : one), undefined);
  const worked = { drawing, contours, around };
  lately.push(worked);
  if (lately.length > KEPT) lately.shift();
  return worked;
}

function contoursOfItem(item: Item): readonly Contour[] {
  const { layer, style = layer } = item;
  if (item.kind === 'text') {
    return lettersSet(item).flatMap((letter) =>
      strokesOfLetter(letter).map((line) => ({
        layer,
        style,
        line: writable(line),
        dashed: false,
        letter,
      })),
    );
  }
  const dashed = item.kind === 'open' && item.dashed === true;
  return linesOf(item).map((line) => ({ layer, style, line: writable(line), dashed }));
}

/** Strokes of letters are not looked at: they never repeat one another, which the tests of the letters hold. */
function withoutRepeats(candidates: readonly Contour[]): readonly Contour[] {
  const seen = new Set<string>();
  return candidates.filter(({ layer, style, line, letter }) => {
    if (line.segments.length === 0) return false;
    if (letter) return true;
    const key = `${layer} ${style} ${lineKey(line)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Nearly every line can be written as it is, and is not copied. */
function writable<T extends Outline | Path>(line: T): T {
  if (line.segments.every((one) => hasLength(one) && !isWide(one))) return line;
  return { ...line, segments: line.segments.filter(hasLength).flatMap(narrowed) };
}

function hasLength(segment: Segment): boolean {
  const { from, to } = segment;
  const apart = Math.hypot(to.x - from.x, to.y - from.y) >= SHORTEST_PIECE;
  return apart || (segment.kind === 'arc' && Math.abs(sweepOf(segment)) > Math.PI);
}

const isWide = (segment: Segment): boolean =>
  segment.kind === 'arc' && Math.abs(sweepOf(segment)) > WIDEST_ARC;

const narrowed = (segment: Segment): readonly Segment[] =>
  isWide(segment) ? split(segment, 0.5) : [segment];

/** The same for the same pieces, wherever the line starts and whichever way it runs. */
function lineKey(line: Outline | Path): string {
  return line.segments.map(keyOfPiece).sort().join(' ');
}

/** The same for the same piece, whichever way it runs. */
export function keyOfPiece(piece: Segment): string {
  const [from = '', middle = '', to = ''] = [piece.from, pointAt(piece, 0.5), piece.to].map(
    ({ x, y }) => `${roundedKey(x)},${roundedKey(y)}`,
  );
  return (from < to ? [from, middle, to] : [to, middle, from]).join(' ');
}

/** −0 and 0 are one number but two texts. */
const roundedKey = (value: number): string => (value + 0).toFixed(fileDecimals).replace(/^-(0\.0*)$/, '$1');
