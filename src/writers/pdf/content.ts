import type { Frame } from '../../drawing/tiling/types.js';
import { bezierPieces } from '../../geometry/svg/bezier.js';
import type { Outline, Path, Point } from '../../geometry/types.js';
import { decimal } from '../../units/decimal.js';

/** The unit of PDF user space: 1/72 in (ISO 32000-1, Table 30, UserUnit; CSS Values 3: 72 pt = 1 in = 25.4 mm). */
export const POINTS_PER_MM = 72 / 25.4;

/** A length of the paper in points, to 1/10 000. */
export const points = (mm: number): number => Number((mm * POINTS_PER_MM).toFixed(4));

/** Size of a page, mm, and the printer's factors along its x and y. */
export type Paper = Pick<Frame, 'width' | 'height' | 'factorX' | 'factorY'>;

/**
 * Content streams (ISO 32000-1, 8.2 and 8.5). A page's own stream goes on where the one that every page begins
 * with ends: there one matrix turns millimetres on the paper into the file's points, with the printer's factors
 * about the page's middle, so that every number after it is in mm.
 */
export const firstContent = (frame: Paper, marks: readonly PageMark[]): string =>
  `${matrixOf(frame)} cm\n1 j\n${pageContent(marks)}`;

export const pageContent = (marks: readonly PageMark[]): string =>
  [...drawnInTurn(joinedMarks(marks)), ''].join('\n');

function matrixOf({ width, height, factorX, factorY }: Paper): string {
  const placed = (size: number, factor: number): number => ((size * (1 - factor)) / 2) * POINTS_PER_MM;
  return [
    factorX * POINTS_PER_MM,
    0,
    0,
    factorY * POINTS_PER_MM,
    placed(width, factorX),
    placed(height, factorY),
  ]
    .map((one) => decimal(one, 8))
    .join(' ');
}

/** One line on a page, or a filled outline. */
export interface LineMark {
  readonly line: Outline | Path;
  /** `#RRGGBB`. */
  readonly colour: string;
  /** Width of the line, mm; 0 fills the outline instead. */
  readonly pen: number;
  /** true for lines that end exactly at their last point instead of rounded beyond it. */
  readonly square?: boolean;
  readonly dash?: Dash;
}

/** Lengths on and off, mm, and where in the pattern the line starts. */
interface Dash {
  readonly pattern: readonly number[];
  readonly phase: number;
}

/** A form (see `PdfForm`) set at a place, turned by an angle in radians, drawn by a pen of its own. */
export interface FormMark extends Pick<LineMark, 'colour' | 'pen'> {
  readonly form: string;
  readonly at: Point;
  readonly angle: number;
}

/** Operators as they are: text that is set, or where marked content begins and ends; text is black. */
export interface RawMark {
  readonly raw: string;
  readonly isText?: true;
}

export type PageMark = LineMark | FormMark | RawMark;

/** Marks that one pen draws without a change; lines among them are painted together. */
interface Stroke {
  readonly mark: PageMark;
  readonly lines: readonly (Outline | Path)[];
}

function joinedMarks(marks: readonly PageMark[]): readonly Stroke[] {
  const strokes: { mark: PageMark; lines: (Outline | Path)[] }[] = [];
  for (const mark of marks) {
    const last = strokes.at(-1);
    if (!('line' in mark)) strokes.push({ mark, lines: [] });
    else if (last && 'line' in last.mark && samePen(last.mark, mark)) last.lines.push(mark.line);
    else strokes.push({ mark, lines: [mark.line] });
  }
  return strokes;
}

/** Dashed lines stay apart, as each has its own place in the pattern. */
const samePen = (a: LineMark, b: LineMark): boolean =>
  a.colour === b.colour && a.pen === b.pen && a.square === b.square && !a.dash && !b.dash;

/** Operators of all strokes; state operators that set what is set already are left out. */
function drawnInTurn(strokes: readonly Stroke[]): readonly string[] {
  const now = new Map<string, string>();
  return strokes.flatMap(({ mark, lines }) => {
    const changed = stateOf(mark).filter(([operator, operands]) => now.get(operator) !== operands);
    for (const [operator, operands] of changed) now.set(operator, operands);
    return [...changed.map(([operator, operands]) => `${operands} ${operator}`), ...painted(mark, lines)];
  });
}

function painted(mark: PageMark, lines: Stroke['lines']): readonly string[] {
  if ('raw' in mark) return [mark.raw];
  return 'form' in mark ? [placeForm(mark)] : [...lines.map(pdfPath), mark.pen === 0 ? 'f' : 'S'];
}

/** The pen is the page's: a form that sets none of its own draws with what is set when it is called. */
function placeForm({ form, at, angle }: FormMark): string {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turn = [cos, sin, -sin, cos].map((one) => decimal(one, 8)).join(' ');
  return `q ${turn} ${pointText(at)} cm /${form} Do Q`;
}

/** A form's own stream: the lines, stroked. */
export const formContent = (lines: readonly Path[]): string => [...lines.map(pdfPath), 'S', ''].join('\n');

/** What a mark is drawn with: operators and their operands. A pen of no width fills. */
function stateOf(mark: PageMark): readonly (readonly [operator: string, operands: string])[] {
  if ('raw' in mark) return mark.isText ? [['rg', BLACK] as const, ['RG', BLACK] as const] : [];
  const colour = rgb(mark.colour);
  if (mark.pen === 0) return [['rg', colour]];
  const { dash: dashes, square } = 'form' in mark ? {} : mark;
  const dash = dashes ? `[${dashes.pattern.map(number).join(' ')}] ${number(dashes.phase)}` : '[] 0';
  return [
    ['RG', colour],
    ['w', number(mark.pen)],
    ['J', square ? '0' : '1'],
    ['d', dash],
  ];
}

const BLACK = '0 0 0';

function rgb(colour: string): string {
  const channel = (at: number): string => decimal(Number.parseInt(colour.slice(at, at + 2), 16) / 255, 4);
  return [1, 3, 5].map(channel).join(' ');
}

function pdfPath({ segments, closed }: Outline | Path): string {
  const [first] = segments;
  if (!first) return '';
  let text = `${pointText(first.from)} m`;
  for (const [i, segment] of segments.entries()) {
    if (segment.kind === 'arc') {
      for (const [a, b, to] of bezierPieces(segment, widestPiece(segment.radius)))
        text += `\n${pointText(a)} ${pointText(b)} ${pointText(to)} c`;
      // The last line of an outline is drawn by closing it.
    } else if (!closed || i < segments.length - 1) text += `\n${pointText(segment.to)} l`;
  }
  return closed ? `${text}\nh` : text;
}

/** Béziers stay this near to their arcs, mm. */
const ARC_ERROR = 0.0005;

/** A quarter turn in one bézier leaves the circle by 2.73e-4 r, and the error goes with the sixth power of the turn. */
const widestPiece = (radius: number): number =>
  (Math.PI / 2) * Math.min(1, (ARC_ERROR / (2.73e-4 * radius)) ** (1 / 6));

const pointText = ({ x, y }: { readonly x: number; readonly y: number }): string =>
  `${number(x)} ${number(y)}`;

/** Millimetres to 1/10 000: a twentieth of what the checks of printed scale ask. */
const number = (mm: number): string => decimal(mm, 4);
