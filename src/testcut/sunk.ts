import { type CrossedBoard, type CrossedJoint, type CrossedLevel, levelOf } from './crossed.js';
import { area, type Box, extents, intersection, type Polygons, rectangle, shifted } from './polygons.js';
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
 * Compared is the side's own room: the joint's width by the side's thickness.
 */
export function assembleSunk(
  width: number,
  side: CrossedBoard,
  front: CrossedBoard,
  count: number,
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
    levels.push(levelOf(z, turned, lying, window, levels.at(-1)));
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
