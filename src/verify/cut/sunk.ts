import { flattenCircle } from '../files/flatten.js';
import { type ClosedJoint, type ClosedLevel, levelOf } from './level.js';
import {
  area,
  type Box,
  difference,
  extents,
  intersection,
  type Polygons,
  rectangle,
  runsAt,
  shifted,
  turnedOver,
} from './polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from './route.js';
import { reachPastEnds } from './seat.js';

/**
 * A joint whose first board (the side) goes end first into sockets of the second (the front): half-blind
 * dovetails, flush or lipped, under one template or two.
 *
 * Both boards are cut to one depth h. The side stands on end under the template, its inside face toward the
 * operator; the front lies flat, inside face up, its end toward the operator and its shoulder at y = 0. To
 * close the joint the side is turned half a turn about x and let down into the sockets until its end lies on
 * their bottom: x stays, what was y on the side is −y on the front, and at the distance z from the side's end
 * the front is seen h − z below its inside face. Heights above the bit's tip are therefore h − z on the side
 * and z on the front. Where the sockets went deeper than the tails are long the shoulders meet first, and the
 * tails' ends stay that much above the bottom.
 *
 * Compared is the side's own room: the joint's width by the side's thickness. Tails that are left square are
 * pared afterwards, on their inside face, to the radius that the bit has at the same level of the sockets: the
 * spandrels outside that round are no part of the comparison, and nothing else is left out.
 */
export function assembleSunk(
  width: number,
  side: RoutedBoard,
  front: RoutedBoard,
  count: number,
  pared = false,
): ClosedJoint {
  const depth = Math.min(side.depth, front.depth);
  const lift = Math.max(0, front.depth - side.depth);
  const sideBox = extents(side.stock);
  const window: Box = { minX: 0, maxX: width, minY: 0, maxY: side.thickness };
  const levels: ClosedLevel[] = [];
  const pastEnds: number[] = [];
  for (let i = 0; i < count; i++) {
    const z = count === 1 ? 0 : (depth * i) / (count - 1);
    const standing = boardLeft(side.centres, radiusAt(side.cutter, side.depth - z));
    const lying = boardLeft(front.centres, radiusAt(front.cutter, z + lift));
    const turned = turnedOver(shifted(standing, -sideBox.minX, 0));
    const spandrels = pared ? spandrelsOf(turned, window, radiusAt(front.cutter, z + lift)) : [];
    const standingPared = difference(turned, spandrels);
    const options = { leftOut: spandrels, wallAt: AT_OUTSIDE_FACE };
    levels.push(levelOf(z, standingPared, lying, window, levels.at(-1), options));
    pastEnds.push(...reachPastEnds(turned, lying, AT_OUTSIDE_FACE));
  }
  return {
    levels,
    ...glueOf(levels, side, window),
    woodLines: [AT_OUTSIDE_FACE],
    ...(pastEnds.length > 0 && { pastEnds: Math.max(...pastEnds) }),
  };
}

/** Walls are straight at the side's outside face, mm: one template for both boards rounds the rest of them. */
const AT_OUTSIDE_FACE = 0.01;

/** Far enough from the inside face to read a tail's width there, mm: on the face a line runs along the edge. */
const INSIDE_FACE = 1e-4;

/** What is pared off both inside corners of every tail: the corner's square less the round in it. */
function spandrelsOf(tails: Polygons, { minX, maxX, maxY: thickness }: Box, radius: number): Polygons {
  const box = (x: number, toX: number): Polygons => [
    rectangle({
      minX: Math.min(x, toX),
      maxX: Math.max(x, toX),
      minY: thickness - radius,
      maxY: thickness,
    }),
  ];
  return runsAt(tails, thickness - INSIDE_FACE).flatMap(([from, to]) =>
    [
      { x: from, inward: radius },
      { x: to, inward: -radius },
    ]
      // A tail that runs off the board's edge has no corner there.
      .filter(({ x }) => x > minX + INSIDE_FACE && x < maxX - INSIDE_FACE)
      .flatMap(({ x, inward }) =>
        difference(box(x, x + inward), [discAt(x + inward, thickness - radius, radius)]),
      ),
  );
}

function discAt(x: number, y: number, radius: number) {
  return flattenCircle({ x, y }, radius);
}

/**
 * Long grain meets long grain on walls that look along x; the front's grain runs along y, so at the sockets' ends
 * it shows its end. A round is a wall as far as it runs along y.
 */
function glueOf(levels: readonly ClosedLevel[], side: RoutedBoard, window: Box) {
  const slope = 1 / Math.cos(side.cutter.angle);
  const frame = [rectangle(window)];
  const walls = levels.map(({ first, second }) =>
    Math.max(0, (alongY(first) + alongY(second) - alongY(frame)) / 2),
  );
  const sideArea = levels.slice(1).reduce((sum, level, i) => {
    const before = levels[i] ?? level;
    return sum + (slope * (level.z - before.z) * ((walls[i] ?? 0) + (walls[i + 1] ?? 0))) / 2;
  }, 0);
  const bottoms = area(intersection(levels[0]?.first ?? [], frame));
  const shoulders = area(intersection(levels.at(-1)?.second ?? [], frame));
  return { sideArea, shoulderArea: bottoms + shoulders };
}

function alongY(polygons: Polygons): number {
  return polygons.reduce(
    (sum, ring) =>
      ring.reduce((all, { y }, i) => all + Math.abs(y - (ring[(i + 1) % ring.length]?.y ?? y)), sum),
    0,
  );
}
