import {
  type Box,
  difference,
  dilate,
  extents,
  grow,
  intersection,
  type Polygons,
  rectangle,
  shifted,
  signedArea,
  union,
} from './polygons.js';

/**
 * Routing on paper: a bushing of diameter B follows the edges of a plate wherever it can go from the
 * operator's side, and the bit in its middle cuts what lies below:
 *
 *     centres    = free ⊖ disc(B/2)          free = everything outside the plate's material
 *     cut(level) = centres ⊕ disc(r(level))
 *     board left = stock − cut
 */

/** The bit as measured, mm and radians. */
export interface Cutter {
  /** Diameter at the tip. */
  readonly diameter: number;
  /** Angle of the cutting edge from the axis; 0 for a straight bit. */
  readonly angle: number;
  /** Height of its cutting edge; absent where it is not known. */
  readonly height?: number;
}

/**
 * A bushing that binds by less than this still goes in, mm per side: written coordinates are rounded,
 * and an opening exactly as wide as its bushing must not jam on the last decimal. The bit is taken as
 * much smaller in turn, so a slot exactly as wide as its bit comes out exact.
 */
export const BUSHING_EASE = 5e-4;

/** Cutter radius at a height above the tip: r(u) = D/2 − u·tan θ, never below 0. */
export function radiusAt(cutter: Cutter, height: number): number {
  return Math.max(0, cutter.diameter / 2 - height * Math.tan(cutter.angle));
}

/** Where the bushing's middle can be, near enough to the stock to matter. */
export interface Centres {
  readonly polygons: Polygons;
  readonly stock: Polygons;
}

/**
 * Every place of the bushing's middle from which a bit of up to `greatestRadius` touches the stock.
 * The router comes from the operator's side (lower y): places with no way in from there are left out,
 * such as a screw hole or an opening whose mouth is too narrow.
 */
export function bushingCentres(
  plate: Polygons,
  stock: Polygons,
  bushing: number,
  greatestRadius: number,
): Centres {
  const radius = bushing / 2 - BUSHING_EASE;
  const near = grow(extents(stock), greatestRadius + BUSHING_EASE);
  const window: Box = { ...near, minY: Math.min(near.minY, extents(plate).minY - bushing) };
  const forbidden = dilate(inWindow(plate, grow(window, bushing / 2)), radius);
  const places = difference([rectangle(window)], forbidden);
  return { polygons: inWindow(reachable(places, window), near), stock };
}

/** How a board is held under a template that carries only some of its slots: at several places in turn. */
export interface Stops {
  /** x of the board's reference edge at each stop, in template coordinates. */
  readonly at: readonly number[];
  /** From and to, along x, of an opening that is used at the first stop only. */
  readonly leaveOut?: readonly [number, number];
}

/** A board with its template over it, and where the bushing's middle can be: all that it takes to cut it at any level. */
export interface RoutedBoard {
  readonly plate: Polygons;
  readonly stock: Polygons;
  readonly cutter: Cutter;
  readonly bushing: number;
  readonly stops: Stops;
  /** Where the bushing's middle can be. */
  readonly centres: Centres;
  /** Depth of cut below the surface that the template lies on. */
  readonly depth: number;
  readonly thickness: number;
}

/** As `bushingCentres`, for a board cut at each stop in turn; the centres as seen from the board. */
export function centresAtStops(
  plate: Polygons,
  stock: Polygons,
  bushing: number,
  greatestRadius: number,
  { at, leaveOut }: Stops,
): Centres {
  const all = at.flatMap((stop, i) => {
    const centres = bushingCentres(plate, shifted(stock, stop, 0), bushing, greatestRadius).polygons;
    const box = extents(centres);
    const used =
      leaveOut && i > 0
        ? difference(centres, [rectangle({ ...box, minX: leaveOut[0], maxX: leaveOut[1] })])
        : centres;
    return shifted(used, -stop, 0);
  });
  return { polygons: at.length > 1 ? union(all) : all, stock };
}

/** What is left of the stock at a level where the bit's radius is `radius`. */
export function boardLeft(centres: Centres, radius: number): Polygons {
  return difference(centres.stock, cutAt(centres, radius));
}

/** Everything that the bit sweeps at a level where its radius is `radius`. */
export function cutAt(centres: Centres, radius: number): Polygons {
  const swept = radius - BUSHING_EASE;
  return swept > 0 ? dilate(centres.polygons, swept) : centres.polygons;
}

function inWindow(polygons: Polygons, window: Box): Polygons {
  return intersection(polygons, [rectangle(window)]);
}

/** The parts of the free places that touch the window's edge on the operator's side, with their holes. */
function reachable(places: Polygons, window: Box): Polygons {
  const shutIn = places.filter(
    (ring) => signedArea(ring) > 0 && !ring.some((spot) => spot.y <= window.minY + BUSHING_EASE),
  );
  return shutIn.length === 0 ? places : difference(places, union(shutIn));
}
