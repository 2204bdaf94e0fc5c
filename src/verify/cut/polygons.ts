import {
  areaPathsD,
  Clipper,
  differenceD,
  FillRule,
  intersectD,
  type PathD,
  type PathsD,
  simplifyPathD,
  unionD,
} from 'clipper2-ts';
import { swept } from './dilate.js';
import type { Box, Polygon, Polygons, Spot } from './shapes.js';

/**
 * The polygon arithmetic of the test cut, on Clipper2. It shares nothing with the geometry that
 * draws templates, so that an error in either one shows. Millimetres; x right, y up; outer polygons
 * counter-clockwise, holes clockwise; curves are already chopped into short chords.
 */

export type { Box, Polygon, Polygons, Spot } from './shapes.js';

/** Decimals kept: Clipper2 works on whole numbers, here of 1e-6 mm, far below what is judged (0.005 mm). */
const DECIMALS = 6;

/**
 * How far a chord of the bushing's or the bit's own round may stray from it, mm. With the file's arcs
 * (see flatten.ts) a curved edge of a board is known to 0.0014 mm; straight edges are not touched by it.
 */
export const ARC_TOLERANCE = 2e-4;

/** Widths are found to this, mm. */
export const WIDTH_RESOLUTION = 4e-5;

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
  const outlines = polygons.map((ring) => swept(ring, radius, ARC_TOLERANCE));
  return unionD(mutable(outlines), [], FillRule.Positive, DECIMALS);
}

/** Every point whose disc of `radius` lies in the set: all that lies outside grows, so rings run the other way round. */
export function erode(polygons: Polygons, radius: number, tolerance = ARC_TOLERANCE): Polygons {
  if (polygons.every((ring) => narrowerSide(ring) < 2 * radius)) return [];
  const outlines = polygons.map((ring) => swept([...ring].reverse(), radius, tolerance).reverse());
  return unionD(mutable(outlines), [], FillRule.Positive, DECIMALS);
}

export function area(polygons: Polygons): number {
  return areaPathsD(mutable(polygons));
}

export function signedArea(polygon: Polygon): number {
  return Clipper.areaD(polygon as PathD);
}

/** The ring with fewer spots: those that lie within the tolerance of the line between their neighbours are left out. */
export function thinned(polygon: Polygon, tolerance: number): Polygon {
  return simplifyPathD(polygon as PathD, tolerance);
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

/** Turned over about a line along x: y becomes `sum` − y, and rings keep the sense they had. */
export function turnedOver(polygons: Polygons, sum = 0): Polygons {
  return polygons.map((ring) => ring.map(({ x, y }) => ({ x, y: sum - y })).reverse());
}

/** x and y exchanged, to look along y for what `runsAt` finds along x; rings change their sense. */
export function transposed(polygons: Polygons): Polygons {
  return polygons.map((ring) => ring.map(({ x, y }) => ({ x: y, y: x })));
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
 * no thickness, nothing. Found by halving, to `WIDTH_RESOLUTION`; a width that is likely is tried first.
 */
export function widest(polygons: Polygons, likely?: number): Width {
  const pieces = separatePolygons(polygons);
  let best: Width = { width: 0 };
  for (const piece of pieces) best = widerOf(piece, best, likely);
  return best;
}

/** Each outer ring with the holes that lie in it. Holes without thickness, which chords leave, are none. */
function separatePolygons(polygons: Polygons): readonly Polygons[] {
  const holes = polygons.filter((ring) => signedArea(ring) < 0 && stripWidth(ring) > WIDTH_RESOLUTION);
  return polygons
    .filter((ring) => signedArea(ring) > 0)
    .map((outer) => [outer, ...holes.filter((hole) => liesIn(hole, outer))]);
}

function liesIn(hole: Polygon, outer: Polygon): boolean {
  const spot = hole[0];
  return spot !== undefined && spaceAt(spot, [outer]) > -WIDTH_RESOLUTION;
}

/** The widest disc of one piece, or the one known already where that is no narrower. */
function widerOf(piece: Polygons, known: Width, likely: number | undefined): Width {
  // Slivers with area but no thickness are most of what there is; one try dismisses them.
  let low = known.width + WIDTH_RESOLUTION;
  let high = Math.max(0, ...piece.map(narrowerSide));
  if (high < low) return known;
  let at = coreOf(piece, low);
  if (!at) return known;
  // A strip is twice its area over its perimeter wide: the first tries close in on that, or on what is likely.
  const guess = Math.max(...piece.map(stripWidth));
  const near = likely ? [likely + 0.4 * WIDTH_RESOLUTION, likely - 0.4 * WIDTH_RESOLUTION] : [];
  const tries = [...near, guess * 1.05, guess * 0.95];
  while (high - low > WIDTH_RESOLUTION) {
    const next = tries.shift() ?? (low + high) / 2;
    if (next <= low || next >= high) continue;
    const spot = coreOf(piece, next);
    if (spot) {
      low = next;
      at = spot;
    } else high = next;
  }
  return { width: low, at };
}

/**
 * A place where a disc of this diameter fits in; undefined where there is none. Eroding a sliver of many short
 * sides now and then leaves a crumb that lies outside it, so a place is believed only when measured.
 */
function coreOf(polygons: Polygons, diameter: number): Spot | undefined {
  const cores = erode(polygons, diameter / 2, Math.max(diameter / 100, WIDTH_RESOLUTION));
  return cores
    .flatMap((core) => core.slice(0, 1))
    .find((spot) => spaceAt(spot, polygons) >= diameter / 2 - WIDTH_RESOLUTION);
}

/** Distance from a spot to the nearest side; below 0 outside. */
function spaceAt(spot: Spot, polygons: Polygons): number {
  let nearest = Number.POSITIVE_INFINITY;
  let inside = false;
  for (const ring of polygons) {
    let from = ring[ring.length - 1];
    for (const to of ring) {
      if (from) {
        nearest = Math.min(nearest, distanceToSide(spot, from, to));
        if (from.y > spot.y !== to.y > spot.y) {
          const x = from.x + ((spot.y - from.y) / (to.y - from.y)) * (to.x - from.x);
          if (x > spot.x) inside = !inside;
        }
      }
      from = to;
    }
  }
  return inside ? nearest : -nearest;
}

function distanceToSide(spot: Spot, from: Spot, to: Spot): number {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const long = x * x + y * y;
  const share =
    long === 0 ? 0 : Math.min(1, Math.max(0, ((spot.x - from.x) * x + (spot.y - from.y) * y) / long));
  return Math.hypot(spot.x - from.x - share * x, spot.y - from.y - share * y);
}

function narrowerSide(ring: Polygon): number {
  const box = extents([ring]);
  return Math.min(box.maxX - box.minX, box.maxY - box.minY);
}

function stripWidth(ring: Polygon): number {
  return (2 * Math.abs(signedArea(ring))) / Math.max(perimeter([ring]), WIDTH_RESOLUTION);
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

/** The library's types are writable but it does not write to what it is given. */
function mutable(polygons: Polygons): PathsD {
  return polygons as unknown as PathsD;
}
