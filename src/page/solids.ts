import type { Placed } from '../joints/contract.js';
import { routedBoard, type TestCutBoard, type TestCutRequest } from '../verify/assemble.js';
import { extents, intersection, type Polygons, rectangle } from '../verify/cut/polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from '../verify/cut/route.js';

/**
 * Both boards of a joint as the test cut routes them, in slabs along the router's axis, and closed as the test cut
 * closes them. The joint's own axes, mm: a along the joint from the reference edge, b downward, c toward whoever looks
 * at it. A board that stands on end has its end down and its outside face in front, as in the drawing of the joint;
 * boards that meet along a line lie face up.
 */
export interface BoardSolid {
  readonly board: string;
  /** As deep as the bit goes, from the surface that the template lies on. */
  readonly cut: readonly Slab[];
  /** What is below it. */
  readonly rest: readonly Slab[];
  /** Where a point of the cut (x, y in the plane of the template, u below its surface) stands in the joint. */
  readonly place: Placing;
  /** The way along c that this board is drawn out of the joint: −1, 0 or 1. */
  readonly pulls: number;
}

/** One layer of a board: what is left between two depths below the surface that the template lies on. */
export interface Slab {
  readonly from: number;
  readonly to: number;
  readonly polygons: Polygons;
}

/** a = x + a₀; b and c from y and u: b = b₀ + y·by + u·bu, and so for c. Turned and moved, never mirrored. */
export interface Placing {
  readonly a: number;
  readonly b: readonly [number, number, number];
  readonly c: readonly [number, number, number];
}

/** Layers that follow a tapered bit down its cut: steps of a few tenths of a mm, too small to see. */
const TAPER_SLABS = 28;

/** How much of a board on end is shown behind its joint, mm. */
const STUB = 45;

/** `request` as the test cut takes it. */
export function solidsOf(request: TestCutRequest): readonly BoardSolid[] {
  const { assembly } = request;
  const [first, second] = assembly.boards.map((name) => request.boards.find(({ board }) => board === name));
  if (!first) return [];
  const one = routedBoard(first);
  const two = second && routedBoard(second);
  if (assembly.way === 'placed') return placedSolids(assembly, first, one, second && two && [second, two]);
  if (!second || !two) return [];
  if (assembly.way === 'crossed') {
    return [
      { ...onEnd(first, one), place: { a: 0, b: [one.depth, 0, -1], c: [0, 1, 0] }, pulls: 1 },
      {
        ...onEnd(second, two),
        place: { a: 0, b: [0, -1, 0], c: [two.depth - one.thickness, 0, -1] },
        pulls: 0,
      },
    ];
  }
  return [
    {
      ...onEnd(first, one),
      place: { a: -extents(one.stock).minX, b: [one.depth, 0, -1], c: [0, 1, 0] },
      pulls: 1,
    },
    {
      ...lyingFront(second, two, request.front),
      place: { a: 0, b: [one.depth - two.depth, 0, 1], c: [0, -1, 0] },
      pulls: 0,
    },
  ];
}

/** Boards that lie flat: the first as it lies, the second turned and moved onto it, or standing in its room. */
function placedSolids(
  { boards, second: place, room }: Placed,
  first: TestCutBoard,
  one: RoutedBoard,
  cut: readonly [TestCutBoard, RoutedBoard] | undefined,
): readonly BoardSolid[] {
  const lying: Placing = { a: 0, b: [0, 0, 1], c: [0, -1, 0] };
  const under = { ...flat(first, one), place: lying, pulls: -1 };
  if ('uncut' in place) {
    const [, floor] = room.u;
    const rest = [{ from: floor - STUB, to: floor, polygons: [place.uncut] }];
    return [under, { board: boards[1], cut: [], rest, place: lying, pulls: 0 }];
  }
  if (!cut) return [];
  const [second, two] = cut;
  const { turned, angle, x, y, u } = place;
  // Turned about the router's axis in its own plane first: what is left is to turn it over and to move it.
  const shape = turnedBy(flat(second, two), turned ? -angle : angle);
  const over = turned ? -1 : 1;
  return [under, { ...shape, place: { a: x, b: [u, 0, over], c: [-y, -over, 0] }, pulls: 0 }];
}

function turnedBy(shape: Shape, angle: number): Shape {
  if (angle === 0) return shape;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turn = (slabs: readonly Slab[]) =>
    slabs.map((slab) => ({
      ...slab,
      polygons: slab.polygons.map((ring) =>
        ring.map(({ x, y }) => ({ x: cos * x - sin * y, y: sin * x + cos * y })),
      ),
    }));
  return { ...shape, cut: turn(shape.cut), rest: turn(shape.rest) };
}

type Shape = Pick<BoardSolid, 'board' | 'cut' | 'rest'>;

function onEnd({ board }: TestCutBoard, routed: RoutedBoard): Shape {
  const { depth, stock } = routed;
  return {
    board,
    cut: slabsOf(routed, depth),
    rest: [{ from: depth, to: depth + STUB, polygons: stock }],
  };
}

/** A board that lies flat: cut down to its thickness, or with what is left below the cut. */
function flat({ board }: TestCutBoard, routed: RoutedBoard): Shape {
  const { depth, thickness, stock } = routed;
  return {
    board,
    cut: slabsOf(routed, Math.min(depth, thickness)),
    rest: depth < thickness ? [{ from: depth, to: thickness, polygons: stock }] : [],
  };
}

/** Down to the bottom of the rabbet a lipped front ends at its shoulders; the lip is what stands past them below it. */
function lyingFront({ board }: TestCutBoard, routed: RoutedBoard, front: TestCutRequest['front']): Shape {
  const { depth, stock } = routed;
  const { thickness, lip } = front ?? { thickness: depth };
  if (!lip) {
    return { board, cut: slabsOf(routed, depth), rest: [{ from: depth, to: thickness, polygons: stock }] };
  }
  const { minX, maxX, minY, maxY } = extents(stock);
  const inside = intersection(stock, [
    rectangle({ minX: minX + lip.lower, maxX: maxX - lip.upper, minY: minY + lip.end, maxY }),
  ]);
  const cut = slabsOf(routed, depth).map((slab) => ({
    ...slab,
    polygons: intersection(slab.polygons, inside),
  }));
  return {
    board,
    cut,
    rest: [
      { from: depth, to: lip.rabbet, polygons: inside },
      { from: lip.rabbet, to: thickness, polygons: stock },
    ].filter(({ from, to }) => to > from),
  };
}

function slabsOf({ cutter, depth, centres }: RoutedBoard, deep: number): readonly Slab[] {
  const count = cutter.angle === 0 ? 1 : TAPER_SLABS;
  return Array.from({ length: count }, (_, i): Slab => {
    const [from, to] = [(deep * i) / count, (deep * (i + 1)) / count];
    const radius = radiusAt(cutter, depth - (from + to) / 2);
    return { from, to, polygons: boardLeft(centres, radius) };
  });
}
