import { offsetRegion } from '../../geometry/offset.js';
import { rectangle } from '../../geometry/outline.js';
import { difference, intersection } from '../../geometry/regions/boolean.js';
import type { Extents, Point, Region } from '../../geometry/types.js';
import type { Screw } from '../plate.js';

/** Sheet left around a hole that registers a part, mm; common practice, no source. */
export const HOLE_WALL = 4;

/** Sheet left between two of them, mm. */
const BETWEEN = 3;

export interface Registering {
  /** What there is of the plate over the part: openings and other holes are out of it. */
  readonly plate: Region;
  /** The part, or the smallest of its layers. */
  readonly part: Extents;
  /** Holes that the plate has already. */
  readonly screws: readonly Screw[];
  /** Lettering, which holes keep off where there is other room. */
  readonly words: readonly Extents[];
  readonly radius: number;
}

/** Two holes through plate and part, as far apart as may be; none where there is no room for two. */
export function registerHoles(request: Registering): readonly [Screw, Screw] | undefined {
  return pairOf(request, request.words) ?? pairOf(request, []);
}

function pairOf(
  { plate, part, screws, radius }: Registering,
  words: readonly Extents[],
): readonly [Screw, Screw] | undefined {
  const away = radius + HOLE_WALL;
  const inside = {
    minX: part.minX + away,
    minY: part.minY + away,
    maxX: part.maxX - away,
    maxY: part.maxY - away,
  };
  if (inside.minX >= inside.maxX || inside.minY >= inside.maxY) return undefined;
  const free = intersection(offsetRegion(plate, -away), [
    rectangle(inside.minX, inside.minY, inside.maxX, inside.maxY),
  ]);
  const boxes = words.map((one) =>
    rectangle(one.minX - away, one.minY - away, one.maxX + away, one.maxY + away),
  );
  const room = boxes.reduce<Region>((left, box) => difference(left, [box]), free);
  const there = screws.filter(({ x, y }) => isIn(inside, { x, y }));
  const places = room.flatMap(({ segments }) => segments.map(({ from }): Screw => ({ ...from, radius })));
  // A screw that is there already saves a hole, if the other one isn't too near.
  const shared = there.flatMap((screw) => {
    const pair = farthestPair([screw, ...places], EASY_APART, screw);
    return pair ? [pair] : [];
  });
  return shared[0] ?? farthestPair([...there, ...places], 2 * radius + BETWEEN);
}

/** Holes this far apart hold a part square to within what a screw's play allows, mm. */
const EASY_APART = 25;

const isIn = ({ minX, minY, maxX, maxY }: Extents, { x, y }: Point): boolean =>
  x > minX - 1e-6 && x < maxX + 1e-6 && y > minY - 1e-6 && y < maxY + 1e-6;

/** Of pairs equally far apart the one whose lower hole, then whose left one, comes first: the same on any machine. */
function farthestPair(
  places: readonly Screw[],
  least: number,
  among?: Screw,
): readonly [Screw, Screw] | undefined {
  const sorted = places.toSorted((a, b) => (Math.abs(a.y - b.y) > 1e-6 ? a.y - b.y : a.x - b.x));
  let best: { readonly pair: readonly [Screw, Screw]; readonly apart: number } | undefined;
  for (const [i, one] of sorted.entries()) {
    for (const other of sorted.slice(i + 1)) {
      if (among && one !== among && other !== among) continue;
      const apart = Math.hypot(one.x - other.x, one.y - other.y);
      if (apart >= least && apart > (best?.apart ?? 0) + 1e-6) best = { pair: [one, other], apart };
    }
  }
  return best?.pair;
}
