import {
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
  type PathsD,
  unionD,
} from 'clipper2-ts';
import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import type { Report } from '../../src/outputs/report.js';
import { makeFiles } from '../support/made.js';
import { contoursOn, type Vertex } from '../support/read-plate.js';

/**
 * A workshop whose tools and settings are a little off. It cuts a trial joint from the written plates and measures it as
 * a person does. Nothing of halfpin's geometry, test cut or fit model is used: the plates are read by dxf-parser, the
 * bushing and the bit are discs that Clipper2 moves, and boards are compared along lines.
 */
export interface Errors {
  /** What is real less what the job has: diameters of bits and bushing, mm. */
  readonly dovetail?: number;
  readonly straight?: number;
  readonly second?: number;
  readonly bushing?: number;
  /** Of the dovetail bit, radians. */
  readonly angle?: number;
  /** How much wider than drawn every opening is, mm. */
  readonly kerf?: number;
  /** By what share the plates came out larger than drawn. */
  readonly scale?: number;
  /** Deeper than the sheet says, of each board, mm. */
  readonly depth?: PerBoard;
  /** How far the fence is set back under a board's template, mm. */
  readonly fence?: PerBoard;
  /** How far a stop holds its board off the line: `tails left`, mm. */
  readonly stop?: PerBoard;
  /** How much thicker a board is than the job says, mm. */
  readonly stock?: PerBoard;
}

export type PerBoard = Readonly<Record<string, number>>;

/** What a person finds on a trial joint, mm. */
export interface Trial {
  /** false where the bushing doesn't go into an opening: then there is no joint to measure. */
  readonly enters: boolean;
  /** The play of the tightest inner pair where it is tightest; below 0 the boards overlap. */
  readonly gap: number;
  /** Play of every inner pair where it is tightest. */
  readonly gaps: readonly number[];
  /** By caliper at the boards' ends: the first of each that is no half-pin, with its number. */
  readonly widths: Readonly<Record<string, number>>;
  /** How far each end or face stands proud. */
  readonly faces: Readonly<Record<string, number>>;
  /** How far the first board stands past the second at the reference edge. */
  readonly mismatch: number;
  /** Depth of cut of the first board. */
  readonly depth: number;
}

interface Cutting {
  readonly board: string;
  readonly rings: PathsD;
  readonly bit: { readonly diameter: number; readonly angle: number };
  readonly bushing: number;
  readonly depth: number;
  readonly minX: number;
  readonly thickness: number;
}

export interface Bench {
  readonly report: Report;
  /** How much of the joint's width is cut and compared, mm: two pairs are enough. */
  readonly shown: number;
  readonly cuts: readonly Cutting[];
}

/** The written plates of a job's one joint, ready to be cut from. */
export async function benchOf(job: Job): Promise<Bench> {
  const outcomes = solveJob(job);
  const report = outcomes[0]?.made?.report;
  if (!report) throw new Error('the job is refused');
  const files = await makeFiles(job, outcomes, { only: ['finger'], as: ['dxf'] });
  const rings = (template: string): PathsD => {
    const file = files.find(({ path }) => path.endsWith(`/${template}.dxf`));
    if (!file || typeof file.content !== 'string') throw new Error(`no file ${template}`);
    return contoursOn(file.content, 'CUT').map(chords);
  };
  const cuts = report.cuts.flatMap((cut) =>
    cut.boards.map(
      ({ board, from, to }): Cutting => ({
        board,
        rings: rings(cut.template),
        bit: { diameter: cut.bit.diameter, angle: ((cut.bit.angle ?? 0) * Math.PI) / 180 },
        bushing: cut.bushing,
        depth: cut.depth,
        minX: report.wanted?.[board]?.x ?? from[0],
        thickness: report.thickness[board] ?? to[1] - from[1],
      }),
    ),
  );
  return { report, shown: shownOf(report), cuts };
}

/** To the middle of the span after the second pair. */
function shownOf({ layout, kind, width }: Report): number {
  const pairs = layout.slice(1).filter(({ part }) => part === pairPart(kind));
  const after = layout.find(({ from }) => Math.abs(from - (pairs[1]?.to ?? width)) < EASE);
  return after ? (after.from + after.to) / 2 : width;
}

