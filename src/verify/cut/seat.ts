import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Assembly } from '../../joints/contract.js';
import { type Polygons, runsAt, transposed } from './polygons.js';

/**
 * How the boards sit when the joint is driven home: whether ends and faces come flush, and whether a tail let
 * down into its socket reaches the bottom as its shoulder reaches the other board.
 */

/** The way in which two boards come together: see crossed.ts, sunk.ts and placed.ts. */
export type Way = Assembly['way'];

export interface Seat {
  /** How far each board's end, or the side's outside face, stands out of the other's when home: below 0 it stands back. */
  readonly proud: Readonly<Record<string, number>>;
  /** Of a joint with blind sockets: room under the tails' ends; below 0 the tails meet the bottom first and the shoulders stay open by it. */
  readonly underTails?: number;
}

/** What counts as flush, mm: the project's promise for a closed joint. */
const FLUSH = 0.005;

/** Ends that stand out by up to this are sanded flush, mm; more than that is a mistake in the depth. Common practice, no source. */
const TO_SAND = 1;

/** Boards that cross: each is cut to the other's thickness, or a little deeper. */
export function crossedSeat(
  first: { readonly board: string; readonly depth: number; readonly thickness: number },
  second: { readonly board: string; readonly depth: number; readonly thickness: number },
): Seat {
  return {
    proud: {
      [first.board]: first.depth - second.thickness,
      [second.board]: second.depth - first.thickness,
    },
  };
}

/** How far tails reach past their sockets' ends at one level, x to the right and y into the front: below 0 there is room. */
export function reachPastEnds(tails: Polygons, front: Polygons, wallAt: number): readonly number[] {
  const [tailsAcross, frontAcross] = [transposed(tails), transposed(front)];
  return runsAt(tails, wallAt).flatMap(([from, to]) => {
    const middle = (from + to) / 2;
    const tail = runsAt(tailsAcross, middle).find(([, end]) => end > wallAt);
    const wood = runsAt(frontAcross, middle).find(([, end]) => end > wallAt);
    return tail && wood ? [tail[1] - wood[0]] : [];
  });
}

/** What is to be said of ends and faces that are not flush, and of tails that do not fill their sockets. */
export function seatDiagnostics(
  { proud, underTails }: Seat,
  slack: number,
  at: string,
  way: Way,
): readonly Diagnostic[] {
  const sunk = way === 'sunk';
  const faces = Object.entries(proud).flatMap(([board, by]): readonly Diagnostic[] => {
    // A side may lie back in its sockets by its half of the slack.
    if (by < -FLUSH - (sunk ? slack / 2 : 0))
      return [diagnostic('face-shy', 'refused', at, { board, by: -by })];
    if (by <= FLUSH) return [];
    if (sunk) return [diagnostic('face-proud', 'refused', at, { board, by })];
    return [diagnostic('end-proud', by <= TO_SAND + FLUSH ? 'ok' : 'caution', at, { board, by })];
  });
  if (underTails === undefined || Math.abs(underTails) <= FLUSH) return faces;
  return [
    ...faces,
    underTails < 0
      ? diagnostic('shoulders-open', 'refused', at, { by: -underTails })
      : diagnostic('sockets-deep', 'caution', at, { by: underTails }),
  ];
}
