import type { Vertex } from '../../geometry/solid.js';
import { isUncut, routedBoard, type TestCutRequest } from '../assemble.js';
import { extents } from '../cut/polygons.js';
import type { RoutedBoard } from '../cut/route.js';
import type { Assembly, Placed, Placement, Uncut } from '../files/reported.js';
import { boardAsCut, boxed, type Held, uncutBoard } from './board.js';
import type { Blank, BoardInSolid, JointInSolid, JointVolumes } from './joint.js';
import { atBench, type Keeper, type SolidBody } from './kernel.js';
import { pared } from './pared.js';
import { surfaceOf } from './surface.js';

/**
 * Builds both boards of a joint as cut, closes the joint as it goes together and measures it; square tails are pared
 * to the round of their sockets before. A board or blank that is missing is a mistake of the caller's.
 */
export function jointInSolid(request: TestCutRequest, blanks: readonly Blank[]): Promise<JointInSolid> {
  const { assembly } = request;
  const { boards } = assembly;
  const meeting = assemblyMeeting(assembly);
  const cutBoard = (which: 0 | 1): CutBoard => ({
    board: boards[which],
    cut: routedBoard(named(request.boards, boards[which])),
    blank: named(blanks, boards[which]),
    held: meeting.held[which],
  });
  const first = cutBoard(0);
  // A board that no template cuts stands in the first one's axes from the start.
  const second = isUncut(assembly)
    ? { board: boards[1], cut: first.cut, blank: named(blanks, boards[1]), held: 'on-end' as const }
    : cutBoard(1);
  return atBench((bench) => {
    const one = boardAsCut(bench, first.cut, first.blank, first.held);
    const two =
      assembly.way === 'placed' && 'uncut' in assembly.second
        ? uncutBoard(bench, assembly.second, second.blank, first.cut.depth - assembly.room.u[1])
        : boardAsCut(bench, second.cut, second.blank, second.held);
    const places = meeting.places(first.cut, second.cut, request);
    const isPared = assembly.way === 'sunk' && assembly.pared;
    const fitted = isPared ? pared(bench, one, first.cut, second.cut) : one;
    const closed = [movedBody(bench, fitted, places[0]), movedBody(bench, two, places[1])] as const;
    const whole = boxed(bench, ...meeting.room(request, first.cut, second.cut));
    const open = assembly.way === 'placed' ? (assembly.room.open ?? []) : [];
    const room = open.reduce(
      (left, ring) => bench.keep(left.subtract(columnOf(bench, ring, first.cut))),
      whole,
    );
    return {
      boards: [boardOf(bench, first, one, closed[0]), boardOf(bench, second, two, closed[1])],
      volumes: volumesOf(bench, room, [
        { board: first.board, body: closed[0] },
        { board: second.board, body: closed[1] },
      ]),
    };
  });
}

interface CutBoard {
  readonly board: string;
  readonly cut: RoutedBoard;
  readonly blank: Blank;
  readonly held: Held;
}

function named<T extends { readonly board: string }>(list: readonly T[], name: string): T {
  const found = list.find(({ board }) => board === name);
  if (!found) throw new Error(`nothing is said of the board "${name}"`);
  return found;
}

/** Where a template's x, its y and the height above the tip go, and where its origin: columns of a matrix. */
interface BodyPlace {
  /** Along the joint itself when left out. */
  readonly x?: Vertex;
  readonly y: Vertex;
  readonly height: Vertex;
  readonly origin: Vertex;
}

interface Meeting {
  readonly held: readonly [first: Held, second: Held];
  readonly places: (
    first: RoutedBoard,
    second: RoutedBoard,
    request: TestCutRequest,
  ) => readonly [BodyPlace, BodyPlace];
  /** Two corners of the joint's room. */
  readonly room: (
    request: TestCutRequest,
    first: RoutedBoard,
    second: RoutedBoard,
  ) => readonly [Vertex, Vertex];
}

/** Laid on the face that was at y = 0: what was up lies along y, what was toward the operator is up. */
const LAID: BodyPlace = { y: [0, 0, -1], height: [0, 1, 0], origin: [0, 0, 0] };
const AS_IT_IS: BodyPlace = { y: [0, 1, 0], height: [0, 0, 1], origin: [0, 0, 0] };

