import { type Colours, type Operation, operations, palette } from '../../shared/operations.js';

/**
 * How things look, apart from what is done to the sheet: every colour and width of line that pictures, sheets and prints
 * are drawn with, in one table. Operations have the shop's colours; whatever else is drawn has a colour of its own, so
 * that a colour for CUT never turns up in the rule of a table.
 */
interface Look {
  /** `#RRGGBB`; absent for operations, which the shop gives theirs. */
  readonly colour?: string;
  /** Widths of the line on a screen and on paper, mm. */
  readonly picture: number;
  readonly paper: number;
  /** How much of its colour fills an outline in a picture, 0 to 1. */
  readonly tint?: number;
  /** Lengths on and off of its dashed lines, mm, where they aren't those of all others. */
  readonly dash?: readonly number[];
  /** true for lines that end exactly at their last point instead of rounded beyond it. */
  readonly square?: boolean;
}

/** Pens for a drawing printed at its true size, and for the bars and the map around it, mm. */
export const pens = { bar: 0.25, drawing: 0.2, map: 0.1 } as const;

const GREY = '#808080';

/** In the order in which pictures are painted: boards lie under the plate that is looked at. */
const looks = {
  /** Areas of a picture of work under a plate: tints of orange, sky and black. A line of no width fills. */
  wood: { colour: '#F7E3BC', picture: 0, paper: 0, tint: 1 },
  plate: { colour: '#CFE6F5', picture: 0, paper: 0, tint: 1 },
  block: { colour: '#C4C4C4', picture: 0, paper: 0, tint: 1 },
  blank: { colour: '#FFFFFF', picture: 0, paper: 0, tint: 1 },
  /** Areas of a test cut, told apart in grey print too, and the lines about them. */
  first: { colour: palette.yellow, picture: 0, paper: 0, tint: 1 },
  second: { colour: palette.sky, picture: 0, paper: 0, tint: 1 },
  gap: { colour: palette.vermilion, picture: 0, paper: 0, tint: 1 },
  overlap: { colour: palette.black, picture: 0, paper: 0, tint: 1 },
  frame: { colour: palette.black, picture: 0.2, paper: 0.2 },
  'gap-ring': { colour: palette.vermilion, picture: 0.3, paper: 0.3 },
  'overlap-ring': { colour: palette.black, picture: 0.3, paper: 0.3 },
  STOCK: { picture: 0.35, paper: 0.3, tint: 0.15 },
  /** Of a figure: a board; what is measured and pointed at; what is cut to, hatched where grain ends; bit, bushing, stop. */
  board: { colour: palette.sky, picture: 0.35, paper: 0.3, tint: 0.15 },
  guide: { colour: palette.purple, picture: 0.25, paper: 0.15 },
  tool: { colour: palette.blue, picture: 0.35, paper: 0.25 },
  hatch: { colour: palette.black, picture: 0.2, paper: 0.18 },
  outline: { colour: palette.vermilion, picture: 0.5, paper: 0.4 },
  /** Of a histogram. */
  bar: { colour: palette.sky, picture: 0.35, paper: 0.3, tint: 0.15 },
  /** Under the head of a table, and around a field to write in. */
  head: { colour: palette.sky, picture: 0.35, paper: 0.3 },
  field: { colour: palette.sky, picture: 0.35, paper: 0.3 },
  REF: { picture: 0.25, paper: 0.15 },
  /** Between the rows of a table; an axis and its marks. */
  rule: { colour: palette.purple, picture: 0.25, paper: 0.15 },
  SCORE: { picture: 0.35, paper: 0.25 },
  curve: { colour: palette.blue, picture: 0.35, paper: 0.25 },
  ENGRAVE: { picture: 0.35, paper: 0.18 },
  /** What is seen, and what is hidden, of such a picture. */
  edge: { colour: palette.black, picture: 0.3, paper: 0.22 },
  hidden: { colour: palette.black, picture: 0.2, paper: 0.15 },
  arrow: { colour: palette.vermilion, picture: 0.7, paper: 0.6 },
  mark: { colour: palette.black, picture: 0.5, paper: 0.45 },
  words: { colour: palette.black, picture: 0.35, paper: 0.18 },
  CUT: { picture: 0.5, paper: 0.4 },
  /** Beside words of caution. */
  caution: { colour: palette.vermilion, picture: 0.5, paper: 0.4 },
  /** Around a drawing that is printed: words, bars to measure, crosses to join pages at, where to trim and lay them, the map. */
  print: { colour: palette.black, picture: 0.2, paper: 0.2 },
  'scale-bar': { colour: palette.black, picture: pens.bar, paper: pens.bar, square: true },
  cross: { colour: palette.black, picture: 0.12, paper: 0.12 },
  trim: { colour: GREY, picture: 0.12, paper: 0.12, dash: [7, 2, 1.5, 2] },
  'trim-word': { colour: GREY, picture: 0.2, paper: 0.2 },
  lay: { colour: GREY, picture: 0.12, paper: 0.12, dash: [0.4, 2] },
  ground: { colour: '#FFFFFF', picture: 0, paper: 0, tint: 1 },
  cell: { colour: GREY, picture: 0.2, paper: 0.2 },
} as const satisfies Readonly<Record<string, Look>> & Readonly<Record<Operation, Look>>;

export type StyleName = keyof typeof looks;

export interface Style {
  readonly colour: string;
  /** mm. */
  readonly width: number;
  readonly tint?: number;
  readonly square?: boolean;
  readonly dash: readonly number[];
}

/** A picture on a screen, a sheet to be read, a drawing printed at its true size, its map. */
export type Medium = 'picture' | 'paper' | 'print' | 'map';

export const paintOrder = Object.keys(looks) as readonly StyleName[];

export function styleOf(name: StyleName, medium: Medium, colours: Colours): Style {
  const look: Look = looks[name];
  const operation = operations.find((one) => one === name);
  return {
    colour: look.colour ?? (operation ? colours[operation] : palette.black),
    width: widthOf(look, medium, operation !== undefined),
    ...(medium === 'picture' && look.tint !== undefined && { tint: look.tint }),
    ...(look.square && { square: true }),
    dash: look.dash ?? (medium === 'paper' ? dashes.sheet : dashes.drawing),
  };
}

/** On a print all operations are drawn alike. */
function widthOf(look: Look, medium: Medium, isOperation: boolean): number {
  if (medium === 'picture' || medium === 'paper') return look[medium];
  if (!isOperation) return look.paper;
  return medium === 'map' ? pens.map : pens.drawing;
}

/** Colours of the first and the second board of a joint. */
export const boardColours = [looks.first.colour, looks.second.colour] as const;

/** Width of every line of a drawing file, mm, unless the shop asks for another. */
export const FILE_STROKE = 0.1;

/** Letters on paper are heavier than lines, by their height: they are read from further away, mm. */
export const letterPen = (height: number): number => Math.max(0.2, height * 0.11);

/** Lengths on and off of dashed lines, mm: in files, pictures and prints, and on sheets. */
export const dashes = { drawing: [3, 1.5], sheet: [2, 1.2] } as const;
