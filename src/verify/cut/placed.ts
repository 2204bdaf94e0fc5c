import type { Placed, Placement } from '../../joints/contract.js';
import { type ClosedJoint, type ClosedLevel, levelOf } from './level.js';
import { area, type Box, intersection, type Polygon, type Polygons, rectangle } from './polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from './route.js';

/**
 * Boards whose routers' axes are parallel when the joint is closed: the second is moved onto the first as the family says
 * (joints/contract.ts, Placement), or it is a board that no template cuts and stands in the first one's room. What is
 * compared is that room, level by level: u counts from the surface that the first one's template lies on. Walls show as
 * gaps and overlaps in a level's plane, and so does a floor that is too high or too low, in the levels between the two.
 */
export function assemblePlaced(
  first: RoutedBoard,
  second: RoutedBoard | undefined,
  count: number,
  { room, second: place, glued }: Placed,
): ClosedJoint {
  const window: Box = { minX: room.x[0], maxX: room.x[1], minY: room.y[0], maxY: room.y[1] };
  const leftOut = room.open ?? [];
  const other = secondBoard(place, second);
  const own = (u: number) => leftAt(first, u);
  const floors = [first.depth, ...other.floors];
  const levels: ClosedLevel[] = [];
  let before: readonly unknown[] = [];
  for (const u of levelsOf(room.u, floors, count)) {
    // Between two floors of straight bits one level is as the other.
    const band = floors.map((floor) => u < floor);
    const last = levels.at(-1);
    const alike = last && isStraight(first, second) && band.every((one, i) => one === before[i]);
    levels.push(alike ? { ...last, z: u } : levelOf(u, own(u), other.at(u), window, last, { leftOut }));
    before = band;
  }
  const walls = levels.slice(1).reduce((sum, level, i) => {
    const from = levels[i] ?? level;
    return sum + ((level.z - from.z) * (from.glueLength + level.glueLength)) / 2;
  }, 0);
  const floorsArea = floorArea(levels, window);
  return {
    levels,
    ...(glued === 'walls'
      ? { sideArea: walls, shoulderArea: floorsArea }
      : { sideArea: floorsArea, shoulderArea: walls }),
    woodLines: [],
  };
}

/** A level this near to a floor would see either side of it: it is moved off, mm; floors that are nearer are one. */
export const FLOOR = 0.005;

/** Evenly spaced from the top of the room to its bottom, none on a floor, and one between floors that differ. */
function levelsOf(
  [from, to]: readonly [number, number],
  floors: readonly number[],
  count: number,
): readonly number[] {
  const even = Array.from({ length: count }, (_, i) =>
    count === 1 ? from : from + ((to - from) * i) / (count - 1),
  ).map((u) => (floors.some((floor) => Math.abs(u - floor) < FLOOR) ? clear(u, floors, [from, to]) : u));
  const inside = floors.filter((floor) => floor > from + FLOOR && floor < to - FLOOR).toSorted(ascending);
  const between = inside.flatMap((floor, i) => {
    const next = inside[i + 1];
    return next !== undefined && next - floor > FLOOR ? [(floor + next) / 2] : [];
  });
  return [...even, ...between].toSorted(ascending);
}

/** The side of the floors that lies in the room, and above them where both do. */
function clear(u: number, floors: readonly number[], [from, to]: readonly [number, number]): number {
  const near = floors.filter((floor) => Math.abs(u - floor) < 2 * FLOOR);
  const above = Math.min(...near) - FLOOR;
  return above > from ? above : Math.min(Math.max(...near) + FLOOR, to);
}

const ascending = (one: number, other: number): number => one - other;

function isStraight(...boards: readonly (RoutedBoard | undefined)[]): boolean {
  return boards.every((board) => board === undefined || board.cutter.angle === 0);
}

/** A board's wood at a depth below the surface that its template lies on; none above it and below its other face. */
function leftAt({ centres, cutter, depth, thickness, stock }: RoutedBoard, u: number): Polygons {
  if (u < -FLOOR || u > thickness + FLOOR) return [];
  return u < depth ? boardLeft(centres, radiusAt(cutter, depth - u)) : stock;
}

/** The second board as the first one sees it: its wood at a depth, and the depths at which that changes. */
function secondBoard(place: Placed['second'], board: RoutedBoard | undefined) {
  if ('uncut' in place) return { floors: [], at: () => [place.uncut] };
  if (!board) throw new Error('a board that is moved onto the other one needs a template');
  const depthOf = (u: number) => (place.turned ? place.u - u : u - place.u);
  const floor = place.turned ? place.u - board.depth : place.u + board.depth;
  return { floors: [floor], at: (u: number) => movedPolygons(leftAt(board, depthOf(u)), place) };
}

/** Polygons of the second board in the plane of the first one's template. */
export function movedPolygons(polygons: Polygons, { turned, angle, x, y }: Placement): Polygons {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return polygons.map((ring): Polygon => {
    const moved = ring.map((at) => {
      const up = turned ? -at.y : at.y;
      return { x: x + cos * at.x - sin * up, y: y + sin * at.x + cos * up };
    });
    return turned ? moved.reverse() : moved;
  });
}

/** Where the first board's wood begins below the second one's: the floor that carries it. */
function floorArea(levels: readonly ClosedLevel[], window: Box): number {
  const frame = [rectangle(window)];
  return levels.slice(1).reduce((sum, { first }, i) => {
    const above = levels[i];
    if (!above || above.first === first) return sum;
    return sum + area(intersection(intersection(first, above.second), frame));
  }, 0);
}
