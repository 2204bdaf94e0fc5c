import { extents, runsAt } from '../cut/polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from '../cut/route.js';
import type { Keeper, SolidBody } from './kernel.js';

type Spot3 = [number, number, number];

/** Far enough from the inside face to read a tail's width there, mm: on the face a line runs along the edge. */
const INSIDE_FACE = 1e-4;

/** Facets of a quarter of the round that is pared: less than 1e-3 mm inside of it for bits up to an inch. */
const FACETS = 64;

/** Paring reaches this far past the wood, mm, so that no skin is left. */
const PAST = 0.5;

/**
 * A side whose square tails are pared, on their inside face, to the round of the sockets: at every level a corner
 * loses what lies outside of a round of the radius that the front's bit has there. Template coordinates of the side,
 * z = 0 at its bit's tip.
 */
export function pared(bench: Keeper, body: SolidBody, side: RoutedBoard, front: RoutedBoard): SolidBody {
  const { kernel, keep } = bench;
  const depth = Math.min(side.depth, front.depth);
  const box = extents(side.stock);
  // The tails' walls and the bit's radius both are straight in the height: two levels say all.
  const levels = [side.depth - depth, side.depth].map((height) => ({
    height,
    radius: radiusAt(front.cutter, side.depth - height),
    tails: runsAt(boardLeft(side.centres, radiusAt(side.cutter, height)), box.minY + INSIDE_FACE),
  }));
  const [low, high] = levels;
  if (!low || !high) return body;
  const shavings = high.tails.flatMap((tail, i) =>
    ([0, 1] as const).flatMap((end) => {
      const [at, below] = [tail[end], low.tails[i]?.[end] ?? tail[end]];
      // A tail that runs off the board's edge has no corner there.
      if (at < box.minX + INSIDE_FACE || at > box.maxX - INSIDE_FACE) return [];
      const inward = end === 0 ? 1 : -1;
      const corners = [
        { x: below, ...low },
        { x: at, ...high },
      ].map((one) => ({ ...one, y: box.minY }));
      const square = corners.flatMap((corner) => squareAt(corner, inward));
      const round = corners.flatMap((corner) => roundAt(corner, inward));
      return [keep(keep(kernel.Manifold.hull(square)).subtract(keep(kernel.Manifold.hull(round))))];
    }),
  );
  return shavings.length === 0 ? body : keep(body.subtract(keep(kernel.Manifold.union(shavings))));
}

interface ParedCorner {
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly radius: number;
}

/** The square that holds the corner's round, and a little more before the face and beside the tail. */
function squareAt({ x, y, height, radius }: ParedCorner, inward: number): readonly Spot3[] {
  return [x - inward * PAST, x + inward * radius].flatMap((atX) =>
    [y - PAST, y + radius].map((atY): Spot3 => [atX, atY, height]),
  );
}

function roundAt({ x, y, height, radius }: ParedCorner, inward: number): readonly Spot3[] {
  const quarter = Array.from({ length: FACETS + 1 }, (_, i): Spot3 => {
    const angle = (Math.PI / 2) * (i / FACETS);
    return [x + inward * radius * (1 - Math.cos(angle)), y + radius * (1 - Math.sin(angle)), height];
  });
  // Beside the round only along its tangents, so that the hull stays inside of them.
  return [
    ...quarter,
    [x + inward * (radius + PAST), y, height],
    [x + inward * (radius + PAST), y + radius + PAST, height],
    [x, y + radius + PAST, height],
  ];
}
