import type { Writer } from '../drawing/model.js';
import type { ToolMove, ToolProgram } from '../drawing/tool-moves.js';
import { flatten } from '../geometry/flatten.js';
import { lengthOf } from '../geometry/segment.js';
import type { Arc, Point } from '../geometry/types.js';
import { decimal } from '../units/decimal.js';

/**
 * RS-274 as NISTIR 6556 (2000) describes it, in the part that every controller reads: G0 to G4, modes spelled
 * out at the start, mm with four decimals, arcs by the offset of their centre (I and J), S and M3, M5, M2. No
 * line is longer than 50 characters; no cycles, no subprograms, no tool changes, no line numbers.
 */
export const gcodeWriter = {
  format: 'gcode',
  extension: 'ngc',
  write: (program: ToolProgram) => linesOf(program).join('\n'),
} satisfies Writer<void, ToolProgram>;

/** Characters in a line; older controllers cut off more. */
const LONGEST_LINE = 50;

/** Seconds for the spindle to come up to speed; common practice, no source. */
const SPIN_UP = 3;

/** Millionths of an inch are lost on wood; four decimals keep the two radii of an arc within 0.002 mm. */
const DECIMALS = 4;

function linesOf({ remarks, tool, moves }: ToolProgram): readonly string[] {
  const start =
    tool.kind === 'spindle'
      ? [`G0 Z${number(tool.safeHeight)}`, `M3 S${number(tool.rpm)}`, `G4 P${SPIN_UP}`]
      : ['M5'];
  const pen: Pen = tool.kind === 'spindle' ? { z: tool.safeHeight } : { flat: true };
  return [...remarks.flatMap(comment), 'G21 G90 G17 G40 G94', ...start, ...steps(moves, pen), 'M5', 'M2', ''];
}

/** Where the tool is as far as the file has said, in rounded numbers, and the feed that holds. */
interface Pen {
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  readonly feed?: number;
  /** No heights are written: a beam has none. */
  readonly flat?: boolean;
}

interface ProgramStep {
  readonly lines: readonly string[];
  readonly pen: Pen;
}

function steps(moves: readonly ToolMove[], start: Pen): readonly string[] {
  const lines: string[] = [];
  let pen = start;
  for (const move of moves) {
    const step = stepOf(move, pen);
    lines.push(...step.lines);
    pen = step.pen;
  }
  return lines;
}

function stepOf(move: ToolMove, pen: Pen): ProgramStep {
  switch (move.kind) {
    case 'say':
      return { lines: comment(move.text), pen };
    case 'beam':
      return { lines: [move.power > 0 ? `M3 S${number(move.power)}` : 'M5'], pen };
    case 'lift':
      return straightMove('G0', { z: move.z }, pen);
    case 'travel':
      return straightMove('G0', move.to, pen);
    case 'plunge':
      return straightMove('G1', { z: move.z }, pen, move.feed);
    case 'cut':
      return move.along.kind === 'arc' && lengthOf(move.along) > SHORTEST_ARC
        ? arcTo(move.along, move.z, pen, move.feed)
        : straightMove('G1', { ...move.along.to, z: move.z }, pen, move.feed);
  }
}

/** Ends of a shorter arc, mm, could be rounded to one point, which would be read as a full circle. */
const SHORTEST_ARC = 0.01;

/** Only what changes is written, and no line at all when nothing does. */
function straightMove(code: 'G0' | 'G1', to: Pen, pen: Pen, feed?: number): ProgramStep {
  const next = arrived(to, pen);
  const words = axisWords(next, pen);
  if (words.length === 0) return { lines: [], pen };
  return {
    lines: [fitted([code, ...words, ...feedWord(feed, pen)])],
    pen: { ...next, ...(feed !== undefined && { feed: rounded(feed) }) },
  };
}

