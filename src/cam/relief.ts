import { offsetRegion } from '../geometry/offset.js';
import { area, extents, outline } from '../geometry/outline.js';
import { distance, minus, plus, times, turn, turnedLeft, turnedRight, unit } from '../geometry/point.js';
import { difference, unionOfAll } from '../geometry/regions/boolean.js';
import { nested } from '../geometry/regions/nesting.js';
import { tidyRegion } from '../geometry/regions/tidy.js';
import { distanceToSegment, lengthOf, line, pointAt, sweepOf, tangentAt } from '../geometry/segment.js';
import { EXACT_FIT, SLIVER } from '../geometry/tolerance.js';
import type { Extents, Outline, Point, Region } from '../geometry/types.js';

/**
 * Inside corners of a plate that an end mill is too wide for. A mill of radius r leaves waste standing wherever
 * the waste turns tighter than r: the plate closed by a disc of r (Serra 1982: dilated, then eroded), less the
 * plate. A relief is a bite past the corner, made by the mill's own round, so that no waste is left in it.
 */
export type Relief = 'corner' | 'edge' | 'none';

/** Waste that the mill cannot reach. */
export interface Missed {
  /** The corner's apex, or the middle of a gap that is too narrow. */
  readonly at: Point;
  /** Radius of the corner, 0 where it is sharp; absent for a gap between two sides. */
  readonly radius?: number;
}

/** Waste smaller than this, mm², is less than what stands out by 0.01 mm in a square corner. */
const UNREACHED = 1e-4;

/** The plate as a mill of this diameter makes it, with relieved corners, and what it cannot make even so. */
export function relieved(
  plate: Region,
  cutter: number,
  relief: Relief,
): { readonly plate: Region; readonly corners: readonly InsideCorner[]; readonly missed: readonly Missed[] } {
  const tight = missedBy(plate, cutter);
  if (tight.length === 0) return { plate, corners: [], missed: [] };
  const corners = tight.flatMap(({ corner }) => corner ?? []);
  if (relief === 'none' || corners.length === 0) return { plate, corners: [], missed: tight.map(missedAt) };
  const bites = corners.map((one) => biteAt(one, cutter / 2, relief));
  const bitten = difference(plate, unionOfAll(bites.map((one) => [one])));
  return { plate: bitten, corners, missed: missedBy(bitten, cutter).map(missedAt) };
}

/** The widest mill up to `most` that reaches all, mm, to 0.001 and then rounded down to 0.01; 0 when none does. */
export function widestMill(plate: Region, relief: Relief, most: number): number {
  let [fits, fails] = [0, most];
  while (fails - fits > 0.001) {
    const middle = (fits + fails) / 2;
    if (relieved(plate, middle, relief).missed.length === 0) fits = middle;
    else fails = middle;
  }
  return Math.floor(fails * 100) / 100;
}

/** A place where the waste runs into the plate with a corner, sharp or rounded. */
interface InsideCorner {
  readonly apex: Point;
  readonly radius: number;
  /** Half the angle between the sides, as the waste sees it, radians. */
  readonly half: number;
  /** Into the waste, between the sides. */
  readonly bisector: Point;
  /** Along the sides, away from the corner, and how long they are. */
  readonly sides: readonly [CornerSide, CornerSide];
}

interface CornerSide {
  readonly along: Point;
  readonly length: number;
}

interface Bay {
  readonly middle: Point;
  readonly corner?: InsideCorner;
}

const missedAt = ({ middle, corner }: Bay): Missed =>
  corner ? { at: corner.apex, radius: corner.radius } : { at: middle };

function missedBy(plate: Region, cutter: number): readonly Bay[] {
  const step = cutter / 2 - EXACT_FIT;
  const closed = offsetRegion(offsetRegion(plate, step), -step);
  const left = tidyRegion(difference(tidyRegion(closed, SLIVER), plate), SLIVER);
  const mill = cutter / 2;
  const corners = plate
    .flatMap((one) => cornersOf(one, mill))
    .filter((one) => isClear(touching(one, mill), mill, plate));
  return nested(left)
    .filter(({ outline: one, depth }) => depth === 0 && area(one) > UNREACHED)
    .flatMap(({ outline: one }): readonly Bay[] => {
      const box = extents(one);
      const middle = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
      const within = corners.filter(({ apex }) => isNear(apex, box));
      return within.length === 0 ? [{ middle }] : within.map((corner) => ({ middle, corner }));
    });
}

const isNear = ({ x, y }: Point, box: Extents): boolean =>
  x > box.minX - 1e-3 && x < box.maxX + 1e-3 && y > box.minY - 1e-3 && y < box.maxY + 1e-3;

