import type { Item } from '../drawing/model.js';
import type { PagePart, Tag } from '../drawing/page.js';
import { rectangle } from '../geometry/outline.js';
import { hung } from './card-figure.js';
import { type Bench, type Card, type Setting, trialWords } from './document.js';
import { ruled } from './items.js';
import { headingTag, movedParts, type Piece, padded, paragraph } from './page-pieces.js';

/** The first page of a sheet: the numbers that are set, and a card for each cut, as large as the page lets them be. */

/** Capital heights, mm: what is set is read from where the router stands. */
const LETTERS = {
  label: 2.2,
  number: 4.6,
  long: 3.4,
  detail: 2.3,
  title: 4.2,
  line: 2.9,
  narrow: 2.55,
} as const;

/** Cards side by side: as few as let all of them stand on the page. */
const COLUMNS = [1, 2, 3, 4] as const;

/** Heights of cards, by how many are in a row: that which suits the width, and more than which none needs, mm. */
const SPACIOUS = { 1: 96, 2: 64, 3: 62, 4: 62 } as const;
const MOST = { 1: 112, 2: 92, 3: 80, 4: 80 } as const;

/** A card that is narrower, or lower than this and its lines, has no room for its picture, mm. */
const NARROWEST = 42;
const LEAST = 50;

const GAP = 4;
const BOX = 4.4;

export function benchPieces(bench: Bench, width: number, room: number): readonly Piece[] {
  const bands = bench.settings.map((one) => band(one, width));
  const trial = bench.trial.length > 0 ? trialPiece(bench, width) : { height: 0, parts: [] };
  const left = room - trial.height - bands.reduce((sum, one) => sum + one.height, 0);
  const rowsIn = (columns: number): number =>
    bench.settings.reduce((sum, { cards }) => sum + Math.ceil(cards.length / columns), 0);
  const heightIn = (columns: number): number => left / rowsIn(columns) - GAP;
  const most = COLUMNS.findLast((one) => (width + GAP) / one - GAP >= NARROWEST) ?? 1;
  const roomy = COLUMNS.filter((one) => one <= most && heightIn(one) >= SPACIOUS[one]);
  // Rows without a gap look better than larger cards.
  const isFull = (one: number) => bench.settings.every(({ cards }) => cards.length % one === 0);
  const columns = roomy.find(isFull) ?? roomy[0] ?? most;
  const own = (width - (columns - 1) * GAP) / columns;
  const lines = Math.max(
    0,
    ...bench.settings.flatMap(({ cards }) => cards.map((one) => linesHeight(one, own))),
  );
  const high = Math.max(LEAST + lines, Math.min(MOST[columns], heightIn(columns)));
  return [
    trial,
    ...bench.settings.flatMap((setting, i): readonly Piece[] => [
      { ...(bands[i] ?? band(setting, width)), keep: true },
      ...rowsOf(setting.cards, columns).map((row) => cardRow(row, columns, width, high)),
      ...checklist(setting.cuts ?? [], width),
    ]),
  ];
}

const rowsOf = (cards: readonly Card[], columns: number): readonly (readonly Card[])[] =>
  Array.from({ length: Math.ceil(cards.length / columns) }, (_, i) =>
    cards.slice(i * columns, (i + 1) * columns),
  );

/** The trial joint, by the cards that it is cut by. */
function trialPiece({ trial }: Bench, width: number): Piece {
  const text = paragraph(trialWords(trial), 3, width, {
    indent: BOX + 2.5,
    tag: { role: 'P' },
    face: 'bold',
  });
  return padded({ ...text, parts: [...text.parts, { items: [tickBox(0, 0.9, BOX)] }] }, 3.5);
}

const tickBox = (x: number, top: number, size: number): Item => ({
  kind: 'closed',
  layer: 'REF',
  style: 'edge',
  outline: rectangle(x, top - size, x + size, top),
});

/** What is set, in large letters between two rules. */
function band({ numbers }: Setting, width: number): Piece {
  const share = [0.23, 0.23, 0.17, 0.17, 0.2];
  const set = numbers.map(({ label, value, detail = '' }, i) => {
    const own = (share[i] ?? 0.2) * width - 3;
    const tag: Tag = { role: 'P' };
    const size = value.length > 10 ? LETTERS.long : LETTERS.number;
    return {
      head: paragraph(label, LETTERS.label, own, { tag }),
      number: paragraph(value, size, own, { tag, face: 'bold' }),
      below: paragraph(detail, LETTERS.detail, own, { tag }),
    };
  });
  const most = (pick: (one: (typeof set)[number]) => Piece): number =>
    Math.max(...set.map((one) => pick(one).height));
  const [top, under] = [most(({ head }) => head) + 0.8, most(({ number }) => number) + 0.9];
  const height = top + under + most(({ below }) => below);
  const parts = set.flatMap(({ head, number, below }, i): readonly PagePart[] => {
    const left = share.slice(0, i).reduce((sum, one) => sum + one * width, 0);
    return [
      ...movedParts(head.parts, left, 0),
      // All stand on one line, large and small.
      ...movedParts(number.parts, left, number.height - top - under + 0.9),
      ...movedParts(below.parts, left, -top - under),
    ];
  });
  const rule = (y: number): Item => ruled('mark', { x: 0, y }, { x: width, y });
  return {
    height: height + 5.2,
    parts: [{ items: [rule(0)] }, ...movedParts(parts, 0, -1.8), { items: [rule(-height - 2.4)] }],
  };
}

