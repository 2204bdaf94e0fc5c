import { offsetRegion } from '../../geometry/offset.js';
import { extents, outline, rectangle, reversed } from '../../geometry/outline.js';
import { difference, intersection } from '../../geometry/regions/boolean.js';
import { distanceToSegment, lengthOf, line, parameterOf, pointAt } from '../../geometry/segment.js';
import type { Bend } from '../../geometry/svg/biarc.js';
import { mirrorY, translate } from '../../geometry/transform.js';
import type { Outline, Path, Point, Region } from '../../geometry/types.js';
import type { JointLine } from './line.js';

export type Side = 'one' | 'two';
export const sides: readonly Side[] = ['one', 'two'];

/**
 * One board under its template. Both lie flat with the waste toward the operator: board one face up, board two
 * face down, turned over about the joint like the page of a book, so that both reference edges go against the
 * same stop, and a bit that does not stand quite square leaves two edges that fit all the same. y = 0 is the
 * straight edge of the blank; the board keeps what lies above the line.
 */
export interface EdgeSide {
  readonly board: Side;
  /** The line itself, left to right; the waste lies to its right. */
  readonly path: Path;
  /** The line's bends in these coordinates: a bay of the waste, which the bit must enter, turns right. */
  readonly bends: readonly Bend[];
  /** y of the highest place of the line on the board. */
  readonly high: number;
}

/** How much of the blank's straight edge is cut away even where the line comes nearest to it, mm. */
export const TRIM = 3;

/** How high the line is on the board, from its lowest place to its highest, mm. */
export interface Heights {
  readonly low: number;
  readonly high: number;
}

export function heightsOf({ path }: JointLine, width: number): Heights {
  const box = extents(path);
  const strip = [rectangle(0, box.minY - 1, width, box.maxY + 1)];
  const below = belowOf(path, box.minY - 2);
  return {
    low: extents(...difference(strip, below)).minY,
    high: extents(...intersection(strip, below)).maxY,
  };
}

export function sideOf(board: Side, { path, bends }: JointLine, { low, high }: Heights): EdgeSide {
  const rise = board === 'one' ? TRIM - low : TRIM + high;
  const sign = board === 'one' ? 1 : -1;
  return {
    board,
    path: translate(board === 'one' ? path : mirrorY(path), 0, rise),
    bends: bends.map(({ at, curvature }) => ({
      at: { x: at.x, y: sign * at.y + rise },
      curvature: sign * curvature,
    })),
    high: TRIM + high - low,
  };
}

/** How far the waste runs past the board and toward the operator. */
export interface WasteReach {
  readonly width: number;
  /** Past both edges of the board. */
  readonly runOff: number;
  /** y of the open end, toward the operator. */
  readonly openTo: number;
  /** How far the waste's boundary stands behind the line, in the board's own wood. */
  readonly ease: number;
}

/** R: everything on the operator's side of the line, `ease` more of it, over the board and past both edges. */
export function wasteOf({ path }: EdgeSide, { width, runOff, openTo, ease }: WasteReach): Region {
  const below = belowOf(path, openTo - 1 - ease);
  const eased = ease > 0 ? offsetRegion(below, ease) : below;
  const top = extents(...eased).maxY + 1;
  return intersection(eased, [rectangle(-runOff, openTo, width + runOff, top)]);
}

/** The region below a path that runs from left to right, down to a height. */
function belowOf(path: Path, bottom: number): Region {
  const [first, last] = [path.segments[0], path.segments.at(-1)];
  if (first === undefined || last === undefined) return [];
  const [left, right] = [first.from, last.to];
  const low = Math.min(bottom, extents(path).minY - 1);
  const [a, b] = [
    { x: left.x, y: low },
    { x: right.x, y: low },
  ];
  return [outline([line(left, a), line(a, b), line(b, right), ...reversed(path).segments])];
}

/** The board's plan from the blank's edge to some way behind the line, or to its end. */
export function stockOf({ high }: EdgeSide, width: number, length: number | undefined): Outline {
  return rectangle(0, 0, width, Math.min(length ?? Infinity, high + BEHIND));
}

/** How much of the board behind the line is drawn, mm: what lies under the template. */
const BEHIND = 40;

/** How far along the line a point of it stands, from where the line comes onto the board, mm. */
export function alongLine({ path }: EdgeSide, at: Point): number {
  return lengthTo(path, at) - lengthTo(path, onto(path));
}

function lengthTo({ segments }: Path, at: Point): number {
  let passed = 0;
  let best = { off: Infinity, length: 0 };
  for (const one of segments) {
    const off = distanceToSegment(at, one);
    const length = lengthOf(one);
    if (off < best.off) best = { off, length: passed + parameterOf(one, at) * length };
    passed += length;
  }
  return best.length;
}

/** Where the line first comes to x = 0. */
function onto({ segments }: Path): Point {
  const one = segments.find(({ from, to }) => from.x <= 0 && to.x >= 0);
  if (one === undefined) return segments[0]?.from ?? { x: 0, y: 0 };
  let [a, b] = [0, 1];
  for (let i = 0; i < 50; i++) {
    const middle = (a + b) / 2;
    if (pointAt(one, middle).x < 0) a = middle;
    else b = middle;
  }
  return pointAt(one, b);
}
