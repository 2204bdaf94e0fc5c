import { boardName, boardsNamed, theBoard } from '../diagnostics/board-names.js';
import type { BoardWords, JointBoard, Lip, Placement } from './contract.js';
import type { SolvedJoint } from './family.js';

/** What is asked of a solved joint's boards in more than one place. */

export function boardOf({ boards }: SolvedJoint, board: string): JointBoard | undefined {
  return boards.find((one) => one.board === board);
}

/** The family's words for a board, else the usual ones for its key; of a cut of both boards, those for both. */
export function wordsOf(solved: SolvedJoint, board: string): BoardWords {
  return (
    boardOf(solved, board)?.words ?? {
      name: boardName(board),
      the: theBoard(board),
      many: boardsNamed(board),
    }
  );
}

/** Whether a plate is laid on with its reference edge at the left stop for one end and at the right one for another. */
export function usesBothStops({ setUp }: SolvedJoint): boolean {
  return setUp.at === 'corners' || new Set(setUp.stands.map(({ stop }) => stop)).size > 1;
}

/** The rabbet of the joint's front, where it has one. */
export function lipOf({ boards }: SolvedJoint): Lip | undefined {
  return boards.find(({ lip }) => lip)?.lip;
}

/** Where the second board goes, of boards that lie flat and are moved onto one another. */
export function placementOf({ assembly }: SolvedJoint): Placement | undefined {
  return assembly?.way === 'placed' && !('uncut' in assembly.second) ? assembly.second : undefined;
}
