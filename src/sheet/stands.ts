import { extents } from '../geometry/outline.js';
import { boardOf } from '../joints/boards.js';
import type { Hold } from '../joints/contract.js';
import type { Cut } from '../joints/family.js';
import { ON_END } from '../joints/search/holds.js';
import type { Corner, End, PieceEnd } from '../set-up/ends.js';
import type { Stand as HeldEnd } from '../set-up/stands.js';
import type { SheetInput } from './input.js';

/** One end of one board as the sheet speaks of it: its stand, or its two stands under a plate that cuts it twice. */
export interface Stand extends Hold {
  /** `tails`, `pins`, `one` or `two`. */
  readonly board: string;
  /** Written on the outside face. */
  readonly letter: string;
  readonly end: End;
  readonly corner: Corner;
  /** The piece that it belongs to; absent where the job gives none. */
  readonly of?: string;
  /** Where the reference edge is. */
  readonly stop: End;
  /** Absent where the joint is cut by hand. */
  readonly template?: string;
  /** true when the plate is turned by half a turn, so that its far edge faces the operator. */
  readonly halfTurned: boolean;
  /** Set where a plate that carries every second slot cuts the board twice. */
  readonly twice?: TwoCuts;
}

/** A stop that stays, and a spacer before it for one of two cuts. */
export interface TwoCuts {
  /** Which of the two marks of this side the stop stays on: the one that is farther from the board. */
  readonly stopAt: 1 | 2;
  /** mm; between stop and board. */
  readonly spacer: number;
  /** The cut that the spacer is in place for. */
  readonly spacerFor: 1 | 2;
  /** true when an opening, marked with a cross, is left out at the second cut. */
  readonly leaveOut: boolean;
}

/** The stand of every end of both boards, by corner. */
export function standsOf({ ends, setUp: { stands }, solved }: SheetInput): readonly Stand[] {
  return ends.map((end): Stand => {
    const { piece: letter, board, corner, of } = end;
    const about = { board, letter, end: end.end, corner, ...(of !== undefined && { of }) };
    const [first, second] = stands.filter((stand) => isOf(stand, end));
    if (!first) {
      return { ...(boardOf(solved, board)?.hold ?? ON_END), ...about, stop: end.end, halfTurned: false };
    }
    return { ...about, ...holdOf(first), ...(second && { twice: twice(first, second) }) };
  });
}

const isOf = (stand: HeldEnd, { piece, end }: PieceEnd): boolean =>
  stand.piece === piece && stand.end === end;

function holdOf({ posture, faceToOperator, referenceEdge, template, placed }: HeldEnd) {
  return {
    posture,
    face: faceToOperator,
    shows: posture === 'flat' ? 'up' : 'toward you',
    stop: referenceEdge === 'left-stop' ? 'left' : 'right',
    template,
    halfTurned: placed !== undefined,
  } as const;
}

function twice(first: HeldEnd, second: HeldEnd): TwoCuts {
  return {
    stopAt: first.everySecond?.mark ?? 1,
    spacer: first.along + second.along,
    spacerFor: first.along > 0 ? 1 : 2,
    leaveOut: second.everySecond?.leaveOut !== undefined,
  };
}

/** `outside face toward you`, `inside face up`. */
export function faceWords({ face, shows }: Pick<Hold, 'face' | 'shows'>): string {
  return `${face} face ${shows}`;
}

/** How far the first board under a template stands to the right of the second one, mm; 0 where there is one board. */
export function standsApart({ stock }: Cut): number {
  const [one, other] = stock.map(({ outline }) => extents(outline).minX);
  return (one ?? 0) - (other ?? one ?? 0);
}
