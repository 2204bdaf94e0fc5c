import type { Face, Item } from '../drawing/model.js';
import type { PagePart, Tag } from '../drawing/page.js';
import { rectangle } from '../geometry/outline.js';
import type { Bench, Block, Figure, Figures, Form, Steps, Table } from './document.js';
import { scaleChoices, scaleWords } from './document.js';
import { drawnAt } from './drawn-figure.js';
import { DESCENT, inLines, lettering, movedItems, ruled } from './items.js';

/** The blocks of a sheet as pieces that are set on a page one below the other. */

/** What stays together: its parts hang down from y = 0. */
export interface Piece {
  readonly height: number;
  readonly parts: readonly PagePart[];
  /** true when the next piece must follow on the same page. */
  readonly keep?: boolean;
  /** true when the next piece begins a page. */
  readonly last?: boolean;
}

/** Capital heights, mm: steps are read at arm's length from a bench. */
export const LETTERS = {
  title: 5,
  subtitle: 3,
  heading: 3.5,
  step: 2.9,
  caution: 2.4,
  figure: 2.4,
  foot: 2.1,
} as const;

/** Distance of base lines, in capital heights. */
export const LINE_STEP = 1.6;

/** Room under a block, mm. */
const AFTER = 3;

/** How dense a sheet is: the share of their room that figures take, and the capital height of tables, mm. */
export interface Density {
  readonly figures: number;
  readonly table: number;
}

