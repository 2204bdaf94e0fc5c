import type { Layer } from '../drawing/model.js';
import type { Frame, Ink, Mark } from '../drawing/tiling-types.js';
import type { Outline, Path } from '../geometry/types.js';
import { bezierPieces } from './bezier.js';
import { decimal } from './decimal.js';

/** The unit of PDF user space: 1/72 in (ISO 32000-1, Table 30, UserUnit; CSS Values 3: 72 pt = 1 in = 25.4 mm). */
export const POINTS_PER_MM = 72 / 25.4;

/** A length of the paper in points, to 1/10 000. */
export const points = (mm: number): number => Number((mm * POINTS_PER_MM).toFixed(4));

/** Colour of each layer, `#RRGGBB`. */
type Colours = Readonly<Record<Layer, string>>;

/** Size of a page, mm, and the printer's factors along its x and y. */
export type Paper = Pick<Frame, 'width' | 'height' | 'factorX' | 'factorY'>;

/**
 * Content streams (ISO 32000-1, 8.2 and 8.5). A page's own stream goes on where the one that every page begins
 * with ends: there one matrix turns millimetres on the paper into the file's points, with the printer's factors
 * about the page's middle, so that every number after it is in mm.
 */
export const firstContent = (frame: Paper, marks: readonly Mark[], colours: Colours): string =>
  `${matrixOf(frame)} cm\n1 j\n${pageContent(marks, colours)}`;

export const pageContent = (marks: readonly Mark[], colours: Colours): string =>
  [...withoutRepeats(joinedMarks(marks).flatMap((one) => drawn(one, colours))), ''].join('\n');

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

/** Marks that one pen draws without a change, painted together. */
interface Stroke {
  readonly mark: Mark;
  readonly lines: readonly (Outline | Path)[];
}

function joinedMarks(marks: readonly Mark[]): readonly Stroke[] {
  const strokes: { mark: Mark; lines: (Outline | Path)[] }[] = [];
  for (const mark of marks) {
    const last = strokes.at(-1);
    if (last && samePen(last.mark, mark)) last.lines.push(mark.line);
    else strokes.push({ mark, lines: [mark.line] });
  }
  return strokes;
}

/** Dashed lines stay apart, as each has its own place in the pattern. */
const samePen = (a: Mark, b: Mark): boolean =>
  a.ink === b.ink && a.pen === b.pen && a.square === b.square && !a.dash && !b.dash;

/** Operators, each line starting with its own; state operators that change nothing are dropped later. */
function drawn({ mark, lines }: Stroke, colours: Colours): readonly string[] {
  const filled = mark.pen === 0;
  const colour = rgb(inkColours[mark.ink as 'black'] ?? colours[mark.ink as Layer]);
  const dash = mark.dash
    ? `[${mark.dash.pattern.map(number).join(' ')}] ${number(mark.dash.phase)} d`
    : '[] 0 d';
  const state = filled
    ? [`${colour} rg`]
    : [`${colour} RG`, `${number(mark.pen)} w`, `${mark.square ? 0 : 1} J`, dash];
  return [...state, ...lines.map(pathOf), filled ? 'f' : 'S'];
}

const inkColours: Readonly<Record<Exclude<Ink, Layer>, string>> = {
  black: '#000000',
  grey: '#808080',
  white: '#FFFFFF',
};

function rgb(colour: string): string {
  const channel = (at: number): string => decimal(Number.parseInt(colour.slice(at, at + 2), 16) / 255, 4);
  return [1, 3, 5].map(channel).join(' ');
}

/** State operators (`RG`, `rg`, `w`, `J`, `d`) that set what is set already are left out. */
function withoutRepeats(operators: readonly string[]): readonly string[] {
  const now = new Map<string, string>();
  return operators.filter((one) => {
    const [, operator] = /^\S.*\s(RG|rg|w|J|d)$/.exec(one) ?? [];
    if (operator === undefined) return true;
    if (now.get(operator) === one) return false;
    now.set(operator, one);
    return true;
  });
}

function pathOf(line: Outline | Path): string {
  const [first] = line.segments;
  if (!first) return '';
  const steps = line.segments.map((segment, i) => {
    if (segment.kind === 'arc') {
      return bezierPieces(segment, widestPiece(segment.radius))
        .map((piece) => `${piece.map(place).join(' ')} c`)
        .join('\n');
    }
    // The last line of an outline is drawn by closing it.
    return line.closed && i === line.segments.length - 1 ? '' : `${place(segment.to)} l`;
  });
  return [`${place(first.from)} m`, ...steps.filter((one) => one !== ''), ...(line.closed ? ['h'] : [])].join(
    '\n',
  );
}

/** Béziers stay this near to their arcs, mm. */
const ARC_ERROR = 0.0005;

/** A quarter turn in one bézier leaves the circle by 2.73e-4 r, and the error goes with the sixth power of the turn. */
const widestPiece = (radius: number): number =>
  (Math.PI / 2) * Math.min(1, (ARC_ERROR / (2.73e-4 * radius)) ** (1 / 6));

const place = ({ x, y }: { readonly x: number; readonly y: number }): string => `${number(x)} ${number(y)}`;

/** Millimetres to 1/10 000: a twentieth of what the checks of printed scale ask. */
const number = (mm: number): string => decimal(mm, 4);
