import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { extents } from '../geometry/outline.js';
import type { Region, Segment } from '../geometry/types.js';
import type { Joint } from '../input/types.js';
import type { Cut } from './family.js';
import { BUSHING_ROOM } from './tools.js';

/** How strong a template's fingers are and how often the router goes through a slot, from the waste alone. */

/** The narrowest finger of a plate between two openings; a plate with one opening has none. */
export interface Finger {
  readonly from: number;
  readonly to: number;
  readonly width: number;
}

/**
 * The narrowest finger of the plate that one cut needs, where the plate is judged: each wall of the waste R
 * stands back by δ = B/2 − r square to itself, so by δ/|n_x| along x, with n the wall's normal. Exact for
 * straight walls; no plate is drawn for it. Widths in mm, below 0 where nothing of a finger is left.
 */
export function narrowestFinger(cut: Cut): Finger | undefined {
  const { waste, narrowestAt, bushing, cutterRadius } = cut;
  const back = bushing.outside / 2 - cutterRadius;
  const runs = runsAt(waste, narrowestAt + A_HAIR).map(({ from, to }) => ({
    from: from.x - back * from.slant,
    to: to.x + back * to.slant,
  }));
  let narrowest: Finger | undefined;
  for (const [index, run] of runs.entries()) {
    const next = runs[index + 1];
    if (!next) break;
    const width = next.from - run.to;
    if (!narrowest || width < narrowest.width) narrowest = { from: run.to, to: next.from, width };
  }
  return narrowest;
}

/**
 * How much wider the narrowest opening of a cut is than its bushing, mm: the waste less the bit, square to the walls.
 * Where walls lean, the bit goes on by half its width past the back face.
 */
export function roomOf({ waste, narrowestAt, tapers, cutterRadius }: Cut): number {
  const y = tapers ? cutterRadius : narrowestAt + A_HAIR;
  const widths = runsAt(waste, y).map(({ from, to }) => (2 * (to.x - from.x)) / (from.slant + to.slant));
  return Math.min(...widths) - 2 * cutterRadius;
}

/** Of all the openings of a joint. */
export function leastRoom(cuts: readonly Cut[]): number {
  return Math.min(...cuts.map(roomOf));
}

/**
 * What is to be said where an opening leaves its bushing little room. An opening as wide as the bit, as the maker asks
 * for it, is meant to be one pass.
 */
export function roomDiagnostics({ name, slack, layout }: Joint, cuts: readonly Cut[]): readonly Diagnostic[] {
  const { pin, pitch, spans, finger, fingers } = layout;
  const isAsked = (pin ?? pitch ?? finger ?? fingers) !== undefined || spans !== undefined;
  return cuts.flatMap((cut) => {
    const room = roomOf(cut);
    if (room >= BUSHING_ROOM - A_HAIR) return [];
    const onePass = isAsked && room <= slack + A_HAIR;
    const { bushing, board } = cut;
    const data = { board, bushing: bushing.name, room: Math.max(0, room), least: BUSHING_ROOM, onePass };
    return [diagnostic('bushing-room', onePass ? 'ok' : 'caution', `joints.${name}.bushing`, data)];
  });
}

/**
 * Passes that clear the widest opening of a cut: side by side as many as its width takes, each as often as it goes down.
 */
export function passesOf(cut: Cut): number {
  const widest = widestOpening(cut);
  const { minX, maxX } = extents(...cut.stock.map(({ outline }) => outline));
  // Waste along the whole board is no opening: one line is followed.
  const isLine = widest >= maxX - minX - A_HAIR;
  const across = isLine ? 1 : Math.max(1, Math.ceil(widest / (2 * cut.cutterRadius) - SAME_MEASURE));
  return across * passDepths(cut).length;
}

/**
 * The depths that a cut goes down in, evenly, mm: the last is its own. A straight bit takes no more at once than it is wide
 * (common practice, no source); a dovetail bit goes in at its full depth.
 */
export function passDepths({ bit, depth }: Pick<Cut, 'bit' | 'depth'>): readonly number[] {
  const most = bit.kind === 'dovetail' ? depth : bit.diameter;
  const count = Math.max(1, Math.ceil(depth / most - SAME_MEASURE));
  return Array.from({ length: count }, (_, i) => (depth * (i + 1)) / count);
}

/** As a share of the bit: a slot as wide as its bit is one pass, whatever the last decimal says. */
const SAME_MEASURE = 1e-6;

/** A line this far inside a face does not run along it, mm. */
const A_HAIR = 1e-3;

/** The widest stretch of waste over the board, mm, where the fingers are judged or as near to it as the board lies. */
function widestOpening(cut: Cut): number {
  const board = extents(...cut.stock.map(({ outline }) => outline));
  const y = Math.min(Math.max(cut.narrowestAt, board.minY + A_HAIR), board.maxY - A_HAIR);
  const widths = runsAt(cut.waste, y).map(
    ({ from, to }) => Math.min(to.x, board.maxX) - Math.max(from.x, board.minX),
  );
  return Math.max(0, ...widths);
}

interface Crossing {
  readonly x: number;
  /** 1/|n_x|: how far along x a wall moves for each mm square to itself. */
  readonly slant: number;
}

/** Where the line at height y runs inside a region, from left to right. */
function runsAt(region: Region, y: number): readonly { readonly from: Crossing; readonly to: Crossing }[] {
  const crossings = region
    .flatMap(({ segments }) => segments)
    .flatMap((segment) => crossingsOf(segment, y))
    .sort((one, other) => one.x - other.x);
  return crossings.flatMap((from, index) => {
    const to = crossings[index + 1];
    return index % 2 === 0 && to ? [{ from, to }] : [];
  });
}

function crossingsOf(segment: Segment, y: number): readonly Crossing[] {
  const { from, to } = segment;
  if (segment.kind === 'line') {
    if (from.y <= y === to.y <= y) return [];
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    return [{ x: from.x + (dx * (y - from.y)) / dy, slant: Math.hypot(dx, dy) / Math.abs(dy) }];
  }
  const { center, radius, ccw } = segment;
  const up = y - center.y;
  if (Math.abs(up) >= radius) return [];
  const across = Math.sqrt(radius * radius - up * up);
  return [-across, across]
    .filter((dx) => isOnArc(Math.atan2(up, dx), segment, ccw))
    .map((dx) => ({ x: center.x + dx, slant: radius / across }));
}

function isOnArc(angle: number, { from, to, center }: Segment & { kind: 'arc' }, ccw: boolean): boolean {
  const start = Math.atan2(from.y - center.y, from.x - center.x);
  const end = Math.atan2(to.y - center.y, to.x - center.x);
  const turn = (to: number, from: number) => (((to - from) % TURN) + TURN) % TURN;
  return ccw ? turn(angle, start) <= turn(end, start) : turn(start, angle) <= turn(start, end);
}

const TURN = 2 * Math.PI;
