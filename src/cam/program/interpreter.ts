import type { Point } from '../../geometry/types.js';

/**
 * A small interpreter of RS-274 (NISTIR 6556, 2000) that knows nothing of what wrote the text. It starts with
 * nothing: no position, units, plane, distance or feed mode, no feed, no spindle. Whatever a program uses
 * without having said it first is a fault, and so is every word that is not in the small part known here.
 */
export interface Replay {
  readonly motions: readonly Motion[];
  readonly faults: readonly ProgramFault[];
  /** Greatest difference of an arc's two radii, mm. */
  readonly radiusError: number;
  /** true when the program ended with M2 or M30, the spindle or beam off. */
  readonly ended: boolean;
}

export interface Motion {
  readonly line: number;
  readonly rapid: boolean;
  readonly from: Spot;
  readonly to: Spot;
  readonly arc?: { readonly center: Point; readonly radius: number; readonly ccw: boolean };
  /** mm per minute; 0 in rapid motion. */
  readonly feed: number;
  /** Speed of the spindle or power of the beam; 0 when it is off. */
  readonly speed: number;
}

/** A coordinate that nothing has set yet is undefined. */
export interface Spot {
  readonly x: number | undefined;
  readonly y: number | undefined;
  readonly z: number | undefined;
}

export interface ProgramFault {
  /** Counted from 1. */
  readonly line: number;
  readonly what: string;
}

/** NISTIR 6556, 3.5.3.2: the radii at both ends of an arc differ by no more than this, mm. */
export const RADIUS_TOLERANCE = 0.002;

interface State {
  readonly at: Spot;
  readonly modes: ReadonlySet<string>;
  readonly motion?: number;
  readonly feed?: number;
  readonly speed?: number;
  readonly turning: boolean;
  readonly ended: boolean;
}

export function replay(text: string): Replay {
  const motions: Motion[] = [];
  const faults: ProgramFault[] = [];
  let radiusError = 0;
  let state: State = {
    at: { x: undefined, y: undefined, z: undefined },
    modes: new Set(),
    turning: false,
    ended: false,
  };
  for (const [index, raw] of text.split('\n').entries()) {
    const line = index + 1;
    const fault = (what: string): void => void faults.push({ line, what });
    const words = wordsOf(raw, fault);
    if (words.length === 0) continue;
    if (state.ended) fault('text after the end of the program');
    state = withSettings(state, words, fault);
    const done = motionOf(state, words, line, fault);
    if (done) {
      motions.push(done.motion);
      radiusError = Math.max(radiusError, done.radiusError);
      state = { ...state, at: done.motion.to };
    }
    if (words.some(({ letter, value }) => letter === 'M' && (value === 2 || value === 30))) {
      if (state.turning) fault('the end of the program with the spindle on');
      state = { ...state, ended: true };
    }
  }
  return { motions, faults, radiusError, ended: state.ended };
}

interface Word {
  readonly letter: string;
  readonly value: number;
}

type Tell = (what: string) => void;

/** The words of a line without its comments; one letter, one plain number each. */
function wordsOf(raw: string, fault: Tell): readonly Word[] {
  const bare = raw.replace(/\([^()]*\)/g, '').replace(/\s+/g, '');
  const words = [...bare.matchAll(/([A-Z])(-?\d+(?:\.\d+)?)/g)];
  if (words.map(([whole]) => whole).join('') !== bare) fault(`not words of RS-274: ${raw}`);
  return words.map(([, letter = '', value]) => ({ letter, value: Number(value) }));
}

const KNOWN_G = [0, 1, 2, 3, 4, 17, 21, 40, 49, 54, 80, 90, 94];
const KNOWN_M = [2, 3, 5, 30];

/** Modes that motion hangs on, as they must be said first. */
const NEEDED = ['G21', 'G90', 'G17', 'G40', 'G94'];

/** Everything in a line but its motion, in the order of NISTIR 6556, Table 8: feed, speed, spindle, modes. */
function withSettings(state: State, words: readonly Word[], fault: Tell): State {
  let next = state;
  const value = (letter: string): number | undefined => words.find((one) => one.letter === letter)?.value;
  const feed = value('F');
  const speed = value('S');
  if (feed !== undefined) next = { ...next, feed };
  if (speed !== undefined) next = { ...next, speed };
  for (const { letter, value: code } of words) {
    if (letter === 'G') {
      if (!KNOWN_G.includes(code)) fault(`G${code} is not known here`);
      if (code <= 3) next = { ...next, motion: code };
      if (code === 4 && value('P') === undefined) fault('a dwell without its time');
      if (code > 4) next = { ...next, modes: new Set([...next.modes, `G${code}`]) };
    } else if (letter === 'M') {
      if (!KNOWN_M.includes(code)) fault(`M${code} is not known here`);
      if (code === 3 && !(next.speed !== undefined && next.speed > 0)) fault('a spindle without a speed');
      if (code === 3) next = { ...next, turning: true };
      if (code === 5) next = { ...next, turning: false };
    } else if (!'XYZIJFSP'.includes(letter)) fault(`${letter} is not known here`);
  }
  return next;
}

function motionOf(
  { at, modes, motion, feed = 0, speed = 0, turning }: State,
  words: readonly Word[],
  line: number,
  fault: Tell,
): { readonly motion: Motion; readonly radiusError: number } | undefined {
  const value = (letter: string): number | undefined => words.find((one) => one.letter === letter)?.value;
  const axes = { x: value('X'), y: value('Y'), z: value('Z') };
  if (axes.x === undefined && axes.y === undefined && axes.z === undefined) return undefined;
  const missing = NEEDED.filter((mode) => !modes.has(mode));
  if (missing.length > 0) fault(`motion before ${missing.join(' ')}`);
  if (motion === undefined) {
    fault('coordinates without a motion');
    return undefined;
  }
  if (motion > 0 && !(feed > 0)) fault('a cut without a feed');
  const to = { x: axes.x ?? at.x, y: axes.y ?? at.y, z: axes.z ?? at.z };
  const arc = motion > 1 ? arcOf(at, to, value('I'), value('J'), motion === 3, fault) : undefined;
  return {
    radiusError: arc?.error ?? 0,
    motion: {
      line,
      rapid: motion === 0,
      from: at,
      to,
      feed: motion === 0 ? 0 : feed,
      speed: turning ? speed : 0,
      ...(arc && { arc: { center: arc.center, radius: arc.radius, ccw: arc.ccw } }),
    },
  };
}

function arcOf(
  from: Spot,
  to: Spot,
  i: number | undefined,
  j: number | undefined,
  ccw: boolean,
  fault: Tell,
) {
  if (from.x === undefined || from.y === undefined || to.x === undefined || to.y === undefined) {
    fault('an arc from a place that nothing has set');
    return undefined;
  }
  if (i === undefined && j === undefined) {
    fault('an arc without a centre');
    return undefined;
  }
  const center = { x: from.x + (i ?? 0), y: from.y + (j ?? 0) };
  const radius = Math.hypot(from.x - center.x, from.y - center.y);
  const error = Math.abs(Math.hypot(to.x - center.x, to.y - center.y) - radius);
  if (error > RADIUS_TOLERANCE) fault(`an arc whose radii differ by ${error.toFixed(4)} mm`);
  return { center, radius, ccw, error };
}
