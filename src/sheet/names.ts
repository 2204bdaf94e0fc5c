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