/** What one board has and the other fits: the pins of a through joint, the tails of a half-blind one. */
function pairPart(kind: string): string {
  return kind === 'box' ? 'slot' : kind === 'through-dovetail' ? 'pin' : 'tail';
}

/** Everything up to an x. */
function strip(polygons: PathsD, x1: number): PathD {
  const all = polygons.flat();
  const far = 1e4;
  const x0 = Math.min(...all.map(({ x }) => x));
  return [
    { x: x0, y: -far },
    { x: x1, y: -far },
    { x: x1, y: far },
    { x: x0, y: far },
  ];
}

/** Chords of a bulge stray from it by no more than this, mm. */
const CHORD = 5e-3;

/** A contour with its arcs (bulge: tangent of a quarter of the angle) as chords. */
function chords(vertices: readonly Vertex[]): PathD {
  return vertices.flatMap((from, i) => {
    const to = vertices[(i + 1) % vertices.length];
    if (!to || from.bulge === 0) return [{ x: from.x, y: from.y }];
    const angle = 4 * Math.atan(from.bulge);
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    const radius = Math.hypot(dx, dy) / (2 * Math.sin(Math.abs(angle) / 2));
    const count = Math.max(1, Math.ceil(Math.abs(angle) / (2 * Math.acos(1 - CHORD / radius))));
    const up = 1 / Math.tan(angle / 2) / 2;
    const [cx, cy] = [(from.x + to.x) / 2 - dy * up, (from.y + to.y) / 2 + dx * up];
    const start = Math.atan2(from.y - cy, from.x - cx);
    return Array.from({ length: count }, (_, n) => ({
      x: cx + radius * Math.cos(start + (angle * n) / count),
      y: cy + radius * Math.sin(start + (angle * n) / count),
    }));
  });
}

// The router

const DECIMALS = 6;
/** A bushing as wide as its opening still goes in, mm: coordinates are rounded. */
const EASE = 2e-4;
/** Chords of the bushing's and the bit's rounds stray by no more, mm: only round ends show it, straight walls are exact. */
const ARC = 5e-3;

const inflated = (paths: PathsD, by: number): PathsD =>
  by === 0 ? paths : inflatePathsD(paths, by, JoinType.Round, EndType.Polygon, 2, DECIMALS, ARC);

/** A board under its plate: what the bit clears of it at a height above its tip, x from the board's reference edge. */
interface Routed {
  readonly depth: number;
  readonly thickness: number;
  cleared(height: number): PathsD;
}

function routed(bench: Bench, board: string, errors: Errors, stopAt: string): Routed {
  const cut = bench.cuts.find((one) => one.board === board);
  if (!cut) throw new Error(`no board ${board}`);
  const { bit, bushing } = cut;
  const size = 1 + (errors.scale ?? 0);
  const along = cut.minX * size + (errors.stop?.[`${board} ${stopAt}`] ?? 0);
  const back = errors.fence?.[board] ?? 0;
  const moved = (ring: PathD): PathD => ring.map(({ x, y }) => ({ x: x * size - along, y: y * size - back }));
  const whole = unionD(cut.rings.map(moved), [], FillRule.EvenOdd, DECIMALS);
  // As much of a long plate as shows two pairs.
  const drawn = intersectD(whole, [strip(whole, bench.shown + 3 * bushing)], FillRule.NonZero, DECIMALS);
  const plate = inflated(drawn, -(errors.kerf ?? 0) / 2);
  const middles = reached(plate, bushing + (errors.bushing ?? 0));
  const own =
    bit.angle > 0 ? errors.dovetail : board === 'two' ? (errors.second ?? errors.straight) : errors.straight;
  const slope = bit.angle > 0 ? Math.tan(bit.angle + (errors.angle ?? 0)) : 0;
  const radius = (height: number) => (bit.diameter + (own ?? 0)) / 2 - height * slope;
  return {
    depth: cut.depth + (errors.depth?.[board] ?? 0),
    thickness: cut.thickness + (errors.stock?.[board] ?? 0),
    cleared: (height) => inflated(middles, radius(height)),
  };
}