/** Sharp corners where the outline turns right, and arcs that run clockwise with a radius under the mill's. */
function cornersOf({ segments }: Outline, mill: number): readonly InsideCorner[] {
  return segments.flatMap((segment, i): readonly InsideCorner[] => {
    const before = segments.at(i - 1) ?? segment;
    const after = segments[(i + 1) % segments.length] ?? segment;
    const sharp = cornerBetween(
      tangentAt(before, 1),
      tangentAt(segment, 0),
      segment.from,
      0,
      lengthOf(before),
      lengthOf(segment),
    );
    if (segment.kind === 'line' || segment.ccw || segment.radius >= mill) return sharp;
    // The whole of a small arc is one corner; a wide one ends before its sides do.
    if (Math.abs(sweepOf(segment)) > 0.95 * Math.PI) return sharp;
    const round = cornerBetween(
      tangentAt(segment, 0),
      tangentAt(segment, 1),
      pointAt(segment, 0.5),
      segment.radius,
      lengthOf(before),
      lengthOf(after),
    );
    return [...sharp, ...round];
  });
}

function cornerBetween(
  arriving: Point,
  leaving: Point,
  apex: Point,
  radius: number,
  lengthBefore: number,
  lengthAfter: number,
): readonly InsideCorner[] {
  const angle = -turn(arriving, leaving);
  if (angle < 1e-3 || angle > Math.PI - 1e-3) return [];
  const back = times(arriving, -1);
  return [
    {
      apex,
      radius,
      half: (Math.PI - angle) / 2,
      bisector: unit(plus(back, leaving)),
      sides: [
        { along: back, length: lengthBefore },
        { along: leaving, length: lengthAfter },
      ],
    },
  ];
}

/**
 * What the mill takes between touching both sides and having cleared the corner. Its centre starts on the
 * bisector, r / sin β from where the sides would meet (β half the angle between them), where it touches both.
 * - corner: it goes on along the bisector until its round passes through the apex.
 * - edge: it goes on along the longer side, past the corner, until it has cleared the apex; so the bite is in
 *   the shorter side alone, and the longer one, which may guide a bushing, stays whole.
 */
function biteAt(corner: InsideCorner, mill: number, relief: 'corner' | 'edge'): Outline {
  const start = touching(corner, mill);
  if (relief === 'corner') return slot(start, plus(corner.apex, times(corner.bisector, mill)), mill);
  const { along } = longer(...corner.sides);
  const square = turn(along, corner.bisector) > 0 ? turnedLeft(along) : turnedRight(along);
  // From here the round touches the longer side where the sides would meet.
  return slot(start, plus(meetingWithBit(corner), times(square, mill)), mill);
}

/** Of two that are as long, the one more across x, so that both corners of a slot are treated alike. */
function longer(one: CornerSide, other: CornerSide): CornerSide {
  const more = one.length - other.length;
  const alike = Math.abs(more) < 1e-6;
  return (alike ? Math.abs(one.along.y) >= Math.abs(other.along.y) : more > 0) ? one : other;
}

/** Where the sides would meet if the corner were sharp. */
const meetingWithBit = ({ apex, radius, half, bisector }: InsideCorner): Point =>
  minus(apex, times(bisector, radius / Math.sin(half) - radius));

/** The place of a mill of this radius that touches both sides. */
const touching = (corner: InsideCorner, mill: number): Point =>
  plus(meetingWithBit(corner), times(corner.bisector, mill / Math.sin(corner.half)));

/** A mill wider than the gap that the corner lies in touches more than its two sides: no relief helps there. */
const isClear = (at: Point, mill: number, plate: Region): boolean =>
  plate.every(({ segments }) => segments.every((one) => distanceToSegment(at, one) > mill - 1e-3));

/** All points within r of the line from a to b. */
function slot(a: Point, b: Point, r: number): Outline {
  const along = distance(a, b) > SLIVER ? unit(minus(b, a)) : { x: 1, y: 0 };
  const end = distance(a, b) > SLIVER ? b : plus(a, times(along, SLIVER));
  const right = times(turnedRight(along), r);
  const left = times(turnedLeft(along), r);
  return outline([
    line(plus(a, right), plus(end, right)),
    { kind: 'arc', from: plus(end, right), to: plus(end, left), center: end, radius: r, ccw: true },
    line(plus(end, left), plus(a, left)),
    { kind: 'arc', from: plus(a, left), to: plus(a, right), center: a, radius: r, ccw: true },
  ]);
}