/**
 * Boards that cross at the corner (see testcut/crossed.ts): the axes are x along the joint, v outward from the first
 * board's inside face and u, up, outward from the second board's. The first stands: v = y + t₁, u = height. The
 * second lies over it: v = height, u = −y.
 */
const crossed: Meeting = {
  held: ['on-end', 'on-end'],
  places: ({ thickness }) => [{ ...AS_IT_IS, origin: [0, thickness, 0] }, LAID],
  room: ({ width }, one, two) => [
    [0, 0, 0],
    [width, Math.min(one.thickness, two.depth), Math.min(two.thickness, one.depth)],
  ],
};

/**
 * A board that goes end first into sockets (see testcut/sunk.ts): the axes are those of the front as it lies under
 * its template. The side is turned half a turn about x and let down until its end lies on the sockets' bottom, at
 * the height 0 of the front's bit.
 */
const sunk: Meeting = {
  held: ['on-end', 'flat'],
  places: ({ stock, depth }) => [
    { y: [0, -1, 0], height: [0, 0, -1], origin: [-extents(stock).minX, 0, depth] },
    AS_IT_IS,
  ],
  room: ({ width }, one, two) => [
    [0, 0, 0],
    [width, one.thickness, Math.min(one.depth, two.depth)],
  ],
};

/**
 * Boards whose routers' axes are parallel (see testcut/placed.ts): the axes are those of the first as it lies under its
 * template, z up from its bit's tip. The second is turned and moved as the family says.
 */
function placedMeeting({ second: place, room }: Placed): Meeting {
  return {
    held: ['flat', 'flat'],
    places: (one, two) => [AS_IT_IS, 'uncut' in place ? AS_IT_IS : bodyPlace(place, one, two)],
    room: (_, one) => [
      [room.x[0], room.y[0], one.depth - room.u[1]],
      [room.x[1], room.y[1], one.depth - room.u[0]],
    ],
  };
}

/** All that is above and below a ring. */
function columnOf(
  { kernel, keep }: Keeper,
  ring: Uncut['uncut'],
  { depth, thickness }: RoutedBoard,
): SolidBody {
  const end = ring.map(({ x, y }): [number, number] => [x, y]);
  const column = keep(kernel.Manifold.extrude([end], depth + 2 * thickness));
  return keep(column.translate([0, 0, -2 * thickness]));
}

function bodyPlace({ turned, angle, x, y, u }: Placement, one: RoutedBoard, two: RoutedBoard): BodyPlace {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const over = turned ? -1 : 1;
  return {
    x: [cos, sin, 0],
    y: [-sin * over, cos * over, 0],
    height: [0, 0, over],
    origin: [x, y, one.depth - u - over * two.depth],
  };
}

function assemblyMeeting(assembly: Assembly): Meeting {
  if (assembly.way === 'placed') return placedMeeting(assembly);
  return assembly.way === 'sunk' ? sunk : crossed;
}

function movedBody(
  { keep }: Keeper,
  body: SolidBody,
  { x = [1, 0, 0], y, height, origin }: BodyPlace,
): SolidBody {
  return keep(body.transform([...x, 0, ...y, 0, ...height, 0, ...origin, 1]));
}

function boardOf(
  bench: Keeper,
  { board, cut, blank, held }: CutBoard,
  asCut: SolidBody,
  closed: SolidBody,
): BoardInSolid {
  const laid: BodyPlace =
    held === 'on-end' ? LAID : { ...AS_IT_IS, origin: [0, 0, blank.thickness - cut.depth] };
  return {
    board,
    closed: surfaceOf(bench, closed),
    laid: surfaceOf(bench, movedBody(bench, asCut, laid)),
  };
}

function volumesOf(
  { keep }: Keeper,
  room: SolidBody,
  boards: readonly [
    { readonly board: string; readonly body: SolidBody },
    { readonly board: string; readonly body: SolidBody },
  ],
): JointVolumes {
  const [{ body: first }, { body: second }] = boards;
  return {
    room: room.volume(),
    boards: boards.map(({ board, body }) => ({ board, volume: keep(room.intersect(body)).volume() })),
    overlap: Math.max(0, keep(first.intersect(second)).volume()),
    voids: keep(keep(room.subtract(first)).subtract(second)).volume(),
  };
}