/** Where the bushing's middle gets to from the operator's side: everywhere that is half its width from the plate. */
function reached(plate: PathsD, bushing: number): PathsD {
  const all = plate.flat();
  const [x0, x1] = [Math.min(...all.map(({ x }) => x)), Math.max(...all.map(({ x }) => x))];
  const [y0, y1] = [Math.min(...all.map(({ y }) => y)) - 2 * bushing, Math.max(...all.map(({ y }) => y))];
  const window: PathD = [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ];
  const free = differenceD([window], inflated(plate, bushing / 2 - EASE), FillRule.NonZero, DECIMALS);
  return free.filter((ring) => ring.some(({ y }) => y < y0 + EASE));
}

type Run = readonly [from: number, to: number];

/** Where the line at y runs inside the polygons. */
function along(polygons: PathsD, y: number): readonly Run[] {
  const xs = polygons
    .flatMap((ring) =>
      ring.flatMap((from, i) => {
        const to = ring[(i + 1) % ring.length];
        if (!to || from.y <= y === to.y <= y) return [];
        return [from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y)];
      }),
    )
    .sort((a, b) => a - b);
  return xs.flatMap((x, i) => (i % 2 === 0 && xs[i + 1] !== undefined ? [[x, xs[i + 1] ?? x] as const] : []));
}

const across = (polygons: PathsD, x: number): readonly Run[] =>
  along(
    polygons.map((ring) => ring.map((spot) => ({ x: spot.y, y: spot.x }))),
    x,
  );

/** What stands between runs, from the reference edge to the far one. */
function between(runs: readonly Run[], width: number): readonly Run[] {
  const edges = [0, ...runs.flat(), width];
  return edges.flatMap((from, i) => {
    const to = edges[i + 1];
    return i % 2 === 0 && to !== undefined && to > from + EASE ? [[from, to] as const] : [];
  });
}

const within = (runs: readonly Run[], width: number): readonly Run[] =>
  runs.map(([from, to]) => [Math.max(0, from), Math.min(width, to)] as const).filter(([a, b]) => b > a);
const inner = (runs: readonly Run[], width: number): readonly Run[] =>
  runs.filter(([from, to]) => from > EASE && to < width - EASE);
const wide = ([from, to]: Run): number => to - from;
const middle = ([from, to]: Run): number => (from + to) / 2;

const NOT_IN: Trial = { enters: false, gap: 0, gaps: [], widths: {}, faces: {}, mismatch: 0, depth: 0 };

/** Cuts a trial joint and measures it. `stops` are those of its corner, of the first and the second board. */
export function tryJoint(
  bench: Bench,
  errors: Errors,
  stops: readonly [string, string] = ['left', 'left'],
): Trial {
  return bench.report.assembly?.way === 'sunk'
    ? sunkTrial(bench, errors, stops)
    : crossedTrial(bench, errors, stops);
}

/** Pairs that are shown whole, and are no half-pins. */
function pairsIn({ report: { layout, kind, width }, shown }: Bench): number {
  return layout.filter(
    ({ part, from, to }) =>
      part === pairPart(kind) && from > EASE && to < Math.min(shown + EASE, width - EASE),
  ).length;
}

