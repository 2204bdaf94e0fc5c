import { between, cross, distance, dot, minus, norm, plus, times, turn, turnedRight } from '../point.js';
import { distanceToSegment, line, segmentFromBulge } from '../segment.js';
import { CURVE_FIT, SAME_POINT } from '../tolerance.js';
import type { Point, Segment } from '../types.js';
import {
  bendGrowth,
  type Cubic,
  type Curve,
  curvatureOf,
  directionOf,
  type Elliptic,
  jetOf,
} from './curve.js';

/** A place on a curve where it bends more, or less, than beside it, or where it begins or ends. */
export interface Bend {
  readonly at: Point;
  /** Signed curvature, 1/mm, of the curve itself and not of the arcs: positive turns left, infinite at a corner. */
  readonly curvature: number;
}

/**
 * Directions, length 1, in which the arcs are to begin and end, near those of the curve. A node that is drawn as
 * a smooth one has two that differ by what the drawing program rounded; one for both sides makes it smooth.
 */
export interface Ends {
  readonly departing?: Point;
  readonly arriving?: Point;
}

interface Task {
  readonly curve: Curve;
  readonly ends: Ends;
  readonly tolerance: number;
}

export interface FittedCurve {
  readonly segments: readonly Segment[];
  readonly bends: readonly Bend[];
}

/**
 * Lines and arcs within `tolerance` (mm) of a curve, tangent to one another and to its ends.
 *
 * The curve is cut where its curvature is greatest, least or zero, so that every piece is a spiral: its
 * curvature only grows or only shrinks. A spiral piece becomes biarcs (two arcs with a common tangent) whose
 * joint lies on the curve; halves are taken until they are near enough. On a spiral such arcs bend no more
 * than the piece does at its more bent end and no less than at the other (each runs through a point of the
 * curve and touches it at an end: Meek and Walton, "Approximating smooth planar curves by arc splines", 1995,
 * cited from memory), so an arc never asks for a smaller bit than the curve.
 */
export function fitArcs(curve: Curve, tolerance = CURVE_FIT, ends: Ends = {}): FittedCurve {
  if (curve.kind === 'line') return straightCurve(curve);
  if (curve.kind === 'cubic' && isStraight(curve)) return straightCurve(curve);
  const round = curve.kind === 'elliptic' ? circular(curve) : undefined;
  if (round !== undefined) return round;
  const cuts = [0, ...spiralEnds(curve), 1];
  const segments = cuts
    .slice(1)
    .flatMap((end, i) => fitPiece({ curve, ends, tolerance }, cuts[i] ?? 0, end, 0));
  const bends = cuts.map((t) => ({ at: pointOf(curve, t), curvature: bendAt(curve, t) }));
  return { segments, bends };
}

/** Halving this often cuts a piece to a millionth; what is left then is a cusp's own rounding. */
const MAX_HALVINGS = 20;

/** A piece that turns farther than this is halved first: one biarc follows it badly, radians. */
const MAX_TURN = Math.PI / 2;

/** An arc of a larger radius is drawn as a line, mm: its center is too far off for exact work. */
const FLATTEST = 1e7;

/** Places at which a piece is held against its arcs. */
const SAMPLES = 24;

/** Steps in which a curve is searched for places of greatest, least and no curvature. */
const STEPS = 256;

// Curves that need no fitting

function straightCurve({ from, to }: { readonly from: Point; readonly to: Point }): FittedCurve {
  return distance(from, to) <= SAME_POINT
    ? { segments: [], bends: [] }
    : { segments: [line(from, to)], bends: [] };
}

/** All four points on the chord, within SAME_POINT, and in order along it. */
function isStraight({ from, control1, control2, to }: Cubic): boolean {
  const chord = minus(to, from);
  const length = norm(chord);
  if (length <= SAME_POINT) return [control1, control2].every((p) => distance(p, from) <= SAME_POINT);
  const onChord = (p: Point): boolean => {
    const along = dot(minus(p, from), chord) / length;
    const off = Math.abs(cross(chord, minus(p, from))) / length;
    return off <= SAME_POINT && along >= -SAME_POINT && along <= length + SAME_POINT;
  };
  return onChord(control1) && onChord(control2);
}

