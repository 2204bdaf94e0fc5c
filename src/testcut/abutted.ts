import { type ClosedJoint, type ClosedLevel, levelOf } from './level.js';
import { type Box, turnedOver } from './polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from './route.js';

/**
 * Two flat boards that meet along a line, each cut right through. Board one lies face up and board two face
 * down, turned over about the joint; both have their blank's edge at y = 0 and their waste toward the operator.
 * To close the joint board two is turned over again: x stays, and its y becomes `meeting` − y, where `meeting`
 * is what the two y come to, added, at the line.
 *
 * Levels are depths from the upper face; a straight bit makes them all alike.
 */
export function assembleAbutted(
  width: number,
  first: RoutedBoard,
  second: RoutedBoard,
  count: number,
  meeting: number,
): ClosedJoint {
  const depth = Math.min(first.thickness, second.thickness);
  const window: Box = { minX: 0, maxX: width, minY: 0, maxY: meeting };
  const levels: ClosedLevel[] = [];
  for (let i = 0; i < count; i++) {
    const z = count === 1 ? 0 : (depth * i) / (count - 1);
    const before = levels.at(-1);
    const alike = before && first.cutter.angle === 0 && second.cutter.angle === 0;
    const lying = alike ? before.first : boardLeft(first.centres, radiusAt(first.cutter, first.depth - z));
    const turned = alike
      ? before.second
      : turnedOver(boardLeft(second.centres, radiusAt(second.cutter, second.depth - z)), meeting);
    levels.push(alike ? { ...before, z } : levelOf(z, lying, turned, window, before));
  }
  // All of the line is glued, and none of it is a shoulder.
  return { levels, sideArea: depth * (levels[0]?.glueLength ?? 0), shoulderArea: 0, woodLines: [] };
}
