import type { PaperSize } from '../../../shared/paper.js';
import type { Extents } from '../../geometry/types.js';
import { textWidth } from '../lettering/lettering.js';
import { wrapped } from '../lettering/wrapped.js';
import type { Item } from '../model.js';
import { pens } from '../styles.js';
import { lettering, straight } from './marks.js';
import type { Frame, PrintOptions, ScaleBar } from './types.js';

/** Heights of capitals and distances of baselines, mm. */
const small = { height: 2.1, line: 3.7 };
const title = { height: 2.8, line: 5 };

/** Brackets and tails reach this share of the height of a capital above and below the baseline. */
const RISE = 7 / 6;
const TAIL = 1 / 3;

/** Length of the end ticks of a scale bar, and clear space between it and the drawing, mm. */
const TICK = 3;
const FRAME_MARGIN = 2.5;

/** Lengths of scale bars, mm; the longest that fits is taken: the longer, the smaller the error of reading. */
export const barLengths = [250, 200, 150, 100, 50, 20] as const;

/** Room kept at the right of the title for row, column and page number. */
const widestLabel = 'row 88, column 88 - page 888 of 888';

/** What is written below every drawing. */
export const printing = [
  'Print at 100 %, no fit to page. Paper moves with humidity: measure both scale bars just before use.',
];

export const joining =
  'Trim at the dashed lines, left and below, and lay the page over its neighbours so that the crosses meet; begin at the lower left.';

/** Factors other than 1 are said: a page made for one printer is wrong on another. */
export const madeFor = ({ scaleX, scaleY }: PrintOptions): readonly string[] =>
  scaleX === 1 && scaleY === 1 ? [] : [`Made for a printer with the factors x ${scaleX}, y ${scaleY}.`];

export interface FrameText {
  readonly title: string;
  /** Sentences below the title. */
  readonly instructions: readonly string[];
}

/**
 * The room on a sheet for a drawing, held upright or turned: the paper less the margin, less a strip at the
 * bottom for the scale bar along x, title and instructions, less one at the left for the bar along y.
 */
export function frameOf(paper: PaperSize, turned: boolean, options: PrintOptions, words: FrameText): Frame {
  const [width, height] = turned ? [paper.height, paper.width] : [paper.width, paper.height];
  const [factorX, factorY] = turned ? [options.scaleY, options.scaleX] : [options.scaleX, options.scaleY];
  const usable = usableOf(width, height, factorX, factorY, options.margin);
  const { titleLines, instructionLines } = linesOf(usable, words);
  const bottom =
    usable.minY +
    small.height * TAIL +
    (instructionLines.length + 1) * small.line +
    0.8 +
    titleLines.length * title.line;
  const left = usable.minX + small.height * (RISE + TAIL) + 0.8;
  const area = { ...usable, minX: left + TICK + FRAME_MARGIN, minY: bottom + TICK + FRAME_MARGIN };
  const lengthX = longestBar(area.maxX - area.minX);
  const lengthY = longestBar(area.maxY - area.minY);
  return {
    turned,
    width,
    height,
    factorX,
    factorY,
    usable,
    area,
    titleLines,
    instructionLines,
    ...(lengthX && { barX: { length: lengthX, at: { x: area.minX, y: bottom } } }),
    ...(lengthY && { barY: { length: lengthY, at: { x: left, y: area.minY } } }),
  };
}

/** Scale bars, title and instructions: the same on every page. */
export function frameMarks(frame: Frame): readonly Item[] {
  const { usable, titleLines, instructionLines } = frame;
  const foot = usable.minY + small.height * TAIL;
  return [
    ...instructionLines.flatMap((line, i) =>
      lettering(line, { x: usable.minX, y: foot + (instructionLines.length - 1 - i) * small.line }, small),
    ),
    ...titleLines.flatMap((line, i) =>
      lettering(
        line,
        { x: usable.minX, y: titleFoot(frame) + (titleLines.length - 1 - i) * title.line },
        title,
      ),
    ),
    ...(frame.barX ? barAlongX(frame.barX, barCaption(frame, 'x', frame.barX)) : []),
    ...(frame.barY ? barAlongY(frame.barY, barCaption(frame, 'y', frame.barY)) : []),
  ];
}

