import { lineLength } from '../drawing/lettering/typeface.js';
import type { Item } from '../drawing/model.js';
import { circle, rectangle } from '../geometry/outline.js';
import type { PieceKind } from '../input/types.js';
import { wordsOf } from '../joints/boards.js';
import { FIRST_LETTERS, type Letters } from '../set-up/ends.js';
import type { Figure, Table } from './document.js';
import type { SheetInput } from './input.js';
import { lettering, outlined, ruled } from './items.js';
import { listed } from './names.js';
import { faceWords, type Stand, standsOf } from './stands.js';

/** Which face and which edge go where, at every corner; by hand, which pattern is glued to which end. */
export function cornerTable(input: SheetInput): Table {
  const groups = alikeOf(standsOf(input));
  const { solved } = input;
  const isByHand = input.solved.cuts.length === 0;
  const places = groups.map((group) => [
    `${wordsOf(solved, group[0]?.board ?? '').name} ${lettersOf(group)}`,
    group[0]?.end ?? '',
    cornersOfGroup(group, input),
  ]);
  if (isByHand) {
    return {
      kind: 'table',
      columns: [
        { title: 'Board', share: 0.28 },
        { title: 'End', share: 0.16 },
        { title: 'Corner', share: 0.28 },
        { title: 'Pattern', share: 0.28 },
      ],
      rows: groups.map((group, i) => [...(places[i] ?? []), `pattern-${group[0]?.board}`]),
    };
  }
  return {
    kind: 'table',
    columns: [
      { title: 'Board', share: 0.19 },
      { title: 'End', share: 0.09 },
      { title: 'Corner', share: 0.14 },
      { title: 'Face', share: 0.23 },
      { title: 'Reference edge', share: 0.15 },
      { title: 'Template', share: 0.2 },
    ],
    rows: groups.flatMap((group, i) => {
      const [one] = group;
      return one ? [[...(places[i] ?? []), faceWords(one), `${one.stop} stop`, plateWords(one)]] : [];
    }),
  };
}

/** `tails`, `both, turned`: the template as a table names it. */
function plateWords({ template = '', halfTurned }: Stand): string {
  return `${template.replace('finger-template-', '')}${halfTurned ? ', turned' : ''}`;
}

/** Stands that differ in letter and corner alone, in the order of the first of each. */
export function alikeOf(stands: readonly Stand[]): readonly (readonly Stand[])[] {
  const key = ({ board, end, face, stop, template, halfTurned }: Stand) =>
    [board, end, face, stop, template, halfTurned].join();
  const keys = [...new Set(stands.map(key))];
  const order = [...new Set(stands.map(({ board }) => board))];
  return keys
    .map((one) => stands.filter((stand) => key(stand) === one))
    .toSorted((a, b) => placeIn(order, a) - placeIn(order, b));
}

const placeIn = (order: readonly string[], group: readonly Stand[]): number =>
  2 * order.indexOf(group[0]?.board ?? '') + (group[0]?.end === 'left' ? 0 : 1);

export function lettersOf(stands: readonly Stand[]): string {
  return [...new Set(stands.map(({ letter }) => letter))].toSorted(inAlphabet).join(', ');
}

/** Z comes before AA. */
const inAlphabet = (one: string, other: string): number =>
  one.length - other.length || (one < other ? -1 : 1);

/** `2 and 4`; where pieces differ in the corners that have this joint, each with its piece. */
function cornersOfGroup(group: readonly Stand[], { pieces }: SheetInput): string {
  const numbers = [...new Set(group.map(({ corner }) => corner))].toSorted();
  return listed(
    numbers.map((corner) => {
      const at = group.filter((one) => one.corner === corner);
      const named = new Set(at.flatMap(({ of }) => of ?? []));
      return named.size === pieces.length ? `${corner}` : `${corner} (${[...named].join(', ')})`;
    }),
  );
}

/** Size of the piece seen from above, the boards' thickness in it, and of the single board under it, mm on paper. */
const [ACROSS, DEEP, THICK] = [46, 19, 5];
const BOARD = { width: 42, height: 10 } as const;
const LETTERS = 2.6;

/**
 * A piece with its letters and corner numbers, and under it a board with its left and right end. A case is seen
 * from in front, its reference edges toward you; any other piece from above, its reference edges below: the hand
 * of a case's corners is so the other one.
 */
export function cornerFigure(
  kind: PieceKind,
  stands: readonly Stand[],
  letters: readonly Letters[],
): Omit<Figure, 'share' | 'room'> {
  const isCase = kind === 'case';
  const [first = FIRST_LETTERS, ...others] = letters;
  const { front, right, back, left } = first;
  const more =
    others.length > 0 ? ` Then ${others.map((one) => Object.values(one).join(' ')).join(', ')}.` : '';
  const words = isCase
    ? `Seen from in front: ${front} top, ${right} right, ${back} bottom, ${left} left; corners 1 to 4 clockwise from the top left.${more} Front edges are reference edges.`
    : `Seen from above: ${front} front, ${right} right, ${back} back, ${left} left; corners 1 to 4 counter-clockwise from the front left.${more} Lower edges are reference edges.`;
  return {
    title: `Marks, ${isCase ? 'seen from in front' : 'seen from above'}`,
    words: `${words} Left and right end of a board: its outside face toward you, its reference edge down. Every end is marked with letter and corner; marks on the outside face have a ring, and a V points to the reference edge.`,
    scaled: false,
    draw: () => [...pieceItems(isCase, stands, first), ...boardItems(stands)],
  };
}

