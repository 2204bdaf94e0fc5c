import { boardOf } from './boards.js';
import type { SolvedJoint } from './family.js';

/** Against which stop each board of a corner has its reference edge. Corners as the set-up sheet numbers them, 1 to 4. */
export interface CornerStop {
  readonly board: string;
  /** The end that is cut, its outside face toward you and its reference edge down. */
  readonly end: 'left' | 'right';
  readonly stop: 'left' | 'right';
  /** Set where the plate's mirror image is laid on, or the plate turned over. */
  readonly mirrored: boolean;
}

/** The end of the first and of the second board at each corner, as on the sheet. */
const ENDS: Readonly<Record<number, readonly ['left' | 'right', 'left' | 'right']>> = {
  1: ['right', 'left'],
  2: ['left', 'right'],
  3: ['right', 'left'],
  4: ['left', 'right'],
};

/** Empty where the joint makes no corner, or has none of that number. */
export function cornerStops(solved: SolvedJoint, corner: number): readonly CornerStop[] {
  const ends = ENDS[corner];
  const [first, second] = solved.boards;
  if (solved.setUp.at !== 'corners' || !ends || !first || !second) return [];
  return [stopOf(solved, first.board, ends[0]), stopOf(solved, second.board, ends[1])];
}

/**
 * A board that shows its outside face to the operator, left end up, has its reference edge at the left stop; with its
 * right end up, or its inside face shown, at the right one. A board that lies flat has its end toward the operator: left
 * and right change once more. A board that is cut straight through and whose layout isn't its own mirror image is turned
 * around for its second end, so that its reference edge comes to the left stop again.
 */
function stopOf(solved: SolvedJoint, board: string, end: 'left' | 'right'): CornerStop {
  const hold = boardOf(solved, board)?.hold;
  const changes = hold !== undefined && (hold.face === 'inside') !== (hold.posture === 'flat');
  const stop = changes ? (end === 'left' ? 'right' : 'left') : end;
  const cut = solved.cuts.find(({ stock }) => stock.some((one) => one.board === board));
  if (stop === 'left' || solved.symmetric) return { board, end, stop, mirrored: false };
  if (cut?.mirroredForSecondEnd) return { board, end, stop, mirrored: true };
  return { board, end, stop: 'left', mirrored: false };
}