/** A part of a circle as true arcs, each at most a half turn; undefined for a real ellipse. */
function circular(curve: Elliptic): FittedCurve | undefined {
  const { u, v, center, sweep } = curve;
  const radius = norm(u);
  const uneven = Math.abs(radius - norm(v)) + Math.abs(dot(u, v)) / radius;
  if (uneven > 1e-9 * radius) return undefined;
  const ccw = sweep * cross(u, v) > 0;
  const count = Math.ceil(Math.abs(sweep) / Math.PI - 1e-9);
  const segments = Array.from({ length: count }, (_, i): Segment => {
    const from = pointOf(curve, i / count);
    return { kind: 'arc', from, to: pointOf(curve, (i + 1) / count), center, radius, ccw };
  });
  const curvature = (ccw ? 1 : -1) / radius;
  return { segments, bends: [{ at: jetOf(curve, 0.5).at, curvature }] };
}

// Pieces of one curve

/** The written ends where t is 0 or 1, so that neighbours meet exactly. */
function pointOf(curve: Curve, t: number): Point {
  if (t === 0) return curve.from;
  return t === 1 ? curve.to : jetOf(curve, t).at;
}

/** Where the curvature or its growth changes sign inside the curve, or where it turns back, in order. */
function spiralEnds(curve: Curve): readonly number[] {
  const turning = (t: number): number => {
    const { velocity, acceleration } = jetOf(curve, t);
    return cross(velocity, acceleration);
  };
  const growing = (t: number): number => bendGrowth(jetOf(curve, t));
  const ends = [...signChanges(turning), ...signChanges(growing), ...turnBacks(curve)].sort((a, b) => a - b);
  return ends.filter((t, i) => t > 1e-6 && t < 1 - 1e-6 && t - (ends[i - 1] ?? 0) > 1e-6);
}

/** Where the curve all but stands still and goes back the way it came, which its curvature may not show. */
function turnBacks(curve: Curve): readonly number[] {
  const speeding = (t: number): number => {
    const { velocity, acceleration } = jetOf(curve, t);
    return dot(velocity, acceleration);
  };
  return signChanges(speeding).filter((t) => {
    const { velocity, acceleration } = jetOf(curve, t);
    return norm(velocity) < 1e-3 * norm(acceleration);
  });
}

/** Roots between places where f differs in sign; where f is zero all along there is none. */
function signChanges(f: (t: number) => number): readonly number[] {
  const found: number[] = [];
  let before = { t: 0, value: f(0) };
  for (let i = 1; i <= STEPS; i++) {
    const t = closerAtEnds(i / STEPS);
    const value = f(t);
    if (value === 0) continue;
    if (before.value * value < 0) found.push(rootBetween(f, before.t, t, before.value));
    before = { t, value };
  }
  return found;
}

/** Even steps made short near 0 and 1, where a control point close to its end hides a sharp turn. */
const closerAtEnds = (share: number): number => (1 - Math.cos(Math.PI * share)) / 2;

