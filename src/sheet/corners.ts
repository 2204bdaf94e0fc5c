import type { Item } from '../drawing/model.js';
import { rectangle } from '../geometry/outline.js';
import type { PieceKind } from '../job/types.js';
import type { Figure, Table } from './document.js';
import type { SheetInput } from './input.js';
import { lettering, stroke } from './items.js';
import { boardName } from './names.js';
import { sideOf } from './sides.js';

/**
 * Which face and which edge go where, at every corner. Boards are lettered on their outside faces, seen from
 * above with the front toward you: A front, B right, C back, D left; corners are numbered 1 front left, 2 front
 * right, 3 back right, 4 back left. Left and right end of a board are those seen on its outside face with the
 * reference edge down, so the left end of A, B, C, D is at corner 1, 2, 3, 4.
 *
 * A board that shows its outside face to the operator, left end up, has its reference edge at the left stop;
 * with its right end up, or its inside face shown, at the right one. Turned both ways, left again. Derivation:
 * an outside face with the reference edge down, turned clockwise by a quarter, has its left end up and its
 * reference edge at the left.
 */
export function cornerTable(input: SheetInput): Table {
  return {
    kind: 'table',
    columns: [
      { title: 'Board', share: 0.19 },
      { title: 'End', share: 0.09 },
      { title: 'Corner', share: 0.11 },
      { title: 'Face', share: 0.24 },
      { title: 'Reference edge', share: 0.15 },
      { title: 'Template', share: 0.22 },
    ],
    rows: standsOf(input).map(({ board, letters, end, corners, face, stop, template }) => [
      `${boardName(board)} ${letters}`,
      end,
      corners,
      face,
      `${stop} stop`,
      template.replace('finger-template-', ''),
    ]),
  };
}

/** How one end of a kind of board is held. */
export interface Stand {
  readonly board: string;
  readonly letters: string;
  readonly end: 'left' | 'right';
  readonly corners: string;
  readonly face: string;
  readonly stop: 'left' | 'right';
  readonly template: string;
}

export function standsOf(input: SheetInput): readonly Stand[] {
  const [first = '', second = ''] = input.solved.markings.map(({ board }) => board);
  const frontOnly = isFrontOnly(input);
  const corner = (board: string, end: 'left' | 'right') => {
    if (board === second) return end === 'left' ? ['A', 1, 'C', 3] : ['A', 2, 'C', 4];
    return end === 'left' ? ['B', 2, 'D', 4] : ['D', 1, 'B', 3];
  };
  return [first, second].flatMap((board) =>
    (['left', 'right'] as const).map((end): Stand => {
      const [one, at, other, far] = corner(board, end);
      return {
        board,
        letters: frontOnly ? `${one}` : `${[one, other].toSorted().join(', ')}`,
        end,
        corners: frontOnly ? `${at}` : `${at} and ${far}`,
        ...holdOf(input, board, end),
      };
    }),
  );
}

/** A half-blind joint hides behind the front of a drawer; its back has another joint. */
export function isFrontOnly({ joint, pieces }: SheetInput): boolean {
  if (pieces.length > 0)
    return pieces.every(({ piece }) => piece.back !== piece.corners && piece.kind === 'drawer');
  return joint.kind === 'half-blind-dovetail';
}

function holdOf(
  { joint, solved, templates }: SheetInput,
  board: string,
  end: 'left' | 'right',
): Pick<Stand, 'face' | 'stop' | 'template'> {
  const isFront = joint.kind === 'half-blind-dovetail' && board === 'pins';
  const isInside = joint.kind === 'half-blind-dovetail';
  // A flat front lies inside face up with its end toward the operator, so left and right change once more.
  const stop = isFront ? end : isInside ? (end === 'left' ? 'right' : 'left') : end;
  const face = isFront ? 'inside face up' : isInside ? 'inside face toward you' : 'outside face toward you';
  const cut = solved.cuts.find((one) => one.stock.some((stock) => stock.board === board));
  const name = cut ? (sideOf(templates, cut)?.plate.name ?? '') : 'marked from the pattern';
  if (!cut || stop === 'left' || solved.symmetric) return { face, stop, template: name };
  if (cut.mirroredForSecondEnd) return { face, stop, template: `${name}-mirrored` };
  // Straight through and not its own mirror image: turned face about, the reference edge is at the left again.
  return { face: 'inside face toward you', stop: 'left', template: name };
}

/** A piece from above with its letters and corner numbers. */
export function cornerFigure(kind: PieceKind, frontOnly: boolean): Omit<Figure, 'share' | 'room'> {
  const above = kind === 'case' ? 'from in front' : 'from above';
  return {
    title: `Letters and corners, ${above}`,
    words:
      'A is at the front, B right, C at the back, D left; corners 1 to 4 from the front left, counter-clockwise.',
    scaled: false,
    draw: () => {
      const [w, d, t] = [50, 27, 6];
      const board = (x0: number, y0: number, x1: number, y1: number): Item => ({
        kind: 'closed',
        layer: 'STOCK',
        outline: rectangle(x0, y0, x1, y1),
      });
      const letter = (words: string, x: number, y: number) =>
        lettering(words, { x, y: y - 1.4 }, 2.8, 'middle');
      const number = (words: string, x: number, y: number, align: 'start' | 'end') =>
        lettering(words, { x, y }, 2.8, align);
      const corners = frontOnly ? ['1', '2'] : ['1', '2', '3', '4'];
      const places: readonly (readonly [number, number, 'start' | 'end'])[] = [
        [-2, 1, 'end'],
        [w + 2, 1, 'start'],
        [w + 2, d - 3, 'start'],
        [-2, d - 3, 'end'],
      ];
      return [
        board(0, 0, t, d),
        board(w - t, 0, w, d),
        board(t, 0, w - t, t),
        board(t, d - t, w - t, d),
        letter('A', w / 2, t / 2),
        letter('B', w - t / 2, d / 2),
        letter('C', w / 2, d - t / 2),
        letter('D', t / 2, d / 2),
        lettering('reference edges:', { x: w / 2, y: d / 2 + 0.9 }, 2.4, 'middle'),
        lettering(
          kind === 'case' ? 'all in front' : 'all below',
          { x: w / 2, y: d / 2 - 3.6 },
          2.4,
          'middle',
        ),
        ...corners.map((words, i) => {
          const [x, y, align] = places[i] ?? [0, 0, 'start'];
          return number(words, x, y, align);
        }),
        stroke('REF', { x: w / 2, y: -8 }, { x: w / 2, y: -1.5 }),
        lettering(kind === 'case' ? 'bottom' : 'front', { x: w / 2 + 2, y: -7 }, 2.4),
      ];
    },
  };
}
