import { type CrossedBoard, type CrossedJoint, type CrossedLevel, levelOf } from './crossed.js';
import { flattenCircle } from './flatten.js';
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
} from './polygons.js';
import { boardLeft, centresAtStops, radiusAt } from './route.js';

/**
 * A joint whose first board (the side) goes end first into sockets of the second (the front): half-blind
 * dovetails, flush or lipped, under one template or two.
 *
 * Both boards are cut to one depth h. The side stands on end under the template, its inside face toward the
 * operator; the front lies flat, inside face up, its end toward the operator and its shoulder at y = 0. To
 * close the joint the side is turned half a turn about x and let down into the sockets until its end lies on
 * their bottom: x stays, what was y on the side is −y on the front, and at the distance z from the side's end
 * the front is seen h − z below its inside face. Heights above the bit's tip are therefore h − z on the side
 * and z on the front.
 *
 * Compared is the side's own room: the joint's width by the side's thickness. Tails that are left square are
 * pared afterwards, on their inside face, to the radius that the bit has at the same level of the sockets: the
 * spandrels outside that round are no part of the comparison, and nothing else is left out.
 */
export function assembleSunk(
  width: number,
  side: CrossedBoard,
  front: CrossedBoard,
  count: number,
  pared = false,
): CrossedJoint {
  const depth = Math.min(side.depth, front.depth);
  const sideBox = extents(side.stock);
  const sideCentres = centresOf(side);
  const frontCentres = centresOf(front);
  const window: Box = { minX: 0, maxX: width, minY: 0, maxY: side.thickness };
  const levels: CrossedLevel[] = [];
  for (let i = 0; i < count; i++) {
    const z = count === 1 ? 0 : (depth * i) / (count - 1);
    const standing = boardLeft(sideCentres, radiusAt(side.cutter, depth - z));
    const lying = boardLeft(frontCentres, radiusAt(front.cutter, z));
    const turned = turnedOver(shifted(standing, -sideBox.minX, 0));
    const spandrels = pared ? spandrelsOf(turned, window, radiusAt(front.cutter, z)) : [];
    const standingPared = difference(turned, spandrels);
    const options = { leftOut: spandrels, wallAt: AT_OUTSIDE_FACE };
    levels.push(levelOf(z, standingPared, lying, window, levels.at(-1), options));
  }
  return { levels, ...glueOf(levels, side, window) };
}

function centresOf({ plate, stock, bushing, cutter, stops }: CrossedBoard) {
  return centresAtStops(plate, stock, bushing, cutter.diameter / 2, stops);
}

/** y becomes −y; rings keep the sense they had. */
function turnedOver(polygons: Polygons): Polygons {
  return polygons.map((ring) => ring.map(({ x, y }) => ({ x, y: -y })).reverse());
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

function glueOf(levels: readonly CrossedLevel[], side: CrossedBoard, window: Box) {
  const slope = 1 / Math.cos(side.cutter.angle);
  const sideArea = levels.slice(1).reduce((sum, level, i) => {
    const before = levels[i] ?? level;
    return sum + (slope * (level.z - before.z) * (level.glueLength + before.glueLength)) / 2;
  }, 0);
  const frame = [rectangle(window)];
  const bottoms = area(intersection(levels[0]?.first ?? [], frame));
  const shoulders = area(intersection(levels.at(-1)?.second ?? [], frame));
  return { sideArea, shoulderArea: bottoms + shoulders };
}
