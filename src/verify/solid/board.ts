import { extents } from '../cut/polygons.js';
import type { RoutedBoard } from '../cut/route.js';
import type { Uncut } from '../files/reported.js';
import type { Blank } from './joint.js';
import type { Keeper, SolidBody } from './kernel.js';
import { sweptBody } from './swept.js';

/** How a board is held: with its end up under the template, or flat with its inside face up. */
export type Held = 'on-end' | 'flat';

/** What is shown of a board behind its joint, mm. */
const STUB = 50;

/** How far the bit is taken to reach above the board, mm: a cut that ends on a surface would leave a skin. */
const ABOVE = 1;

/** A board as its written template lets the bit cut it, in template coordinates; z = 0 at the bit's tip. */
export function boardAsCut(bench: Keeper, board: RoutedBoard, blank: Blank, held: Held): SolidBody {
  const { centres, cutter, depth } = board;
  const whole = held === 'on-end' ? standing(bench, board, blank) : lying(bench, board, blank);
  return bench.keep(whole.subtract(sweptBody(bench, centres.polygons, cutter, depth + ABOVE)));
}

/** A board that no template cuts, standing on end on a floor: its outline there, from the floor up. */
export function uncutBoard(
  { kernel, keep }: Keeper,
  { uncut }: Uncut,
  { length }: Blank,
  floor: number,
): SolidBody {
  const end = uncut.map(({ x, y }): [number, number] => [x, y]);
  return keep(keep(kernel.Manifold.extrude([end], length ?? STUB)).translate([0, 0, floor]));
}

/** From the end that is cut, downward. */
function standing({ kernel, keep }: Keeper, { stock, depth }: RoutedBoard, { length }: Blank): SolidBody {
  const end = stock.map((ring) => ring.map(({ x, y }): [number, number] => [x, y]));
  const long = length ?? depth + STUB;
  return keep(keep(kernel.Manifold.extrude(end, long)).translate([0, 0, depth - long]));
}

/** From the end that is cut, away from the operator. The lip stands past the rabbet's shoulder, below its bottom. */
function lying(bench: Keeper, { stock, depth }: RoutedBoard, { thickness, length, lip }: Blank): SolidBody {
  const { minX, maxX, minY, maxY } = extents(stock);
  const far = length === undefined ? Math.max(maxY, STUB) : minY + length;
  const box = boxed(bench, [minX, minY, depth - thickness], [maxX, far, depth]);
  if (!lip) return box;
  const shoulder: Spot3 = [minX + lip.lower, minY + lip.end, depth - lip.rabbet];
  const inside = boxed(bench, shoulder, [maxX - lip.upper, far, depth]);
  const foot = boxed(bench, [minX, minY, depth - thickness], [maxX, far, depth - lip.rabbet]);
  return bench.keep(foot.add(inside));
}

type Spot3 = readonly [number, number, number];

/** An upright box between two of its corners. */
export function boxed({ kernel, keep }: Keeper, from: Spot3, to: Spot3): SolidBody {
  const [x, y, z] = from;
  const size: [number, number, number] = [to[0] - x, to[1] - y, to[2] - z];
  return keep(keep(kernel.Manifold.cube(size)).translate([x, y, z]));
}
