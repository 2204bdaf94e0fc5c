import type { ToolProgram } from '../../drawing/tool-moves.js';
import type { Motion, ProgramFault, Replay } from './interpreter.js';

/** What a program for a router table may not do, judged by its own text as the interpreter replays it. */
export interface Stock {
  readonly thickness: number;
  /** How far below the sheet the program may go. */
  readonly through: number;
  /** The least height over the sheet for travel. */
  readonly safeHeight: number;
  readonly blank: ToolProgram['blank'];
}

/** Rounding of a number in the file, mm. */
const ROUNDED = 1e-4;

export function faultsOf({ motions, faults, ended }: Replay, stock: Stock): readonly ProgramFault[] {
  return [
    ...faults,
    ...(ended ? [] : [{ line: 0, what: 'the program does not end' }]),
    ...motions.flatMap((motion) => judged(motion, stock).map((what) => ({ line: motion.line, what }))),
  ];
}

function judged(motion: Motion, stock: Stock): readonly string[] {
  const { from, to, rapid, speed } = motion;
  const across = from.x !== to.x || from.y !== to.y;
  const lowest = Math.min(from.z ?? -Infinity, to.z ?? -Infinity);
  const floor = -(stock.thickness + stock.through) - ROUNDED;
  const cuts = lowest < 0;
  return [
    ...(rapid && across && from.z !== to.z ? ['rapid motion aslant'] : []),
    ...(rapid && across && lowest < stock.safeHeight - ROUNDED ? ['travel below the safe height'] : []),
    ...(rapid && !across && (to.z ?? 0) < (from.z ?? to.z ?? 0) ? ['rapid motion downward'] : []),
    ...(to.z !== undefined && to.z < floor ? [`a cut to z ${to.z}, below sheet and allowance`] : []),
    ...(!rapid && cuts && !(speed > 0) ? ['a cut with the spindle off'] : []),
    ...(across && !isWithin(to.x, stock.blank.width) ? [`x ${to.x} is off the blank`] : []),
    ...(across && !isWithin(to.y, stock.blank.height) ? [`y ${to.y} is off the blank`] : []),
  ];
}

const isWithin = (value: number | undefined, most: number): boolean =>
  value !== undefined && value >= -ROUNDED && value <= most + ROUNDED;

/** A laser's beam is off on every way between, and on only with a feed. */
export function beamFaultsOf({ motions, faults, ended }: Replay): readonly ProgramFault[] {
  return [
    ...faults,
    ...(ended ? [] : [{ line: 0, what: 'the program does not end' }]),
    ...motions.flatMap(({ line, rapid, speed, from, to }) => [
      ...(rapid && speed > 0 ? [{ line, what: 'power while moving between' }] : []),
      ...(!rapid && speed === 0 ? [{ line, what: 'a cut without power' }] : []),
      ...(from.z !== to.z ? [{ line, what: 'a height, which a laser has not' }] : []),
    ]),
  ];
}
