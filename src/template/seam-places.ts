import { linesOf } from '../drawing/drawing.js';
import type { Item } from '../drawing/model.js';
import { extents } from '../geometry/outline.js';
import { minus, plus, times, turnedRight, unit } from '../geometry/point.js';
import { clipLine } from '../geometry/regions/clip.js';
import { arc, extentsOfSegment, line } from '../geometry/segment.js';
import type { Extents, Point, Segment } from '../geometry/types.js';
import { boardsUnder, type HalfTurn, type Plate, type PlateSide } from './plate.js';

/** Where along x a seam across a plate may run: no finger is parted near its edge, no screw and no word is cut. */

/** No seam nearer than this to an edge that guides the bushing, nor to a screw; common practice, no source, mm. */
export const SEAM_CLEAR = 5;

/** Places for a seam in one wide clear stretch are this far apart, mm. */
const SEAM_STEP = 25;

/** What a seam takes of a plate beside its straight line: its key along y, and what stands left and right of it. */
export interface Crossing {
  readonly key: readonly [number, number];
  readonly left: number;
  readonly right: number;
}

/** From and to, along x. */
type Stretch = readonly [number, number];

/**
 * Places between `minX` and `maxX` of `within`, over the board only, so that every part has some of it. With
 * `throughRoots` a seam may also run through an opening whose far end guides the bushing, if it keeps clear of
 * the fingers at both sides.
 */
export function placesFor(
  plate: Plate,
  words: readonly Item[],
  { key, left, right }: Crossing,
  within: Extents,
  throughRoots: boolean,
): readonly number[] {
  const closed: readonly Stretch[] = [
    ...plate.sides.flatMap((side) => closedBySide(side, throughRoots)),
    ...innerStretches(plate).map((one) => beside(one, SEAM_CLEAR)),
    ...words
      .filter((item) => item.kind === 'text')
      .map((item) => extents(...linesOf(item)))
      .map(({ minX, maxX }) => beside([minX, maxX], SEAM_CLEAR / 2)),
    ...[...plate.screws, ...plate.registers].map((screw): Stretch => {
      const level =
        screw.y + screw.radius > key[0] - SEAM_CLEAR && screw.y - screw.radius < key[1] + SEAM_CLEAR;
      const at: Stretch = [screw.x - screw.radius, screw.x + screw.radius];
      return level ? beside(at, left, right) : beside(at, SEAM_CLEAR);
    }),
  ];
  const boards = boardsUnder(plate.cut);
  const open = openBetween(closed, [
    Math.max(within.minX, boards.minX + SEAM_CLEAR),
    Math.min(within.maxX, boards.maxX - SEAM_CLEAR),
  ]);
  return open.flatMap(([from, to]) => {
    const count = Math.max(1, Math.floor((to - from) / SEAM_STEP));
    return Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);
  });
}

const beside = ([from, to]: Stretch, by: number, more = by): Stretch => [from - more, to + by];

/** What is left of a stretch beside closed ones. */
function openBetween(closed: readonly Stretch[], [from, to]: Stretch): readonly Stretch[] {
  const sorted = [...closed].sort(([a], [b]) => a - b);
  const open: Stretch[] = [];
  let at = from;
  for (const [start, end] of sorted) {
    if (start > at) open.push([at, Math.min(start, to)]);
    at = Math.max(at, end);
  }
  if (at < to) open.push([at, to]);
  return open.filter(([a, b]) => b > a);
}

/** What one working edge closes to seams, along x on the plate. */
function closedBySide(side: PlateSide, throughRoots: boolean): readonly Stretch[] {
  const closed = guidingOfSide(side).map((one) => beside(one, SEAM_CLEAR));
  const opened = throughRoots ? middlesOfOpenings(side) : [];
  return closed
    .flatMap((one) => openBetween(opened, one))
    .map(([from, to]): Stretch => turnedBack([from, to], side.turned));
}