function pieceItems(isCase: boolean, stands: readonly Stand[], letters: Letters): readonly Item[] {
  const [w, d, t] = [ACROSS, DEEP, THICK];
  // A is below in a view from above, and on top of a case.
  const from = (y: number) => (isCase ? d - y : y);
  const board = (x0: number, y0: number, x1: number, y1: number): Item =>
    outlined('board', rectangle(x0, Math.min(from(y0), from(y1)), x1, Math.max(from(y0), from(y1))));
  const middle = (words: string, x: number, y: number, size = LETTERS) =>
    lettering(words, { x, y: y - size / 2 }, size, 'middle');
  const places: readonly (readonly [number, number, 'start' | 'end'])[] = [
    [-2, from(t / 2), 'end'],
    [w + 2, from(t / 2), 'start'],
    [w + 2, from(d - t / 2), 'start'],
    [-2, from(d - t / 2), 'end'],
  ];
  const numbers = [...new Set(stands.map(({ corner }) => corner))];
  return [
    board(0, 0, t, d),
    board(w - t, 0, w, d),
    board(t, 0, w - t, t),
    board(t, d - t, w - t, d),
    middle(letters.front, w / 2, from(t / 2)),
    middle(letters.right, w - t / 2, d / 2),
    middle(letters.back, w / 2, from(d - t / 2)),
    middle(letters.left, t / 2, d / 2),
    middle('reference edges', w / 2, d / 2 + 2, 2.4),
    middle(isCase ? 'toward you' : 'all below', w / 2, d / 2 - 2, 2.4),
    ...numbers.map((corner) => {
      const [x, y, align] = places[corner - 1] ?? [0, 0, 'start'];
      return lettering(`${corner}`, { x, y: y - LETTERS / 2 }, LETTERS, align);
    }),
    middle(isCase ? 'bottom' : 'front', w / 2, -2.8, 2.4),
  ];
}

/** The marks of one board, as an example: both ends of the first that has two. */
function marked(stands: readonly Stand[]): readonly { readonly end: Stand['end']; readonly mark: string }[] {
  const letters = [...new Set(stands.map(({ letter }) => letter))];
  const ends = (letter: string) =>
    stands.filter(
      (one, i) =>
        one.letter === letter && stands.findIndex((s) => s.letter === letter && s.end === one.end) === i,
    );
  const letter = letters.find((one) => ends(one).length === 2) ?? letters[0];
  return letter === undefined
    ? []
    : ends(letter).map(({ end, corner }) => ({ end, mark: `${letter}${corner}` }));
}

/** One board on its outside face, its reference edge down and marked with a V. */
function boardItems(stands: readonly Stand[]): readonly Item[] {
  const { width, height } = BOARD;
  const [x0, x1] = [(ACROSS - width) / 2, (ACROSS + width) / 2];
  const top = -6.5;
  const low = top - height;
  const middle = (words: string, y: number) => lettering(words, { x: ACROSS / 2, y }, 2.4, 'middle');
  return [
    outlined('board', rectangle(x0, low, x1, top)),
    middle('outside face', low + height / 2 + 0.4),
    ruled('mark', { x: ACROSS / 2 - 1.4, y: low + 2.6 }, { x: ACROSS / 2, y: low + 0.2 }),
    ruled('mark', { x: ACROSS / 2 + 1.4, y: low + 2.6 }, { x: ACROSS / 2, y: low + 0.2 }),
    ...marked(stands).flatMap(({ end, mark }) => {
      const at = { x: end === 'left' ? x0 + 5.5 : x1 - 5.5, y: (low + top) / 2 };
      return [
        lettering(mark, { x: at.x, y: at.y - LETTERS / 2 }, LETTERS, 'middle', 'bold'),
        {
          kind: 'closed',
          layer: 'REF',
          style: 'mark',
          outline: circle(at, Math.hypot(lineLength(mark, LETTERS, 'bold'), LETTERS) / 2 + 0.9),
        } as const,
      ];
    }),
    lettering('left', { x: x0 - 1.5, y: low + height / 2 + 0.6 }, 2.4, 'end'),
    lettering('end', { x: x0 - 1.5, y: low + height / 2 - 3.2 }, 2.4, 'end'),
    lettering('right', { x: x1 + 1.5, y: low + height / 2 + 0.6 }, 2.4),
    lettering('end', { x: x1 + 1.5, y: low + height / 2 - 3.2 }, 2.4),
    middle('reference edge', low - 3.6),
  ];
}