export function piecesOf(block: Exclude<Block, Bench>, width: number, density: Density): readonly Piece[] {
  const { figures, table } = density;
  switch (block.kind) {
    case 'heading': {
      const words = paragraph(block.text, LETTERS.heading, width, {
        tag: headingTag('H2', block.text),
        face: 'bold',
      });
      return [{ ...padded(lowered(words, 1.2), 1.6), keep: true }];
    }
    case 'words':
      return ended(
        block.paragraphs.map((words) => padded(paragraph(words, table, width, { tag: { role: 'P' } }), 1)),
      );
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

export const headingTag = (role: 'H1' | 'H2' | 'H3', words: string): Tag => ({ role, words });

/** Room after the last piece of a block. */
function ended(pieces: readonly Piece[]): readonly Piece[] {
  return pieces.map((piece, i) => (i === pieces.length - 1 ? padded(piece, AFTER) : piece));
}

export const padded = (piece: Piece, below: number): Piece => ({ ...piece, height: piece.height + below });

const lowered = (piece: Piece, by: number): Piece => ({
  height: piece.height + by,
  parts: movedParts(piece.parts, 0, -by),
});

export const movedParts = (parts: readonly PagePart[], dx: number, dy: number): readonly PagePart[] =>
  parts.map((part) => ({ ...part, items: movedItems(part.items, dx, dy) }));

interface Setting {
  readonly tag?: Tag;
  readonly face?: Face;
  readonly indent?: number;
  readonly most?: number;
}

export function paragraph(
  words: string,
  height: number,
  width: number,
  { tag, face = 'sans', indent = 0, most = Infinity }: Setting = {},
): Piece {
  const lines = inLines(words, height, width - indent, face, most);
  const items = lines.map((one, i) =>
    lettering(one, { x: indent, y: -height - i * LINE_STEP * height }, height, 'start', face),
  );
  return {
    height: ((lines.length - 1) * LINE_STEP + 1 + DESCENT) * height,
    parts: [{ items, ...(tag && { tag }) }],
  };
}

// Steps

/** Column of the numbers, mm. */
const NUMBERS = 8;

function stepPieces({ steps, from = 1 }: Steps, width: number): readonly Piece[] {
  const list: Tag = { role: 'L' };
  return steps.map(({ text, caution }, i) => {
    const within: Tag = { role: 'LI', within: list };
    const label: Tag = { role: 'Lbl', within };
    const body: Tag = { role: 'LBody', within };
    const number = lettering(
      `${from + i}`,
      { x: NUMBERS - 3, y: -LETTERS.step },
      LETTERS.step,
      'end',
      'bold',
    );
    const words = paragraph(text, LETTERS.step, width, { indent: NUMBERS, tag: body });
    const step: readonly PagePart[] = [{ items: [number], tag: label }, ...words.parts];
    if (caution === undefined) return padded({ height: words.height, parts: step }, 1.5);
    const beware = paragraph(`Caution: ${caution}`, LETTERS.caution, width - 3, {
      indent: NUMBERS + 3,
      tag: body,
    });
    const gap = 0.8;
    const bar = ruled(
      'caution',
      { x: NUMBERS + 0.5, y: -words.height - gap },
      { x: NUMBERS + 0.5, y: -words.height - gap - beware.height },
    );
    return {
      height: words.height + gap + beware.height + 1.7,
      parts: [...step, { items: [bar] }, ...movedParts(beware.parts, 0, -words.height - gap)],
    };
  });
}

// Tables

const CELL_GAP = 2.5;

function tablePieces({ columns, rows }: Table, width: number, letters: number): readonly Piece[] {
  const lefts = columns.map((_, i) => columns.slice(0, i).reduce((sum, one) => sum + one.share * width, 0));
  const table: Tag = { role: 'Table' };
  const row = (cells: readonly string[], isHead: boolean): Piece => {
    const within: Tag = { role: 'TR', within: table };
    const set = cells.map((words, i) =>
      paragraph(words, letters, (columns[i]?.share ?? 1) * width - CELL_GAP, {
        tag: { role: isHead ? 'TH' : 'TD', within },
        face: isHead ? 'bold' : 'sans',
      }),
    );
    const height = Math.max(...set.map((one) => one.height));
    const y = -height - 0.8;
    const below = ruled(isHead ? 'head' : 'rule', { x: 0, y }, { x: width, y });
    return {
      height: height + 2,
      parts: [...set.flatMap((one, i) => movedParts(one.parts, lefts[i] ?? 0, 0)), { items: [below] }],
    };
  };
  const head = row(
    columns.map(({ title }) => title),
    true,
  );
  return [{ ...head, keep: true }, ...rows.map((cells) => row(cells, false))];
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
    const room = Math.max(figure.least ?? 0, figure.room * factor);
    const { items, height, scale } = fittedFigure(figure, own, room);
    const title = figure.scaled ? `${figure.title} (${scaleWords(scale)})` : figure.title;
    const head = paragraph(title, LETTERS.figure, own, { tag: { role: 'P' }, face: 'bold' });
    const tag: Tag = { role: 'Figure', words: figure.words };
    const placed: readonly PagePart[] = [
      ...movedParts(head.parts, left, 0),
      { items: movedItems(items, left + own / 2, -head.height - 2), tag },
    ];
    left += figure.share * width + FIGURE_GAP / 2 / figures.length;
    return { height: head.height + 2 + height, parts: placed };
  });
  return [{ height: Math.max(...set.map((one) => one.height)), parts: set.flatMap((one) => one.parts) }];
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

// Forms

const FIELD_HEIGHT = 6;
const FIELDS_IN_ROW = 5;

function formPieces({ fields }: Form, width: number, letters: number): readonly Piece[] {
  const own = width / FIELDS_IN_ROW;
  const rows = Array.from({ length: Math.ceil(fields.length / FIELDS_IN_ROW) }, (_, i) =>
    fields.slice(i * FIELDS_IN_ROW, (i + 1) * FIELDS_IN_ROW),
  );
  return rows.map((row) => {
    const labels = row.map(({ label }) => paragraph(label, letters, own - CELL_GAP, { tag: { role: 'P' } }));
    const top = Math.max(...labels.map((one) => one.height)) + 0.6;
    const field = (i: number): Item => ({
      kind: 'closed',
      layer: 'REF',
      style: 'field',
      outline: rectangle(i * own, -top - FIELD_HEIGHT, (i + 1) * own - CELL_GAP, -top),
    });
    return {
      height: top + FIELD_HEIGHT + 2,
      parts: labels.flatMap((one, i): readonly PagePart[] => [
        ...movedParts(one.parts, i * own, 0),
        { items: [field(i)] },
      ]),
    };
  });
}
