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
  'measured-corner': (d: { corners: readonly number[] }) =>
    `say which corner was tried, as the set-up sheet numbers them: ${d.corners.map((corner) => `mismatch-${corner}=…`).join(', ')}; each has stops of its own`,
  'measured-scale': (d: { text: string }) =>
    `"${d.text}" isn't a scale; give what a length on the plate measures over what it should, such as 149.7/150, 0.998 or 99.8%`,
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
    `nothing that was measured explains the ${fmt.length(Math.abs(d.looser))}: look for a template that moved, a board that wasn't square to it, or a bit that wobbles, and cut the trial piece again`,
  'refit-undecided': (d: { seen: readonly string[]; more: readonly string[] }) =>
    `${d.seen.join(' and ')} alone doesn't tell how the joint fits: measure ${d.more.join(' or ')} too, or the gap by feeler`,
  'refit-no-entry': (d: { by: number }, fmt: Formatter) =>
    `the bushing is ${fmt.length(d.by)} wider than the opening, so it doesn't go in: file both walls of each opening by half of that for this plate, or make a new one with the sizes below`,
  'refit-keep': () =>
    'leave the sizes in the shop file, too: what was measured is made up for elsewhere, or the joint would not fit',

  // What to do, settings first.
  'refit-depth': (d: { by: number; from?: number; to?: number; room: number }, fmt: Formatter) =>
    `set the bit ${fmt.length(Math.abs(d.by))} ${d.by > 0 ? 'deeper' : 'shallower'} than it is now${d.to === undefined ? '' : `, to cut ${fmt.length(d.to)} deep`}: ${d.by > 0 ? 'deeper is tighter' : 'shallower is looser'}`,
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
  'refit-size': (d: { choices: readonly (readonly PlateChange[])[]; instead: boolean }, fmt: Formatter) =>
    `${d.instead ? 'or leave that, and make a new plate with ' : ''}${eitherOf(d.choices.map((one) => one.map((each) => changed(each, fmt)).join(' and ')))}${d.choices.length > 1 ? ': each alone makes the next plate fit; measure them to find out which it is' : ''}${d.instead ? '; not both' : ''}`,
  'refit-new-plate': () =>
    'with that in the shop file make the plates again, and set depth, fence and stops by the new sheet; nothing changes on the plates that you have',
  'refit-flush': (d: { board: string; wanted: number; after: boolean }, fmt: Formatter) =>
    d.after
      ? 'that brings the side flush, too: leave the template'
      : d.board === 'side'
        ? 'the side is flush with the end of the pin board: leave the template'
        : `the ends of ${theBoard(d.board)} ${d.wanted === 0 ? 'are flush' : `stand ${fmt.length(d.wanted)} proud, as asked`}: leave the depth`,
  'refit-board-depth': (d: { board: string; by: number; proud: number; sanded: boolean }, fmt: Formatter) =>
    `set the bit ${fmt.length(Math.abs(d.by))} ${d.by > 0 ? 'deeper' : 'shallower'} than it is now for ${theBoard(d.board)}${d.sanded ? ', or sand its ends flush' : ''}`,
  'refit-template': (
    d: { by: number; proud: number; alone: boolean; share: number; after: boolean },
    fmt: Formatter,
  ) =>
    `${d.after ? 'then ' : ''}move the ${d.alone ? 'sockets template' : 'template'} ${d.by > 0 ? 'away from you' : 'toward you'} by ${fmt.length(Math.abs(d.by))}${d.share === 1 ? '; the board stays' : '; the boards stay, and both cuts move'}`,
  'refit-shim': (
    d: { board: string; by: number; against: string; side?: string; corner?: number; mirrored?: true },
    fmt: Formatter,
  ) =>
    d.side === undefined
      ? `hold ${theBoard(d.board)} that stands past off its stop by ${fmt.length(d.by)}, with a shim`
      : `put a shim of ${fmt.length(d.by)} between the ${d.side} stop and ${theBoard(d.board)}${d.mirrored ? ', with the plate turned over' : ''} (corner ${d.corner}); leave the other stops`,
  'refit-in-line': () => 'the edges are in line: leave the stops',
  'refit-settings': (d: { depth?: number; fence?: number }, fmt: Formatter) =>
    `by the log ${[...(d.depth === undefined ? [] : [`the bit cuts ${fmt.length(d.depth)} deep`]), ...(d.fence === undefined ? [] : [`the fence is ${fmt.length(Math.abs(d.fence))} ${d.fence > 0 ? 'back' : 'forward'}`])].join(' and ')} by now; if not, measure and give depth=…`,
  'refit-others': (d: { tool: string; joints: readonly string[] }) =>
    `${d.tool} also cuts ${d.joints.join(', ')}: a new size changes the plates of those joints, too`,
};

/** A change for the next plate; `from` and `to` in mm, of a scale as shares. */
export interface PlateChange {
  readonly what: 'size' | 'openings' | 'scale';
  readonly tool: string;
  readonly key: string;
  readonly from: number;
  readonly to: number;
  readonly measured: boolean;
}

function changed({ what, tool, key, from, to, measured }: PlateChange, fmt: Formatter): string {
  if (what === 'scale')
    return `the plates cut at ${(100 * to).toFixed(2)} % of their size, since these came out at ${(100 / to).toFixed(2)} %`;
  if (what === 'openings') {
    const by = to - from;
    const kerf = to > 0 ? `: laser.kerf ${fmt.length(to)} instead of ${fmt.length(from)}` : '';
    return `your openings ${measured ? 'are' : 'come out'} ${fmt.length(Math.abs(by))} ${by > 0 ? 'wide' : 'narrow'}${measured ? kerf : `: measure one (opening=…)${kerf && `, then ${kerf.slice(2)}`}`}`;
  }
  return `${key} of ${tool}: ${fmt.length(to)} instead of ${fmt.length(from)}${measured ? ', as measured' : ', which is what it cuts like'}`;
}

function eitherOf(choices: readonly string[]): string {
  return choices.length > 1 ? `either ${choices.join(', or ')}` : (choices[0] ?? '');
}

/** Less than this is no room, mm: a caliper shows no less. */
const NO_SPACE = 0.01;

function spaceFor(room: number, fmt: Formatter): string {
  return room < NO_SPACE ? 'no room for it' : `room for ${fmt.length(room)}`;
}