/** I and J lead from the start, as it was written, to the centre. */
function arcTo(along: Arc, z: number, pen: Pen, feed: number): ProgramStep {
  const next = { ...arrived({ ...along.to, z }, pen), feed: rounded(feed) };
  const { x = along.from.x, y = along.from.y } = pen;
  const words = [
    along.ccw ? 'G3' : 'G2',
    `X${number(along.to.x)}`,
    `Y${number(along.to.y)}`,
    ...axisWords({ z: next.z ?? 0 }, { z: pen.z ?? 0 }),
    `I${number(along.center.x - x)}`,
    `J${number(along.center.y - y)}`,
  ];
  const ofFeed = feedWord(feed, pen);
  const line = fitted([...words, ...ofFeed]);
  if (line.length <= LONGEST_LINE) return { lines: [line], pen: next };
  const bare = fitted(words);
  if (bare.length <= LONGEST_LINE) return { lines: [...ofFeed, bare], pen: next };
  return asChords(along, z, pen, feed);
}

/** A piece of a helix whose numbers are too long for one line goes down in chords, within 0.001 mm of it. */
function asChords(along: Arc, z: number, pen: Pen, feed: number): ProgramStep {
  const [, ...points] = flatten({ closed: false, segments: [along] }, 0.001);
  const from = pen.z ?? 0;
  const lines: string[] = [];
  let at = pen;
  points.forEach((point: Point, i) => {
    const height = from + ((z - from) * (i + 1)) / points.length;
    const step = straightMove('G1', { ...point, z: height }, at, feed);
    lines.push(...step.lines);
    at = step.pen;
  });
  return { lines, pen: at };
}

function arrived(to: Pen, pen: Pen): Pen {
  return {
    ...pen,
    ...(to.x !== undefined && { x: rounded(to.x) }),
    ...(to.y !== undefined && { y: rounded(to.y) }),
    ...(to.z !== undefined && !pen.flat && { z: rounded(to.z) }),
  };
}

function axisWords(next: Pen, pen: Pen): readonly string[] {
  return (['x', 'y', 'z'] as const).flatMap((axis) => {
    const value = next[axis];
    return value === undefined || value === pen[axis] ? [] : [`${axis.toUpperCase()}${number(value)}`];
  });
}

const feedWord = (feed: number | undefined, pen: Pen): readonly string[] =>
  feed === undefined || rounded(feed) === pen.feed ? [] : [`F${number(feed)}`];

/** Words apart, for people; close together where the line would be too long otherwise. */
function fitted(words: readonly string[]): string {
  const line = words.join(' ');
  return line.length <= LONGEST_LINE ? line : words.join('');
}

const number = (value: number): string => decimal(value, DECIMALS);

const rounded = (value: number): number => Number(number(value));

/**
 * Every comment of a file is made here: in round brackets, which cannot be nested, broken between words. Controllers
 * obey some comments by their first word (MSG, LOGOPEN, PRINT), and some characters wherever they stand (! ~ ? $ %),
 * so each line begins with a sign that begins no command and holds nothing but harmless characters.
 */
function comment(text: string): readonly string[] {
  const room = LONGEST_LINE - 2 - COMMENT.length;
  const lines: string[] = [];
  for (const word of harmless(text).split(' ')) {
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && longer.length <= room) lines[lines.length - 1] = longer;
    else lines.push(...(word.match(new RegExp(`.{1,${room}}`, 'g')) ?? []));
  }
  return lines.map((line) => `(${COMMENT}${line})`);
}

const COMMENT = '- ';

/** Letters without their accents, digits, and a few signs; others become a dash, brackets and quotes nothing. */
function harmless(text: string): string {
  return text
    .replace(/(?<=\d)["”″]/g, ' in')
    .replace(/[()[\]{}<>'"’‘“”″]/g, '')
    .replace(/[–—−]/g, '-')
    .replace(/;/g, ',')
    .replace(/×/g, 'x')
    .replace(/°/g, ' deg')
    .normalize('NFKD')
    .replace(/⁄/g, '/')
    .replace(/\p{M}/gu, '')
    .replace(/\s+/g, ' ')
    .replace(/[^A-Za-z0-9 .,:/+-]/gu, '-')
    .trim();
}