/** What is cut, two in a row, each with its box. */
function checklist(cuts: readonly string[], width: number): readonly Piece[] {
  const own = width / 2;
  const rows = Array.from({ length: Math.ceil(cuts.length / 2) }, (_, i) => cuts.slice(2 * i, 2 * i + 2));
  return rows.map((row, i) => {
    const set = row.map((words) => paragraph(words, 3, own - 4, { indent: BOX + 2.5, tag: { role: 'P' } }));
    return {
      height: Math.max(BOX, ...set.map((one) => one.height)) + (i < rows.length - 1 ? 2.4 : 7),
      parts: set.flatMap((one, k): readonly PagePart[] => [
        { items: [tickBox(k * own, 0.7, BOX)] },
        ...movedParts(one.parts, k * own, 0),
      ]),
    };
  });
}

function cardRow(cards: readonly Card[], columns: number, width: number, height: number): Piece {
  const own = (width - (columns - 1) * GAP) / columns;
  return {
    height: height + GAP,
    parts: cards.flatMap((card, i) => movedParts(cardParts(card, own, height), i * (own + GAP), 0)),
  };
}

const INSET = 2.2;

/** Boxes beyond these are said in a number. */
const MAX_BOXES = 4;

/** What is said under a picture, smaller where a card is narrow. */
const linesOf = ({ lines }: Card, inner: number): readonly Piece[] =>
  lines.map((words) =>
    paragraph(words, inner < 48 ? LETTERS.narrow : LETTERS.line, inner, { tag: { role: 'P' } }),
  );

const linesHeight = (card: Card, width: number): number =>
  linesOf(card, width - 2 * INSET).reduce((sum, one) => sum + one.height + 0.8, 0);

function cardParts(card: Card, width: number, height: number): readonly PagePart[] {
  const inner = width - 2 * INSET;
  const boxes = card.ticks > MAX_BOXES ? 1 : card.ticks;
  const boxesWide = boxes * (BOX + 1.4) + (card.ticks > MAX_BOXES ? 8 : 0);
  const number = paragraph(`${card.number}`, LETTERS.title, 8, { face: 'bold', tag: { role: 'P' } });
  const numberWide = card.number > 9 ? 9 : 6;
  const title = paragraph(card.title, LETTERS.title, inner - numberWide - boxesWide, {
    face: 'bold',
    tag: headingTag('H3', `${card.number}: ${card.title}`),
  });
  const place = paragraph(card.place, LETTERS.line, inner - numberWide, { tag: { role: 'P' } });
  const top = title.height + (card.place === '' ? 0 : place.height + 0.6);
  const lines = linesOf(card, inner);
  const low = linesHeight(card, width);
  const room = { width: inner, height: height - 2 * INSET - top - low - 4 };
  const { items, box } = hung(card.picture.draw(room.width, Math.max(20, room.height)));
  const pictureTop = -INSET - top - 2 - Math.max(0, (room.height - (box.maxY - box.minY)) / 2);
  const pictureLeft = INSET + (inner - (box.maxX - box.minX)) / 2;
  let y = -height + INSET + low;
  const below = lines.flatMap((one) => {
    const set = movedParts(one.parts, INSET, y);
    y -= one.height + 0.8;
    return set;
  });
  const ticks = Array.from({ length: boxes }, (_, i) =>
    tickBox(width - INSET - boxesWide + i * (BOX + 1.4) + 1.4, -INSET + 0.3, BOX),
  );
  const many =
    card.ticks > MAX_BOXES
      ? movedParts(paragraph(`× ${card.ticks}`, LETTERS.line, 9).parts, width - INSET - 7.5, -INSET - 0.8)
      : [];
  return [
    ...movedParts(number.parts, INSET, -INSET),
    ...movedParts(title.parts, INSET + numberWide, -INSET),
    ...(card.place === '' ? [] : movedParts(place.parts, INSET + numberWide, -INSET - title.height - 0.6)),
    ...many,
    {
      items: [
        ...ticks,
        { kind: 'closed', layer: 'REF', style: 'hidden', outline: rectangle(0, -height, width, 0) },
      ],
    },
    {
      items: movedParts([{ items }], pictureLeft, pictureTop)[0]?.items ?? [],
      tag: { role: 'Figure', words: card.picture.words },
    },
    ...below,
  ];
}
