import type { Say } from '../findings/say.js';
import type { Bit } from '../job/types.js';

/** Plain words for boards and bits, as they stand in steps and tables. */

const names: Readonly<Record<string, string>> = {
  tails: 'tail board',
  pins: 'pin board',
  sockets: 'pin board',
  one: 'board one',
  two: 'board two',
  both: 'both boards',
};

/** `tail board` for `tails`; a board that has no name of its own keeps its key. */
export function boardName(board: string): string {
  return names[board] ?? board;
}

/** `the tail board`, but `board one` and `both boards`: as it stands in a sentence. */
export function theBoard(board: string): string {
  return isNamed(board) ? boardName(board) : `the ${boardName(board)}`;
}

/** `a tail board`, `a board two`: one of its kind. */
export function aBoard(board: string): string {
  return `a ${boardName(board)}`;
}

function isNamed(board: string): boolean {
  return board === 'one' || board === 'two' || board === 'both';
}

/** What a board is in a finished piece: the sides of a drawer carry its tails. */
export function roleOf(board: string): string {
  return board === 'tails' || board === 'one' ? 'side' : 'end';
}

/** `dovetail bit half-8 (1/2 in, 8°)`. */
export function bitWords(bit: Bit, say: Say): string {
  const angle = bit.kind === 'dovetail' ? `, ${say.angle(bit.angle)}` : '';
  return `${bit.kind} bit ${bit.name} (${say.length(bit.diameter)}${angle})`;
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
