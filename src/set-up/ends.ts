import type { Piece } from '../input/types.js';
import type { SolvedJoint } from '../joints/family.js';

/** The boards of every piece, lettered, and the ends of them that have a joint. */

export type End = 'left' | 'right';
export type Corner = 1 | 2 | 3 | 4;

/** Of a case: top, right, bottom and left. */
export type Place = 'front' | 'right' | 'back' | 'left';

/** One end of one board of a piece. */
export interface PieceEnd {
  /** The letter on the board's outside face; no other board of the job has it: A to Z, then AA. */
  readonly piece: string;
  /** The drawer, box or case that it belongs to, by its name in the job; absent where the joint stands alone. */
  readonly of?: string;
  /** Which one of that name it is, from 1. */
  readonly copy: number;
  readonly place: Place;
  /** `tails`, `pins`, `one` or `two`. */
  readonly board: string;
  /** As seen on the outside face with the reference edge down. */
  readonly end: End;
  /** Seen from above with the reference edges down: 1 front left, 2 front right, 3 back right, 4 back left. */
  readonly corner: Corner;
}

/** One drawer, box or case with the letters of its boards. */
export interface LetteredPiece {
  readonly piece: Piece;
  readonly copy: number;
  readonly letters: Letters;
}

export type Letters = Readonly<Record<Place, string>>;

const PLACES: readonly Place[] = ['front', 'right', 'back', 'left'];

/** Every copy of every piece of a job in its order: A to D are the first one's front, right, back and left. */
export function letteredPieces(pieces: readonly Piece[]): readonly LetteredPiece[] {
  return pieces
    .flatMap((piece) => Array.from({ length: piece.count }, (_, i) => ({ piece, copy: i + 1 })))
    .map((one, i) => ({ ...one, letters: lettersFrom(PLACES.length * i) }));
}

/** Those of the first piece, or of a joint that stands alone. */
export const FIRST_LETTERS: Letters = { front: 'A', right: 'B', back: 'C', left: 'D' };

function lettersFrom(first: number): Letters {
  const at = (place: Place) => letterOf(first + PLACES.indexOf(place));
  return { front: at('front'), right: at('right'), back: at('back'), left: at('left') };
}

/** 0 is A, 25 Z, 26 AA. */
export function letterOf(index: number): string {
  const last = String.fromCharCode('A'.charCodeAt(0) + (index % LETTERS));
  return index < LETTERS ? last : `${letterOf(Math.floor(index / LETTERS) - 1)}${last}`;
}

const LETTERS = 26;

/**
 * Where the ends meet: the first board of a joint is at the sides of a piece, the second at its front and back. Left and
 * right are those of the outside face with the reference edge down, so the left ends of front, right, back and left are at
 * corners 1 to 4.
 */
const MEETINGS: Readonly<Record<Corner, readonly [first: Meeting, second: Meeting]>> = {
  1: [
    { place: 'left', end: 'right' },
    { place: 'front', end: 'left' },
  ],
  2: [
    { place: 'right', end: 'left' },
    { place: 'front', end: 'right' },
  ],
  3: [
    { place: 'right', end: 'right' },
    { place: 'back', end: 'left' },
  ],
  4: [
    { place: 'left', end: 'left' },
    { place: 'back', end: 'right' },
  ],
};

type Meeting = Pick<PieceEnd, 'place' | 'end'>;

const FRONT: readonly Corner[] = [1, 2];
const BACK: readonly Corner[] = [3, 4];

/**
 * Every end that a joint is at, by piece and corner; of a joint that stands alone, those that its family names. None where
 * it makes no corner. `pieces` are all of the job.
 */
export function endsOf(solved: SolvedJoint, pieces: readonly Piece[]): readonly PieceEnd[] {
  const { setUp } = solved;
  if (setUp.at !== 'corners') return [];
  const having = letteredPieces(pieces).flatMap((one) => {
    const corners = cornersOf(one.piece, solved.name);
    return corners.length > 0 ? [{ ...one, of: one.piece.name, corners }] : [];
  });
  const alone = {
    copy: 1,
    letters: FIRST_LETTERS,
    corners: setUp.corners === 'all' ? [...FRONT, ...BACK] : FRONT,
  };
  const boards = solved.boards.slice(0, 2).map(({ board }) => board);
  const all: readonly (typeof alone & { readonly of?: string })[] = having.length > 0 ? having : [alone];
  return all.flatMap(({ of, copy, letters, corners }) =>
    corners.flatMap((corner) =>
      boards.map((board, i): PieceEnd => {
        const { place, end } = MEETINGS[corner][i === 0 ? 0 : 1];
        return { piece: letters[place], ...(of !== undefined && { of }), copy, place, board, end, corner };
      }),
    ),
  );
}

/** The corners of a piece that a joint is at. A drawer whose back has no joint of its own has it between the sides. */
function cornersOf(piece: Piece, joint: string): readonly Corner[] {
  const back = piece.back ?? (piece.kind === 'drawer' ? undefined : piece.corners);
  return [...(piece.corners === joint ? FRONT : []), ...(back === joint ? BACK : [])];
}

/** The corner that a joint is tried at: the front right one, or the first that has the joint. */
export function trialCorner(ends: readonly { readonly corner?: Corner }[]): Corner | undefined {
  const corners = ends.flatMap(({ corner }) => corner ?? []).toSorted((one, other) => one - other);
  return corners.find((corner) => corner === 2) ?? corners[0];
}
