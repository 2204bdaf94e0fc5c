/** Plain words for the two boards of a joint, as they stand in sentences and tables. */

const names: Readonly<Record<string, string>> = {
  tails: 'tail board',
  pins: 'pin board',
  sockets: 'pin board',
  one: 'board one',
  two: 'board two',
  both: 'both boards',
  any: 'board',
};

/** `tail board` for `tails`; a board that has no name of its own keeps its key. */
export function boardName(board: string): string {
  return names[board] ?? board;
}

/** `the tail board`, but `board one` and `both boards`: as it stands in a sentence. */
export function theBoard(board: string): string {
  return isNamed(board) ? boardName(board) : `the ${boardName(board)}`;
}

/** `tail boards`, but `both boards`; `boards one`. */
export function boardsNamed(board: string): string {
  if (board === 'both') return boardName(board);
  return isNamed(board) ? `boards ${board}` : `${boardName(board)}s`;
}

function isNamed(board: string): boolean {
  return board === 'one' || board === 'two' || board === 'both';
}