/** Sockets or slots of the first board, pins or fingers of the second, in the same place along x. */
function crossedTrial(bench: Bench, errors: Errors, stops: readonly [string, string]): Trial {
  const { report, shown: width } = bench;
  const { layout, kind } = report;
  const [one = '', two = ''] = report.assembly?.boards ?? [];
  const [first, second] = [routed(bench, one, errors, stops[0]), routed(bench, two, errors, stops[1])];
  const mid = -first.thickness / 2;
  const sockets = (height: number) => within(along(first.cleared(height), mid), width);
  const plan = second.cleared(0);
  const pins = (height: number) => between(within(along(plan, -height), width), width);
  const wanted = pairsIn(bench);
  const last = Math.min(first.depth, second.thickness);
  // Walls are straight, so the play is least at one of their ends.
  const levels = [1e-3, last - 1e-3];
  const pairs = levels.map((height) => [inner(sockets(height), width), inner(pins(height), width)] as const);
  if (pairs.some(([socket, pin]) => socket.length !== wanted || pin.length !== wanted)) return NOT_IN;
  const gaps = Array.from({ length: wanted }, (_, i) =>
    Math.min(...pairs.map(([socket, pin]) => wide(socket[i] ?? [0, 0]) - wide(pin[i] ?? [0, 0]))),
  );
  const [base] = pairs;
  const shifts = base?.[0].map((run, i) => middle(run) - middle(base[1][i] ?? [0, 0])) ?? [];
  const atEnd = sockets(first.depth);
  const left = between(atEnd, width);
  const outside = pins(second.thickness - 1e-3);
  const size = (name: string, runs: readonly Run[]) =>
    Object.fromEntries(runs.map((run, i) => [`${name}-${i + 1}`, wide(run)] as const));
  return {
    enters: true,
    gap: Math.min(...gaps),
    gaps,
    widths:
      kind === 'box'
        ? {
            ...size('slot', layout[0]?.part === 'slot' ? [] : inner(atEnd, width)),
            ...size('finger', layout[0]?.part === 'finger' ? left : []),
          }
        : {
            ...size('socket', inner(atEnd, width)),
            ...size('tail', left),
            ...size('pin', inner(outside, width)),
          },
    faces: { [one]: first.depth - second.thickness, [two]: second.depth - first.thickness },
    mismatch: shifts.reduce((sum, by) => sum + by, 0) / shifts.length,
    depth: first.depth,
  };
}

/** Beside the plane of the side's outside face and the front's end, where walls are straight, mm. */
const BESIDE = 0.5;

/** Tails let down into sockets: at the distance z from their ends the front is seen as high above its sockets' floor. */
function sunkTrial(bench: Bench, errors: Errors, stops: readonly [string, string]): Trial {
  const { shown: width } = bench;
  const side = routed(bench, 'tails', errors, stops[0]);
  const front = routed(bench, 'pins', errors, stops[1]);
  const deep = Math.min(side.depth, front.depth);
  const lift = Math.max(0, front.depth - side.depth);
  const tails = (z: number) => {
    const cleared = side.cleared(side.depth - z);
    const runs = between(within(along(cleared, -BESIDE), width), width);
    return { runs, cleared };
  };
  const sockets = (z: number) => {
    const cleared = front.cleared(z + lift);
    return { runs: within(along(cleared, BESIDE), width), cleared };
  };
  const wanted = pairsIn(bench);
  const levels = [0, deep].map((z) => ({ tail: tails(z), socket: sockets(z) }));
  if (levels.some(({ tail, socket }) => tail.runs.length !== wanted || socket.runs.length !== wanted))
    return NOT_IN;
  const gaps = Array.from({ length: wanted }, (_, i) =>
    Math.min(
      ...levels.map(({ tail, socket }) => wide(socket.runs[i] ?? [0, 0]) - wide(tail.runs[i] ?? [0, 0])),
    ),
  );
  // How far a tail reaches toward the operator, and a socket away from him, in the tail's middle.
  const reach = ({ tail, socket }: (typeof levels)[number]) => {
    const own: Run = tail.runs[0] ?? [0, 0];
    const room: Run = socket.runs[0] ?? [0, 0];
    const cut = across(tail.cleared, middle(own))
      .filter(([from]) => from < 0)
      .at(-1);
    const end = across(socket.cleared, middle(room)).find(([, to]) => to > 0);
    return Math.min(side.thickness, cut ? -cut[1] : side.thickness) - (end?.[1] ?? 0);
  };
  const [atEnd] = levels;
  const shifts = atEnd?.tail.runs.map((run, i) => middle(run) - middle(atEnd.socket.runs[i] ?? [0, 0])) ?? [];
  return {
    enters: true,
    gap: Math.min(...gaps),
    gaps,
    widths: {
      'tail-1': wide(atEnd?.tail.runs[0] ?? [0, 0]),
      'socket-1': wide(sockets(front.depth - lift).runs[0] ?? [0, 0]),
    },
    faces: { side: Math.max(...levels.map(reach)) },
    mismatch: shifts.reduce((sum, by) => sum + by, 0) / shifts.length,
    depth: side.depth,
  };
}
