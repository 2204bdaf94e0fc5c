import {
  areaPathsD,
  Clipper,
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
  type PathsD,
  unionD,
} from 'clipper2-ts';

/**
 * The polygon arithmetic of the test cut, on Clipper2. It shares nothing with the geometry that
 * draws templates, so that an error in either one shows. Millimetres; x right, y up; outer polygons
 * counter-clockwise, holes clockwise; curves are already chopped into short chords.
 */

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A closed ring of corners; the last joins the first. */
export type Polygon = readonly Spot[];

/** Outer rings and holes that bound one set of points. */
export type Polygons = readonly Polygon[];

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Decimals kept: Clipper2 works on whole numbers, here of 1e-6 mm, far below what is judged (0.005 mm). */
const DECIMALS = 6;

/**
 * How far a chord of the bushing's or the bit's own round may stray from it, mm. With the file's arcs
 * (see flatten.ts) a curved edge of a board is known to 0.0014 mm; straight edges are not touched by it.
 */
export const ARC_TOLERANCE = 2e-4;

/** Widths are found to this, mm. */
export const WIDTH_RESOLUTION = 1e-5;

export function union(polygons: Polygons, others: Polygons = []): Polygons {
  return unionD(mutable(polygons), mutable(others), FillRule.NonZero, DECIMALS);
}

/** Rings of any direction, nested: every second depth is a hole, as cut files are read. */
export function evenOdd(rings: Polygons): Polygons {
  return unionD(mutable(rings), [], FillRule.EvenOdd, DECIMALS);
}

export function difference(from: Polygons, taken: Polygons): Polygons {
  return differenceD(mutable(from), mutable(taken), FillRule.NonZero, DECIMALS);
}

export function intersection(one: Polygons, two: Polygons): Polygons {
  return intersectD(mutable(one), mutable(two), FillRule.NonZero, DECIMALS);
}

/** Every point within `radius` of the set: the sum with a disc. Arcs are chopped to `ARC_TOLERANCE`. */
export function dilate(polygons: Polygons, radius: number): Polygons {
  return offset(polygons, radius, ARC_TOLERANCE);
}

/** Every point whose disc of `radius` lies in the set. */
export function erode(polygons: Polygons, radius: number, tolerance = ARC_TOLERANCE): Polygons {
  return offset(polygons, -radius, tolerance);
}

export function area(polygons: Polygons): number {
  return areaPathsD(mutable(polygons));
}

export function signedArea(polygon: Polygon): number {
  return Clipper.areaD(polygon as PathD);
}

export function perimeter(polygons: Polygons): number {
  let sum = 0;
  for (const ring of polygons) {
    let last = ring[ring.length - 1];
    for (const spot of ring) {
      if (last) sum += Math.hypot(spot.x - last.x, spot.y - last.y);
      last = spot;
    }
  }
  return sum;
}

export function rectangle(box: Box): Polygon {
  return [
    { x: box.minX, y: box.minY },
    { x: box.maxX, y: box.minY },
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: box.maxY },
  ];
}

/** Smallest upright box around the polygons; of nothing, an empty box (min above max). */
export function extents(polygons: Polygons): Box {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const ring of polygons) {
    for (const { x, y } of ring) {
      if (x < box.minX) box.minX = x;
      if (x > box.maxX) box.maxX = x;
      if (y < box.minY) box.minY = y;
      if (y > box.maxY) box.maxY = y;
    }
  }
  return box;
}

export function grow(box: Box, by: number): Box {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

export function shifted(polygons: Polygons, x: number, y: number): Polygons {
  if (x === 0 && y === 0) return polygons;
  return polygons.map((ring) => ring.map((spot) => ({ x: spot.x + x, y: spot.y + y })));
}

export interface Width {
  /** Diameter of the largest disc that fits in, mm; 0 when none of `WIDTH_RESOLUTION` does. */
  readonly width: number;
  /** A point of that disc's middle; absent when the width is 0. */
  readonly at?: Spot;
}

/**
 * How wide a set is at its widest: the diameter of the largest disc that fits in it. Of a long strip
 * between two boards this is the strip's thickness, whichever way it runs; of a sliver with area but
 * no thickness, nothing. Found by halving, to `WIDTH_RESOLUTION`.
 */
export function widest(polygons: Polygons): Width {
  let high = 0;
  for (const ring of polygons) {
    const box = extents([ring]);
    high = Math.max(high, Math.min(box.maxX - box.minX, box.maxY - box.minY));
  }
  let low = 0;
  let at: Spot | undefined;
  // An upright strip is as wide as its box: the first try mostly ends the search.
  let next = high - WIDTH_RESOLUTION;
  while (high - low > WIDTH_RESOLUTION && next > 0) {
    const core = erode(polygons, next / 2, Math.max(next / 100, WIDTH_RESOLUTION));
    const spot = core[0]?.[0];
    if (spot) {
      low = next;
      at = spot;
    } else high = next;
    next = (low + high) / 2;
  }
  return at ? { width: low, at } : { width: 0 };
}

/** Where the horizontal line at `y` runs inside the polygons, left to right: [from, to] along x. */
export function runsAt(polygons: Polygons, y: number): readonly (readonly [number, number])[] {
  const crossings: number[] = [];
  for (const ring of polygons) {
    let from = ring[ring.length - 1];
    for (const to of ring) {
      if (from && from.y <= y !== to.y <= y) {
        crossings.push(from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x));
      }
      from = to;
    }
  }
  crossings.sort((one, two) => one - two);
  const runs: [number, number][] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    runs.push([crossings[i] as number, crossings[i + 1] as number]);
  }
  return runs;
}

/**
 * The library sweeps from low y to high and at every corner looks at all edges that cross its height: a line of
 * waves along x is crossed by dozens. Lying sets are therefore stood upright and laid back: a tenth of the time.
 */
function offset(polygons: Polygons, by: number, tolerance: number): Polygons {
  const { minX, minY, maxX, maxY } = extents(polygons);
  const lying = maxX - minX > maxY - minY;
  const grown = inflatePathsD(
    mutable(lying ? flipped(polygons) : polygons),
    by,
    JoinType.Round,
    EndType.Polygon,
    2, // the library's own mitre limit; no mitres are asked for
    DECIMALS,
    tolerance,
  );
  return lying ? flipped(grown) : grown;
}

/** x and y changed for one another; rings keep the sense they had. */
function flipped(polygons: Polygons): Polygons {
  return polygons.map((ring) => ring.map(({ x, y }) => ({ x: y, y: x })).reverse());
}

/** The library's types are writable but it does not write to what it is given. */
function mutable(polygons: Polygons): PathsD {
  return polygons as unknown as PathsD;
}
