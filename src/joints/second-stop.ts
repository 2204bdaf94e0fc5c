import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { SecondStop } from './family.js';
import type { EverySecond } from './row.js';

/** How a template that carries every second slot is used, as data of the cut and as a remark. */

export function secondStopOf({ stop, leaveOut }: EverySecond): SecondStop {
  return { x: stop, ...(leaveOut && { leaveOut: [leaveOut.from, leaveOut.to] }) };
}

export function moveDiagnostic(
  at: string,
  template: string,
  board: string,
  { stop, leaveOut }: EverySecond,
): Diagnostic {
  return diagnostic('every-second-moves', 'ok', at, {
    template,
    board,
    shift: Math.abs(stop),
    towards: stop < 0 ? 'near' : 'far',
    skip: leaveOut !== undefined,
  });
}
