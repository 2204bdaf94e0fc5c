import type { Spot } from '../../src/verify/cut/polygons.js';
import { extents, type Polygon, signedArea } from '../../src/verify/cut/polygons.js';
import { flattenBulge } from '../../src/verify/files/flatten.js';
import { contoursOn } from './read-plate.js';

/** Carriers as their files have them: pieces of sheet with holes, laid on a plate hole over hole. */

export interface Piece {
  readonly ring: Polygon;
  readonly holes: readonly Polygon[];
}

/** All closed contours on CUT of a DXF file, read by dxf-parser. */
export const cutRings = (dxf: string): readonly Polygon[] =>
  contoursOn(dxf, 'CUT').map((vertices) =>
    vertices.flatMap((from, i) =>
      flattenBulge(from, vertices[(i + 1) % vertices.length] ?? from, from.bulge),
    ),
  );

export function piecesIn(dxf: string): readonly Piece[] {
  const rings = cutRings(dxf);
  const inside = (one: Polygon, other: Polygon): boolean => {
    const [a, b] = [extents([one]), extents([other])];
    return one !== other && a.minX > b.minX && a.maxX < b.maxX && a.minY > b.minY && a.maxY < b.maxY;
  };
  const outer = rings.filter((one) => !rings.some((other) => inside(one, other)));
  return outer.map((ring) => ({ ring, holes: rings.filter((one) => inside(one, ring)) }));
}

/** Middles of the round holes of this diameter. */
export function middles(rings: readonly Polygon[], diameter: number): readonly Spot[] {
  return rings
    .map((ring) => extents([ring]))
    .filter(({ minX, maxX, minY, maxY }) =>
      [maxX - minX, maxY - minY].every((size) => Math.abs(size - diameter) < 0.01),
    )
    .map(({ minX, maxX, minY, maxY }) => ({ x: (minX + maxX) / 2, y: (minY + maxY) / 2 }));
}

/** Every way to lay a piece on a plate with each of its holes over one of the plate's, turned by half a turn or not. */
export function laidOn(plate: readonly Spot[], { ring, holes }: Piece, diameter: number): readonly Polygon[] {
  const own = middles(holes, diameter);
  const [first, ...others] = own;
  if (!first || others.length === 0) return [];
  return [1, -1].flatMap((turn) =>
    plate.flatMap((over) => {
      const put = ({ x, y }: Spot): Spot => ({
        x: over.x + turn * (x - first.x),
        y: over.y + turn * (y - first.y),
      });
      const fits = others.every((one) => plate.some((hole) => apart(hole, put(one)) < 0.003));
      return fits ? [ring.map(put)] : [];
    }),
  );
}

export const apart = (one: Spot, other: Spot): number => Math.hypot(one.x - other.x, one.y - other.y);

/** How near a spot comes to a ring. */
export function spaceTo(spot: Spot, ring: Polygon): number {
  return Math.min(
    ...ring.map((from, i) => {
      const to = ring[(i + 1) % ring.length] ?? from;
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const t = ((spot.x - from.x) * dx + (spot.y - from.y) * dy) / (dx * dx + dy * dy || 1);
      const at = Math.min(1, Math.max(0, t));
      return apart(spot, { x: from.x + at * dx, y: from.y + at * dy });
    }),
  );
}

export const isHole = (ring: Polygon): boolean => signedArea(ring) < 0;
