import { distance, plus, turn, unit } from '../point.js';
import { CURVE_FIT, SAME_POINT, SMOOTH_TURN } from '../tolerance.js';
import type { Path, Point, Segment } from '../types.js';
import { type Bend, type Ends, fitArcs } from './biarc.js';
import { type CurveChain, type PathProblem, readCurves } from './commands.js';
import { type Affine, type Curve, directionOf, IDENTITY, movedCurve } from './curve.js';

export type { Expected, PathProblem as PathTrouble } from './commands.js';

/** A drawn line as lines and true arcs, mm. */
export interface DrawnPath {
  readonly path: Path;
  /** true when it was closed with Z, or ends where it begins. */
  readonly closed: boolean;
  /** Where it bends most and least, in order, from the curves themselves; corners have infinite curvature. */
  readonly bends: readonly Bend[];
}

export type SvgPathReading = { readonly ok: true; readonly subpaths: readonly DrawnPath[] } | PathProblem;

/** A coordinate farther out than this is no wood, in the path's own units. */
const FARTHEST = 1e6;

/**
 * Reads the `d` of an SVG path. `placed` takes its units to mm with y up: SVG's y runs down, so its fourth
 * number is below 0 for an upright drawing. Béziers, ellipses, and circles that the transform makes ellipses,
 * become arcs within `tolerance` (mm), tangent to one another where the curve is smooth.
 */
export function readSvgPath(d: string, placed: Affine = IDENTITY, tolerance = CURVE_FIT): SvgPathReading {
  const read = readCurves(d, FARTHEST);
  if (!read.ok) return read;
  return { ok: true, subpaths: read.chains.map((chain) => drawn(chain, placed, tolerance)) };
}

function drawn(chain: CurveChain, placed: Affine, tolerance: number): DrawnPath {
  const curves = chain.curves.map((one) => movedCurve(one, placed)).filter((one) => !isPoint(one));
  const fitted = curves.map((one, i) => fitArcs(one, tolerance, endsOf(curves[i - 1], one, curves[i + 1])));
  const segments = chained(fitted.flatMap((one) => one.segments));
  const bends = fitted.flatMap((one, i) => [...one.bends, ...cornerAfter(curves[i], curves[i + 1])]);
  const [first, last] = [curves[0], curves.at(-1)];
  const meets = first !== undefined && last !== undefined && distance(first.from, last.to) <= SAME_POINT;
  return { path: { closed: false, segments }, closed: chain.closed || meets, bends };
}

function isPoint(curve: Curve): boolean {
  if (curve.kind === 'elliptic') return false;
  const controls = curve.kind === 'cubic' ? [curve.control1, curve.control2] : [];
  return [...controls, curve.to].every((p) => distance(p, curve.from) <= SAME_POINT);
}

/** At a smooth node one direction for both curves: that of a line or circle, which cannot bend, or between the two. */
function endsOf(before: Curve | undefined, one: Curve, after: Curve | undefined): Ends {
  const departing = before && sharedPoint(before, one);
  const arriving = after && sharedPoint(one, after);
  return { ...(departing && { departing }), ...(arriving && { arriving }) };
}

function sharedPoint(one: Curve, next: Curve): Point | undefined {
  const [out, into] = [directionOf(one, 1, -1), directionOf(next, 0, 1)];
  if (Math.abs(turn(out, into)) > SMOOTH_TURN) return undefined;
  if (one.kind !== 'cubic') return out;
  return next.kind === 'cubic' ? unit(plus(out, into)) : into;
}

function cornerAfter(one: Curve | undefined, next: Curve | undefined): readonly Bend[] {
  if (one === undefined || next === undefined) return [];
  const angle = turn(directionOf(one, 1, -1), directionOf(next, 0, 1));
  if (Math.abs(angle) <= SMOOTH_TURN) return [];
  return [{ at: next.from, curvature: angle > 0 ? Infinity : -Infinity }];
}

/** Each segment starts at the very point where the one before it ends. */
function chained(segments: readonly Segment[]): readonly Segment[] {
  return segments.map((one, i) => {
    const before = segments[i - 1];
    return before === undefined || before.to === one.from ? one : { ...one, from: before.to };
  });
}