/** By halving: always ends, and 60 halvings use up the digits. `atLow` is f(low). */
function rootBetween(f: (t: number) => number, low: number, high: number, atLow: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (a + b) / 2;
    if (atLow * f(middle) > 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

/** Curvature at t; where the curve stands still, that of the place just beside it. */
function bendAt(curve: Curve, t: number): number {
  const there = curvatureOf(jetOf(curve, t));
  if (Number.isFinite(there)) return there;
  return curvatureOf(jetOf(curve, t < 0.5 ? t + 1e-9 : t - 1e-9));
}

function fitPiece(task: Task, start: number, end: number, depth: number): readonly Segment[] {
  const { curve, tolerance } = task;
  const from = pointOf(curve, start);
  const to = pointOf(curve, end);
  const pair = biarc(task, start, end);
  if (pair !== undefined && deviation(curve, start, end, pair) <= tolerance) return pair;
  if (depth >= MAX_HALVINGS) return distance(from, to) <= SAME_POINT ? [] : [line(from, to)];
  const middle = (start + end) / 2;
  return [...fitPiece(task, start, middle, depth + 1), ...fitPiece(task, middle, end, depth + 1)];
}

/**
 * The biarc of a spiral piece. Whatever its joint J, the chords from J turn by half of what the curve turns;
 * so J is the point of the curve where turn(J − from, to − J) is just that. Each arc turns by twice the angle
 * between its chord and the tangent at its outer end.
 */
function biarc({ curve, ends }: Task, start: number, end: number): readonly Segment[] | undefined {
  const from = pointOf(curve, start);
  const to = pointOf(curve, end);
  const departing = (start === 0 ? ends.departing : undefined) ?? directionOf(curve, start, 1);
  const arriving = (end === 1 ? ends.arriving : undefined) ?? directionOf(curve, end, -1);
  const chord = minus(to, from);
  if (norm(chord) <= SAME_POINT) return undefined;
  const first = turn(departing, chord);
  const second = turn(chord, arriving);
  if (Math.abs(first) + Math.abs(second) > MAX_TURN) return undefined;
  const joint = jointOn(curve, start, end, { from, to, first, second });
  if (distance(joint, from) <= SAME_POINT || distance(joint, to) <= SAME_POINT) return undefined;
  return [
    arcOrLine(from, joint, turn(departing, minus(joint, from))),
    arcOrLine(joint, to, turn(minus(to, joint), arriving)),
  ];
}

interface ChordTurns {
  readonly from: Point;
  readonly to: Point;
  /** From the departing direction to the chord, and from there to the arriving one, radians. */
  readonly first: number;
  readonly second: number;
}

/**
 * The joint on the curve. Directions that are not quite the curve's own, as at a node that a drawing program
 * rounded, can drive it to an end of the piece, where an arc of no length turns by any angle; there the joint is
 * the one midway between the ends, whose two chords are alike.
 */
function jointOn(curve: Curve, start: number, end: number, turns: ChordTurns): Point {
  const { from, to, first, second } = turns;
  const middle = (start + end) / 2;
  const atStart = (first - second) / 2;
  // A piece as symmetrical as rounding lets one see has its joint anywhere; the middle is best.
  if (Math.abs(atStart) < 1e-13) return jetOf(curve, middle).at;
  const offLocus = (t: number): number => {
    const joint = jetOf(curve, t).at;
    return turn(minus(joint, from), minus(to, joint)) - (first + second) / 2;
  };
  const t = rootBetween(offLocus, start, end, atStart);
  const share = (t - start) / (end - start);
  return share < MIN_SHARE || share > 1 - MIN_SHARE
    ? jointMidway(from, to, first + second)
    : jetOf(curve, t).at;
}

/** A joint nearer to an end than this share of the piece has been driven there. */
const MIN_SHARE = 0.1;

/** Both chords from here to the ends turn by `turned` / 2 from one to the other, and are equally long. */
function jointMidway(from: Point, to: Point, turned: number): Point {
  const chord = minus(to, from);
  return plus(between(from, to, 0.5), times(turnedRight(chord), Math.tan(turned / 4) / 2));
}

/** From the angle between chord and tangent, which is half of the arc's sweep. */
function arcOrLine(from: Point, to: Point, halfSweep: number): Segment {
  const radius = distance(from, to) / (2 * Math.abs(Math.sin(halfSweep)));
  return radius > FLATTEST ? line(from, to) : segmentFromBulge(from, to, Math.tan(halfSweep / 2));
}

/** Greatest distance of sampled points of the piece from its arcs. */
function deviation(curve: Curve, start: number, end: number, pair: readonly Segment[]): number {
  let greatest = 0;
  for (let i = 1; i < SAMPLES; i++) {
    const { at } = jetOf(curve, start + (end - start) * closerAtEnds(i / SAMPLES));
    greatest = Math.max(greatest, Math.min(...pair.map((one) => distanceToSegment(at, one))));
  }
  return greatest;
}
