import { theBoard } from '../board-names.js';
import type { Formatter } from '../formatter.js';

/** Sentences about what was measured on a trial piece. Lengths in mm. */
export const refitWording = {
  'measured-form': (d: { known: readonly string[] }) =>
    `a measurement is written key=value without spaces, for example gap=0.1mm; this joint takes ${d.known.join(', ')}`,
  'measured-unknown': (d: { key: string; known: readonly string[]; nearest?: string }) =>
    `"${d.key}" is nothing that can be given here; ${d.nearest === undefined ? '' : `did you mean ${d.nearest}? `}known are ${d.known.join(', ')}`,
  'measured-twice': (d: { key: string }) =>
    `${d.key} is given twice; keep one, or number them from the reference edge: ${d.key}-1=…, ${d.key}-2=…`,
  'measured-contrary': (d: { one: string; other: string }) =>
    `${d.one} and ${d.other} can't both be; keep the one that you saw`,
  'measured-negative': (d: { key: string; value: number }, fmt: Formatter) =>
    `${d.key} is ${fmt.length(d.value)}, which is below nothing; a loose pair is a gap, a tight one an overlap`,
  'measured-number': (d: { key: string; count: number }) =>
    d.count === 0
      ? `${d.key} takes no number behind it`
      : `there are ${d.count} of ${d.key}; number them from 1 at the reference edge`,
  'measured-none': (d: { key: string }) => `this joint has no ${d.key} to measure`,
  'measured-which': (d: { key: string; count: number }) =>
    `the ${d.count} of ${d.key} differ in width: say which one, counted from the reference edge: ${d.key}-1=…`,
  'measured-far': (d: { key: string; value: number; nominal: number; where?: string }, fmt: Formatter) =>
    `${d.key} of ${fmt.length(d.value)} is too far from the ${fmt.length(d.nominal)} it should be for an error of the tools; measure again${d.where === undefined ? '' : `, ${d.where}`}`,
  'refit-by-hand': (d: { joint: string }) =>
    `${d.joint} is cut by hand, so no bit, bushing or template sets its fit`,
  'refit-line': (d: { joint: string; known: readonly string[] }) =>
    `the gap along the drawn line of ${d.joint} tells no size, since pushing the boards home closes some of it and the rest differs from place to place; measure the tools with a caliper and give ${d.known.join(', ')}. A line that gapes on its flanks was cut with a larger bit or a smaller bushing than the shop says, one that binds there with the opposite`,
  'refit-kind': (d: { kind: string }) =>
    `how the fit of a ${d.kind} changes with sizes and settings is not known: its family gives no fit model`,

  // What the trial piece says.
  'refit-looser': (d: { looser: number; slack: number }, fmt: Formatter) =>
    `a mating pair is ${fmt.length(Math.abs(d.looser))} ${d.looser > 0 ? 'looser' : 'tighter'} than the ${fmt.length(d.slack)} of play asked for`,
  'refit-fits': (d: { looser: number; slack: number }, fmt: Formatter) =>
    `the fit is within ${fmt.length(Math.abs(d.looser))} of the ${fmt.length(d.slack)} of play asked for: leave it`,
  'refit-disagree': (d: { key: string; miss: number }, fmt: Formatter) =>
    `${d.key} is ${fmt.length(Math.abs(d.miss))} ${d.miss > 0 ? 'more' : 'less'} than the other measurements let expect; no error of bit or bushing makes them agree: look for a loose template, a board that moved, or chips, and measure again`,
  'refit-unexplained': (d: { looser: number; joint: string }, fmt: Formatter) =>
    `no setting and no size that was left unmeasured explains the ${fmt.length(Math.abs(d.looser))}; measure the template's fingers and openings, and whether ${d.joint}'s boards stand square to it`,

  // What to do, settings first.
  'refit-depth': (d: { by: number; from: number; to: number; room: number }, fmt: Formatter) =>
    `set the bit ${d.by > 0 ? 'deeper' : 'shallower'} by ${fmt.length(Math.abs(d.by))}, to cut ${fmt.length(d.to)} deep: ${d.by > 0 ? 'deeper is tighter' : 'shallower is looser'}`,
  'refit-lap': (d: { depth: number; easy: number }, fmt: Formatter) =>
    `sockets ${fmt.length(d.depth)} deep leave a thin lap; up to ${fmt.length(d.easy)} keeps a quarter of the pin board, so try a smaller change first`,
  'refit-shift': (d: { by: number; room: number }, fmt: Formatter) =>
    `move the fence under the pin template ${d.by > 0 ? 'away from you' : 'toward you'} by ${fmt.length(Math.abs(d.by))}: ${d.by > 0 ? 'wider' : 'narrower'} pins`,
  'refit-no-room': (
    d: { by: number; room: number; kind: 'depth' | 'shift'; tighter: boolean },
    fmt: Formatter,
  ) =>
    d.kind === 'depth'
      ? `the bit has to go ${d.tighter ? 'deeper' : 'shallower'} by ${fmt.length(Math.abs(d.by))}, and there is ${spaceFor(d.room, fmt)}: ${d.tighter ? 'the lap, the bit or the rabbet allows no more' : 'shallower sockets hold too little glue'}; make a new plate`
      : `the fence has to move ${d.tighter ? 'away from you' : 'toward you'} by ${fmt.length(Math.abs(d.by))}, and there is ${spaceFor(d.room, fmt)}: ${d.tighter ? 'the openings end there' : 'the finger tips end there'}; make a new plate`,
  'refit-no-setting': () =>
    'no setting changes the fit of this joint: measure bit and bushing (an error of either counts double), put both into the shop file and make new plates',
  'refit-size': (
    d: { tool: string; key: string; from: number; to: number; measured: boolean },
    fmt: Formatter,
  ) =>
    `${d.key} of ${d.tool}: ${fmt.length(d.to)} instead of ${fmt.length(d.from)}${d.measured ? ', as measured' : ', which is what it cuts like; measure it, and the bushing, before you believe it'}`,
  'refit-new-plate': () =>
    'with these sizes in the shop file make the template again; they change nothing on the plate that you have',
  'refit-flush': (d: { board: string; wanted: number }, fmt: Formatter) =>
    d.board === 'side'
      ? 'the side is flush with the end of the pin board: leave the template'
      : `the ends of ${theBoard(d.board)} ${d.wanted === 0 ? 'are flush' : `stand ${fmt.length(d.wanted)} proud, as asked`}: leave the depth`,
  'refit-board-depth': (d: { board: string; by: number; proud: number; sanded: boolean }, fmt: Formatter) =>
    `set the bit ${d.by > 0 ? 'deeper' : 'shallower'} by ${fmt.length(Math.abs(d.by))} for ${theBoard(d.board)}${d.sanded ? ', or sand its ends flush' : ''}`,
  'refit-template': (d: { by: number; proud: number; alone: boolean; share: number }, fmt: Formatter) =>
    `move the ${d.alone ? 'sockets template' : 'template'} ${d.by > 0 ? 'away from you' : 'toward you'} by ${fmt.length(Math.abs(d.by))}${d.share === 1 ? '; the board stays' : '; the boards stay, and both cuts move'}`,
  'refit-shim': (d: { board: string; by: number; against: string }, fmt: Formatter) =>
    `hold ${theBoard(d.board)} that stands past off its stop by ${fmt.length(d.by)}, with a shim`,
  'refit-in-line': () => 'the edges are in line: leave the stops',
};

/** Less than this is no room, mm: a caliper shows no less. */
const NO_SPACE = 0.01;

function spaceFor(room: number, fmt: Formatter): string {
  return room < NO_SPACE ? 'no room for it' : `room for ${fmt.length(room)}`;
}
