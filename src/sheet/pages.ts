import { wrapped } from '../drawing/lettering/wrapped.js';
import type { Item } from '../drawing/model.js';
import { rectangle } from '../geometry/outline.js';
import type { Extents } from '../geometry/types.js';
import {
  type Block,
  type Figure,
  type Figures,
  type Form,
  type SheetDocument,
  type Steps,
  scaleChoices,
  scaleWords,
  type Table,
} from './document.js';
import { boxOf, DESCENT, lettering, movedItems, ruled } from './items.js';

/** One page of a sheet at its true size: mm from the lower left corner of the paper, x right, y up. */
export interface SheetPage {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

export interface PaperSpace {
  readonly width: number;
  readonly height: number;
  /** No ink nearer to the edge than this. */
  readonly margin: number;
}

/** Capital heights, mm: steps are read at arm's length from a bench. */
const LETTERS = {
  title: 5,
  subtitle: 3,
  heading: 3.4,
  step: 3,
  caution: 2.5,
  figure: 2.4,
  foot: 2.2,
} as const;

/** Distance of base lines, in capital heights. */
const LINE_STEP = 1.6;

/** Brackets and accents reach above capitals: room for those of a page's first line, mm. */
const ABOVE = 1.5;

/** Room under a block, mm. */
const AFTER = 2.4;

/** How dense a sheet is: the share of their room that figures take, and the capital height of tables, mm. */
interface Density {
  readonly figures: number;
  readonly table: number;
}

/** A sheet is to be one or two pages: figures shrink first, then tables a little, until it is. Steps never do. */
const DENSITIES: readonly Density[] = [
  { figures: 1, table: 2.5 },
  { figures: 0.87, table: 2.5 },
  { figures: 0.76, table: 2.4 },
  { figures: 0.67, table: 2.3 },
  { figures: 0.58, table: 2.3 },
  { figures: 0.52, table: 2.2 },
  { figures: 0.45, table: 2.2 },
  { figures: 0.4, table: 2.1 },
  { figures: 0.34, table: 2.1 },
];
const WANTED_PAGES = 2;

/** Sets a document on pages of one paper. What cannot be set on two pages takes more; nothing is left out. */
export function layPages(document: SheetDocument, paper: PaperSpace): readonly SheetPage[] {
  let best: readonly SheetPage[] | undefined;
  for (const density of DENSITIES) {
    const pages = layAt(document, paper, density);
    if (!best || pages.length < best.length) best = pages;
    if (best.length <= WANTED_PAGES) break;
  }
  return best ?? [];
}

/** A part of a block that stays in one piece: its items hang down from y = 0. */
interface Piece {
  readonly height: number;
  readonly items: readonly Item[];
  /** true when the next piece must follow on the same page. */
  readonly keep?: boolean;
}

function layAt(document: SheetDocument, paper: PaperSpace, density: Density): readonly SheetPage[] {
  const width = paper.width - 2 * paper.margin;
  const foot = (1 + DESCENT) * LETTERS.foot + 2;
  const room = paper.height - 2 * paper.margin - foot - ABOVE;
  const pieces = [
    ...titlePieces(document, width),
    ...document.blocks.flatMap((block) => piecesOf(block, width, density)),
  ];
  const pages: Item[][] = [[]];
  let used = 0;
  pieces.forEach((piece, i) => {
    const next = pieces[i + 1];
    const needed = piece.height + (piece.keep && next ? next.height : 0);
    if (used > 0 && used + needed > room) {
      pages.push([]);
      used = 0;
    }
    const top = paper.height - paper.margin - ABOVE - used;
    pages.at(-1)?.push(...movedItems(piece.items, paper.margin, top));
    used += piece.height;
  });
  return pages.map((items, i) => ({
    width: paper.width,
    height: paper.height,
    items: [...items, ...footer(document, paper, i + 1, pages.length)],
  }));
}

function footer(document: SheetDocument, paper: PaperSpace, page: number, of: number): readonly Item[] {
  const y = paper.margin + DESCENT * LETTERS.foot;
  const number = `page ${page} of ${of}`;
  const room = paper.width - 2 * paper.margin - 40;
  const [title = ''] = wrapped(document.title, LETTERS.foot, room, 1);
  return [
    lettering(title, { x: paper.margin, y }, LETTERS.foot),
    lettering(number, { x: paper.width - paper.margin, y }, LETTERS.foot, 'end'),
  ];
}

function titlePieces({ title, subtitle }: SheetDocument, width: number): readonly Piece[] {
  return [
    { ...padded(paragraph(title, LETTERS.title, width, 0, 3), 1.5), keep: true },
    padded(paragraph(subtitle, LETTERS.subtitle, width), 2),
  ];
}

function piecesOf(block: Block, width: number, { figures, table }: Density): readonly Piece[] {
  switch (block.kind) {
    case 'heading': {
      const words = paragraph(block.text, LETTERS.heading, width);
      return [{ ...padded(words, 1.2), keep: true }];
    }
    case 'words':
      return ended(block.paragraphs.map((words) => padded(paragraph(words, table, width), 0.8)));
    case 'steps':
      return ended(stepPieces(block, width));
    case 'table':
      return ended(tablePieces(block, width, table));
    case 'figures':
      return ended(figurePieces(block, width, figures));
    case 'form':
      return ended(formPieces(block, width, table));
  }
}

/** Room after the last piece of a block. */
function ended(pieces: readonly Piece[]): readonly Piece[] {
  return pieces.map((piece, i) => (i === pieces.length - 1 ? padded(piece, AFTER) : piece));
}

const padded = (piece: Piece, below: number): Piece => ({ ...piece, height: piece.height + below });

function paragraph(words: string, height: number, width: number, indent = 0, most = Infinity): Piece {
  const lines = wrapped(words, height, width - indent, most);
  return {
    height: ((lines.length - 1) * LINE_STEP + 1 + DESCENT) * height,
    items: lines.map((one, i) => lettering(one, { x: indent, y: -height - i * LINE_STEP * height }, height)),
  };
}

// Steps

/** Column of the numbers, mm. */
const NUMBERS = 9;

function stepPieces({ steps }: Steps, width: number): readonly Piece[] {
  return steps.map(({ text, caution }, i) => {
    const words = paragraph(text, LETTERS.step, width, NUMBERS);
    const number = lettering(`${i + 1}`, { x: NUMBERS - 3, y: -LETTERS.step }, LETTERS.step, 'end');
    if (caution === undefined) return padded({ ...words, items: [number, ...words.items] }, 1);
    const beware = paragraph(`Caution: ${caution}`, LETTERS.caution, width - 3, NUMBERS + 3);
    const gap = 0.4;
    const bar = NUMBERS;
    return {
      height: words.height + gap + beware.height + 1,
      items: [
        number,
        ...words.items,
        ruled(
          'caution',
          { x: bar, y: -words.height - gap },
          { x: bar, y: -words.height - gap - beware.height },
        ),
        ...movedItems(beware.items, 0, -words.height - gap),
      ],
    };
  });
}

// Tables

const CELL_GAP = 2.5;

function tablePieces({ columns, rows }: Table, width: number, letters: number): readonly Piece[] {
  const lefts = columns.map((_, i) => columns.slice(0, i).reduce((sum, one) => sum + one.share * width, 0));
  const row = (cells: readonly string[], below: 'head' | 'rule'): Piece => {
    const set = cells.map((words, i) =>
      paragraph(words, letters, (columns[i]?.share ?? 1) * width - CELL_GAP),
    );
    const height = Math.max(...set.map((one) => one.height));
    const y = -height - 0.7;
    return {
      height: height + 1.6,
      items: [
        ...set.flatMap((one, i) => movedItems(one.items, lefts[i] ?? 0, 0)),
        ruled(below, { x: 0, y }, { x: width, y }),
      ],
    };
  };
  const head = row(
    columns.map(({ title }) => title),
    'head',
  );
  return [{ ...head, keep: true }, ...rows.map((cells) => row(cells, 'rule'))];
}

// Figures

const FIGURE_GAP = 6;

/** Paper with less room than this from edge to edge has one figure in a row, mm. */
const MIN_FOR_TWO = 165;

function figurePieces({ figures }: Figures, width: number, factor: number): readonly Piece[] {
  if (width < MIN_FOR_TWO && figures.length > 1) {
    return figures.flatMap((one) =>
      figurePieces({ kind: 'figures', figures: [{ ...one, share: 1 }] }, width, factor).map((piece) =>
        padded(piece, AFTER),
      ),
    );
  }
  let left = 0;
  const set = figures.map((figure) => {
    const own = figure.share * width - (figures.length > 1 ? FIGURE_GAP / 2 : 0);
    const { items, height, scale } = fittedFigure(
      figure,
      own,
      Math.max(figure.least ?? 0, figure.room * factor),
    );
    const title = figure.scaled ? `${figure.title} (${scaleWords(scale)})` : `${figure.title} (not to scale)`;
    const head = paragraph(title, LETTERS.figure, own);
    const placed = [
      ...movedItems(head.items, left, 0),
      ...movedItems(items, left + own / 2, -head.height - 2),
    ];
    left += figure.share * width + FIGURE_GAP / 2 / figures.length;
    return { height: head.height + 2 + height, items: placed };
  });
  return [{ height: Math.max(...set.map((one) => one.height)), items: set.flatMap((one) => one.items) }];
}

/** A figure as large as its room lets it be, hanging from y = 0, its middle at x = 0. */
export function fittedFigure(
  figure: Pick<Figure, 'draw' | 'scaled'>,
  width: number,
  height: number,
): {
  readonly items: readonly Item[];
  readonly height: number;
  readonly width: number;
  readonly scale: number;
} {
  const choices = figure.scaled ? scaleChoices : [1];
  const smallest = choices.at(-1) ?? 1;
  for (const scale of choices) {
    const { items, box } = drawnAt(figure.draw, scale);
    const fits = box.maxX - box.minX <= width && box.maxY - box.minY <= height;
    if (!fits && scale !== smallest) continue;
    return {
      items: movedItems(items, -(box.minX + box.maxX) / 2, -box.maxY),
      height: box.maxY - box.minY,
      width: box.maxX - box.minX,
      scale,
    };
  }
  throw new Error('there is no scale to choose from');
}

interface Drawn {
  readonly items: readonly Item[];
  readonly box: Extents;
}

/** A figure is tried at many scales, for each density of the page and for the screen: it is drawn once at each. */
function drawnAt(draw: Figure['draw'], scale: number): Drawn {
  const scales = drawnFigures.get(draw) ?? new Map<number, Drawn>();
  const known = scales.get(scale);
  if (known) return known;
  const items = draw(scale);
  const drawn = { items, box: boxOf(items) };
  drawnFigures.set(draw, scales.set(scale, drawn));
  return drawn;
}

const drawnFigures = new WeakMap<Figure['draw'], Map<number, Drawn>>();

// Forms

const FIELD_HEIGHT = 6;
const FIELDS_IN_ROW = 5;

function formPieces({ fields }: Form, width: number, letters: number): readonly Piece[] {
  const own = width / FIELDS_IN_ROW;
  const rows = Array.from({ length: Math.ceil(fields.length / FIELDS_IN_ROW) }, (_, i) =>
    fields.slice(i * FIELDS_IN_ROW, (i + 1) * FIELDS_IN_ROW),
  );
  return rows.map((row) => {
    const labels = row.map(({ label }) => paragraph(label, letters, own - CELL_GAP));
    const top = Math.max(...labels.map((one) => one.height)) + 0.4;
    return {
      height: top + FIELD_HEIGHT + 2,
      items: labels.flatMap((one, i): readonly Item[] => [
        ...movedItems(one.items, i * own, 0),
        {
          kind: 'closed',
          layer: 'REF',
          style: 'field',
          outline: rectangle(i * own, -top - FIELD_HEIGHT, (i + 1) * own - CELL_GAP, -top),
        },
      ]),
    };
  });
}
