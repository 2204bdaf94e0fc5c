import { type Box, evenOdd, extents, type Polygon, type Spot, signedArea, thinned } from '../cut/polygons.js';
import type { WrittenDrawing } from './read.js';
import { eachRing } from './rings.js';

/**
 * A plate that was moved or turned on its sheet, put back by the ends of its boards, which are drawn with it. `boards` are
 * their rectangles as the file was written. Where the drawn ends are in their places, or are not those of the boards,
 * the drawing is left as it is.
 */
export function putBack(drawing: WrittenDrawing, boards: readonly Box[]): WrittenDrawing {
  const ends = drawing.layers.STOCK ?? [];
  const [board] = boards;
  const isThere = (rings: readonly Polygon[]): boolean =>
    boards.every((box) => rings.some((ring) => isSame(extents([ring]), box)));
  if (!board || ends.length !== boards.length || isThere(ends)) return drawing;
  const wanted = cornersOf(board);
  const ways = ends
    .flatMap((ring) => waysOnto(ring, wanted))
    .filter(({ place }) => isThere(ends.map((ring) => ring.map(place))))
    .map((way) => ({ ...way, moved: eachRing(drawing, (ring) => ring.map(way.place)) }));
  const preferred = (way: (typeof ways)[number]): number =>
    boards.length === 1 ? spineBehind(way.moved, board) : -Math.abs(way.angle);
  return ways.sort((one, other) => preferred(other) - preferred(one))[0]?.moved ?? drawing;
}

interface Way {
  /** Radians, −π to π. */
  readonly angle: number;
  readonly place: (spot: Spot) => Spot;
}

/** Ends whose corners lie this near are the same, mm: far over what files round, far under what a board is off. */
const SAME = 0.01;

const isSame = (one: Box, other: Box): boolean =>
  (['minX', 'minY', 'maxX', 'maxY'] as const).every((side) => Math.abs(one[side] - other[side]) <= SAME);

/** Of a rectangle can be a turn and a half turn: the plate's spine lies behind the boards. */
function spineBehind({ layers }: WrittenDrawing, board: Box): number {
  const plate = extents(evenOdd(layers.CUT ?? []));
  return plate.maxY - board.maxY - (board.minY - plate.minY);
}

/** Every way to lay a drawn rectangle onto the wanted one without turning it over. */
function waysOnto(ring: Polygon, wanted: Polygon): readonly Way[] {
  const plain = thinned(ring, SAME / 10);
  const corners = signedArea(plain) < 0 ? [...plain].reverse() : plain;
  const [to, next] = wanted;
  if (corners.length !== 4 || !to || !next) return [];
  return corners.flatMap((from, i): readonly Way[] => {
    const along = corners[(i + 1) % 4] ?? from;
    const turn = Math.atan2(next.y - to.y, next.x - to.x) - Math.atan2(along.y - from.y, along.x - from.x);
    const angle = Math.atan2(Math.sin(turn), Math.cos(turn));
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const place = ({ x, y }: Spot): Spot => ({
      x: to.x + cos * (x - from.x) - sin * (y - from.y),
      y: to.y + sin * (x - from.x) + cos * (y - from.y),
    });
    return [{ angle, place }];
  });
}

const cornersOf = ({ minX, minY, maxX, maxY }: Box): Polygon => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
];