/** A page's own name, at the right of the title. */
export const labelMarks = (frame: Frame, label: string): readonly Item[] =>
  lettering(
    label,
    { x: frame.usable.maxX, y: titleFoot(frame) + (frame.titleLines.length - 1) * title.line },
    { ...title, align: 'end' },
  );

const titleFoot = ({ usable, instructionLines }: Frame): number =>
  usable.minY + small.height * TAIL + instructionLines.length * small.line + 0.5;

/** Smallest room for a drawing that is worth printing, mm. */
export const leastSpace = (overlap: number): number => Math.max(30, 3 * overlap);

export const hasSpace = ({ area }: Frame, overlap: number): boolean =>
  Math.min(area.maxX - area.minX, area.maxY - area.minY) >= leastSpace(overlap);

/** Ink keeps off the margin both in the file and on the paper, whichever is the larger. */
function usableOf(width: number, height: number, factorX: number, factorY: number, margin: number): Extents {
  const halfX = (width / 2 - margin) / Math.max(1, factorX) - pens.bar / 2;
  const halfY = (height / 2 - margin) / Math.max(1, factorY) - pens.bar / 2;
  return {
    minX: width / 2 - halfX,
    minY: height / 2 - halfY,
    maxX: width / 2 + halfX,
    maxY: height / 2 + halfY,
  };
}

function linesOf(
  usable: Extents,
  words: FrameText,
): { readonly titleLines: readonly string[]; readonly instructionLines: readonly string[] } {
  const width = usable.maxX - usable.minX;
  const beside = width - textWidth(widestLabel, title.height) - 4;
  const titleLines = wrapped(words.title, title.height, Math.max(beside, width / 3), 2);
  return {
    titleLines: titleLines.length > 0 ? titleLines : [''],
    instructionLines: words.instructions.flatMap((one) => wrapped(one, small.height, width)),
  };
}

const longestBar = (room: number): number | undefined => barLengths.find((length) => length <= room);

/** A bar is named by the edge of the paper that it runs along, as the printer's factors are. */
function barCaption({ turned }: Frame, axis: 'x' | 'y', { length }: ScaleBar): string {
  const short = (axis === 'x') !== turned;
  const edge = short ? 'x (short edge)' : 'y (long edge)';
  const full = `${edge}: ${length} mm (${(length / 25.4).toFixed(3)} in) between outer edges of the end ticks`;
  return textWidth(full, small.height) <= Math.max(length, 90)
    ? full
    : `${edge}: ${length} mm over the end ticks`;
}

/** Ticks every 10 mm, longer every 50; the end ticks stand inside the length by half their width. */
function ticksOf(length: number): readonly { readonly at: number; readonly tall: number }[] {
  return Array.from({ length: length / 10 + 1 }, (_, i) => {
    const at = i * 10;
    if (at === 0) return { at: pens.bar / 2, tall: TICK };
    if (at === length) return { at: length - pens.bar / 2, tall: TICK };
    return { at, tall: at % 50 === 0 ? TICK * 0.7 : TICK * 0.4 };
  });
}

function barAlongX({ at, length }: ScaleBar, caption: string): readonly Item[] {
  const foot = at.y + pens.bar / 2;
  return [
    ...straight('scale-bar', { x: at.x, y: foot }, { x: at.x + length, y: foot }),
    ...ticksOf(length).flatMap((tick) =>
      straight('scale-bar', { x: at.x + tick.at, y: at.y }, { x: at.x + tick.at, y: at.y + tick.tall }),
    ),
    ...lettering(caption, { x: at.x, y: at.y - small.height - 0.8 }, small),
  ];
}

function barAlongY({ at, length }: ScaleBar, caption: string): readonly Item[] {
  const foot = at.x + pens.bar / 2;
  return [
    ...straight('scale-bar', { x: foot, y: at.y }, { x: foot, y: at.y + length }),
    ...ticksOf(length).flatMap((tick) =>
      straight('scale-bar', { x: at.x, y: at.y + tick.at }, { x: at.x + tick.tall, y: at.y + tick.at }),
    ),
    ...lettering(caption, { x: at.x - small.height * TAIL - 0.8, y: at.y }, { ...small, angle: Math.PI / 2 }),
  ];
}