/** Openings inside the plate; whether they guide is not asked. */
function innerStretches({ holes, screws, registers }: Plate): readonly Stretch[] {
  return holes
    .slice(0, holes.length - screws.length - registers.length)
    .map((one) => extents(one))
    .map(({ minX, maxX }): Stretch => [minX, maxX]);
}

/** Levels at which an opening's walls are looked for. */
const WALL_LEVELS = 6;

/**
 * From and to of the middle of every opening between two fingers, SEAM_CLEAR away from their walls. Walls are
 * followed from where fingers are narrowest up to where the opening may begin to be round.
 */
function middlesOfOpenings({ cut, outline, box, spineFrom }: PlateSide): readonly Stretch[] {
  const gapsAt = (y: number): readonly Stretch[] => {
    const ends = [
      { x: box.minX - 1, y },
      { x: box.maxX + 1, y },
    ] as const;
    const solid = clipLine(...ends, [outline]).map((one) => extents(one));
    return solid.slice(1).map(({ minX }, i): Stretch => [solid[i]?.maxX ?? minX, minX]);
  };
  // A hair inside, as a line may run along an edge there.
  const narrowest = cut.narrowestAt + 1e-3;
  return gapsAt(narrowest).flatMap(([from, to]) => {
    const straight = Math.max(0, spineFrom - (to - from) / 2 - narrowest);
    const walls = Array.from(
      { length: WALL_LEVELS },
      (_, i) => narrowest + (straight * i) / (WALL_LEVELS - 1),
    )
      .flatMap(gapsAt)
      .filter(([a, b]) => a < to && b > from);
    const low = Math.max(from, ...walls.map(([a]) => a)) + SEAM_CLEAR;
    const high = Math.min(to, ...walls.map(([, b]) => b)) - SEAM_CLEAR;
    return low < high ? [[low, high] as const] : [];
  });
}

/**
 * From and to, along x as the side has it, of every edge that guides the bushing while the bit is in a board. With
 * the bushing against an edge its middle is half the bushing off it, square to it: round a finger's tip, or in the
 * end of an opening, that is often too far from any board for the bit to reach one.
 */
function guidingOfSide({ cut, outline, box }: PlateSide): readonly Stretch[] {
  const board = extents(...cut.stock.map((one) => one.outline));
  const whole = extents(outline);
  return outline.segments.flatMap((segment) => {
    const at = extentsOfSegment(segment);
    const middle = extentsOfSegment(movedOut(segment, cut.bushing.outside / 2));
    // Along y only: a board may stand at two stops.
    const away = Math.max(middle.minY - board.maxY, board.minY - middle.maxY);
    const outOfReach = away >= cut.bit.diameter / 2 - 1e-6 || at.minY > box.maxY - 1e-6;
    return outOfReach || onFrame(segment.from, segment.to, whole) ? [] : [[at.minX, at.maxX] as const];
  });
}

/** A segment of an outline moved away from the sheet, which lies on its left; a hollow no wider than that is its middle. */
function movedOut(segment: Segment, by: number): Segment {
  if (segment.kind === 'line') {
    const away = times(turnedRight(unit(minus(segment.to, segment.from))), by);
    return line(plus(segment.from, away), plus(segment.to, away));
  }
  const { from, to, center, radius, ccw } = segment;
  const share = Math.max(0, radius + (ccw ? by : -by)) / radius;
  const moved = (p: Point): Point => plus(center, times(minus(p, center), share));
  return share > 0 ? arc(moved(from), moved(to), center, ccw) : line(center, center);
}

/** The plate's own sides and their rounded corners. */
function onFrame(from: Point, to: Point, { minX, maxX, minY, maxY }: Extents): boolean {
  const beside = ({ x }: Point) => x < minX + 1e-6 || x > maxX - 1e-6;
  const along = ({ y }: Point) => y < minY + 1e-6 || y > maxY - 1e-6;
  return beside(from) || beside(to) || (along(from) && along(to));
}

const turnedBack = ([from, to]: Stretch, turn: HalfTurn | undefined): Stretch =>
  turn ? [turn.x - to, turn.x - from] : [from, to];
