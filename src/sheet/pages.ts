import type { ComposedPage, PagePart } from '../drawing/page.js';
import type { Block, SheetDocument } from './document.js';
import { DESCENT, inLines, lettering } from './items.js';
import { benchPieces } from './page-cards.js';
import {
  type Density,
  headingTag,
  LETTERS,
  movedParts,
  type Piece,
  padded,
  paragraph,
  piecesOf,
} from './page-pieces.js';

/** Setting a document on pages of paper. */

export interface PaperSpace {
  readonly width: number;
  readonly height: number;
  /** No ink nearer to the edge than this. */
  readonly margin: number;
}

/** Brackets and accents reach above capitals: room for those of a page's first line, mm. */
const ABOVE = 1.5;

/** Behind the page for the router a sheet is to be two pages more: figures shrink first, then tables a little, until it is. Steps never do. */
const DENSITIES: readonly Density[] = [
  { figures: 1, table: 2.4 },
  { figures: 0.87, table: 2.4 },
  { figures: 0.76, table: 2.3 },
  { figures: 0.67, table: 2.3 },
  { figures: 0.58, table: 2.2 },
  { figures: 0.52, table: 2.2 },
  { figures: 0.45, table: 2.1 },
  { figures: 0.4, table: 2.1 },
  { figures: 0.34, table: 2 },
];
const WANTED_PAGES = 3;

/** Sets a document on pages of one paper. What cannot be set on so many takes more; nothing is left out. */
export function layPages(document: SheetDocument, paper: PaperSpace): readonly ComposedPage[] {
  let best: readonly ComposedPage[] | undefined;
  for (const density of DENSITIES) {
    const pages = layAt(document, paper, density);
    if (!best || pages.length < best.length) best = pages;
    if (best.length <= WANTED_PAGES) break;
  }
  return best ?? [];
}

function layAt(document: SheetDocument, paper: PaperSpace, density: Density): readonly ComposedPage[] {
  const width = paper.width - 2 * paper.margin;
  const foot = (1 + DESCENT) * LETTERS.foot + 2;
  const room = paper.height - 2 * paper.margin - foot - ABOVE;
  const head = titlePieces(document, width);
  const first = room - head.reduce((sum, { height }) => sum + height, 0);
  const set = (block: Block): readonly Piece[] =>
    block.kind === 'bench' ? lastOnPage(benchPieces(block, width, first)) : piecesOf(block, width, density);
  const pieces = [...head, ...document.blocks.flatMap(set)];
  const pages: PagePart[][] = [[]];
  let used = 0;
  pieces.forEach((piece, i) => {
    const next = pieces[i + 1];
    const needed = piece.height + (piece.keep && next ? next.height : 0);
    if (used > 0 && (used + needed > room || pieces[i - 1]?.last)) {
      pages.push([]);
      used = 0;
    }
    const top = paper.height - paper.margin - ABOVE - used;
    pages.at(-1)?.push(...movedParts(piece.parts, paper.margin, top));
    used += piece.height;
  });
  return pages.map((parts, i) => ({
    width: paper.width,
    height: paper.height,
    parts: [...parts, footer(document, paper, i + 1, pages.length)],
  }));
}

/** What follows begins a page. */
const lastOnPage = (pieces: readonly Piece[]): readonly Piece[] =>
  pieces.map((piece, i) => (i === pieces.length - 1 ? { ...piece, last: true } : piece));

function footer(document: SheetDocument, paper: PaperSpace, page: number, of: number): PagePart {
  const y = paper.margin + DESCENT * LETTERS.foot;
  const room = paper.width - 2 * paper.margin - 40;
  const [title = ''] = inLines(document.title, LETTERS.foot, room, 'sans', 1);
  return {
    items: [
      lettering(title, { x: paper.margin, y }, LETTERS.foot),
      lettering(`page ${page} of ${of}`, { x: paper.width - paper.margin, y }, LETTERS.foot, 'end'),
    ],
  };
}

function titlePieces({ title, subtitle }: SheetDocument, width: number): readonly Piece[] {
  const head = paragraph(title, LETTERS.title, width, {
    tag: headingTag('H1', title),
    face: 'bold',
    most: 3,
  });
  return [
    { ...padded(head, 1.5), keep: true },
    padded(paragraph(subtitle, LETTERS.subtitle, width, { tag: { role: 'P' } }), 2.5),
  ];
}
