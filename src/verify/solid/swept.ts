import { cross, dot, minus, times, turn } from '../../geometry/point.js';
import { type Polygon, type Polygons, type Spot, signedArea } from '../cut/polygons.js';
import { BUSHING_EASE, type Cutter, radiusAt } from '../cut/route.js';
import type { Keeper, SolidBody } from './kernel.js';
import { BEHIND, type Run, runsOf } from './walls.js';

type Spot3 = [number, number, number];

/** No facet of a round leaves it by more than this, mm; it always lies inside, so boards come out that much fuller. */
export const FACET = 1e-3;

/** How far the ring of a region may be moved to have fewer corners, mm. */
const THINNED = 1e-3;

/** A bit that has run out to a point has no edge left: radii under this are none, mm. */
const NO_RADIUS = 1e-6;

/**
 * Everything that a bit sweeps while its middle goes wherever `centres` lets it: the sum of that region and the
 * bit, a solid of revolution of radius r(u) at the height u above its tip. Template coordinates, z = u, from the
 * tip at 0 to `top`.
 *
 * A bit is a cone or a cylinder, so r is linear in u and the sum needs no layers. It is the region raised, and on
 * each of its edges a wall of plane faces that is r(u) thick, and on each corner that stands out a sector of the
 * bit; where walls run into each other, the union of solids sees to it. Plane walls are exact at every height,
 * round ones are facets of the cone: see `FACET`.
 */
export function sweptBody(bench: Keeper, centres: Polygons, cutter: Cutter, top: number): SolidBody {
  const { kernel, keep } = bench;
  const rings = centres.map(plain).filter((ring) => ring.length >= 3);
  if (rings.length === 0) return keep(kernel.Manifold.union([]));
  const outlines = rings.map((ring) => ring.map(({ x, y }): [number, number] => [x, y]));
  const raised = keep(kernel.Manifold.extrude(outlines, top));
  const profile = profileOf(cutter, top);
  const pieces = rings.flatMap((ring) => around(bench, ring, profile));
  return keep(kernel.Manifold.union([raised, ...pieces]));
}

/** Radii at the tip and at the height where the bit ends for this cut. */
interface Profile {
  readonly tip: number;
  readonly end: number;
  readonly height: number;
}

/** A bushing's ease is taken off the bit again, as in the test cut. */
function profileOf(cutter: Cutter, top: number): Profile {
  const tip = cutter.diameter / 2 - BUSHING_EASE;
  const toPoint = cutter.angle > 0 ? tip / Math.tan(cutter.angle) : Number.POSITIVE_INFINITY;
  const height = Math.min(top, toPoint);
  return { tip, end: Math.max(radiusAt(cutter, height) - BUSHING_EASE, 0), height };
}

/** The walls along a ring that has its region on the left, and the sectors on its corners. */
function around(bench: Keeper, ring: Polygon, profile: Profile): readonly SolidBody[] {
  const { kernel, keep } = bench;
  const runs = runsOf(ring, profile.tip, profile.end <= NO_RADIUS);
  return runs.flatMap((run, i) => {
    const next = runs[(i + 1) % runs.length] ?? run;
    const corner = next.spots[0]?.at;
    const round = corner ? sectors(corner, run.to, next.from, profile) : [];
    return [wallBody(bench, run, profile), ...round.map((spots) => keep(kernel.Manifold.hull(spots)))];
  });
}

/** A wall from its four lines: outer and back, at the tip and at the end. Its faces are plane, and flat at both ends. */
function wallBody({ kernel, keep }: Keeper, { spots }: Run, { tip, end, height }: Profile): SolidBody {
  const placed = ({ at }: Run['spots'][number], way: Spot, radius: number, z: number): Spot3 => [
    at.x + way.x * radius,
    at.y + way.y * radius,
    z,
  ];
  const ribs = spots.map((spot) => [
    placed(spot, spot.outer, tip, 0),
    placed(spot, spot.back, tip, 0),
    placed(spot, spot.outer, end, height),
    placed(spot, spot.back, end, height),
  ]);
  if (ribs.length === 2) return keep(kernel.Manifold.hull(ribs.flat()));
  const last = 4 * (ribs.length - 1);
  const faces = [
    [0, 2, 3, 1],
    [last, last + 1, last + 3, last + 2],
    ...ribs.slice(1).flatMap((_, i) => {
      const [a, b] = [4 * i, 4 * (i + 1)];
      return [
        [a + 1, b + 1, b, a],
        [a + 3, a + 2, b + 2, b + 3],
        [a, b, b + 2, a + 2],
        [b + 1, a + 1, a + 3, b + 3],
      ];
    }),
  ];
  const mesh = new kernel.Mesh({
    numProp: 3,
    vertProperties: new Float32Array(ribs.flat(2)),
    triVerts: new Uint32Array(faces.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [a, b, c, a, c, d])),
  });
  return keep(kernel.Manifold.ofMesh(mesh));
}

/** Where the ring turns by less than this, radians, the longer walls cover the corner by themselves. */
const NO_TURN = 3e-3;

/** The round of the bit at a corner that stands out, in pieces of a quarter turn at most. */
function sectors(at: Spot, before: Spot, after: Spot, profile: Profile): readonly (readonly Spot3[])[] {
  const bend = turn(before, after);
  if (bend < NO_TURN) return [];
  const start = Math.atan2(before.y, before.x);
  const step = 2 * Math.acos(1 - FACET / Math.max(profile.tip, FACET));
  const pieces = Math.ceil(bend / (Math.PI / 2));
  const facets = Math.ceil(bend / pieces / step);
  return Array.from({ length: pieces }, (_, piece) => {
    const angleAt = (share: number): number => start + (bend * (piece + share)) / pieces;
    const round = Array.from({ length: facets + 1 }, (_, i) => way(angleAt(i / facets)));
    // A spot behind the corner, so that the sector does not only touch its walls and its neighbour.
    return rib(at, [...round, times(way(angleAt(1 / 2)), -BEHIND)], profile);
  });
}

/** The bit's axis over a spot, and so many of its radii each of the given ways from it, at the tip and at the end. */
function rib({ x, y }: Spot, ways: readonly Spot[], { tip, end, height }: Profile): readonly Spot3[] {
  const at = (z: number, radius: number): readonly Spot3[] => [
    [x, y, z],
    ...(radius > NO_RADIUS ? ways.map((one): Spot3 => [x + one.x * radius, y + one.y * radius, z]) : []),
  ];
  return [...at(0, tip), ...at(height, end)];
}

const way = (angle: number): Spot => ({ x: Math.cos(angle), y: Math.sin(angle) });

/** The ring without spots that are nearly in line with others; the test cut chops rounds finer than is needed here. */
function plain(ring: Polygon): Polygon {
  const fewer = withoutRepeats(evened(ring, THINNED));
  // A slot as narrow as its bit leaves room for its middle that is narrower yet: nothing can be spared there.
  return Math.abs(signedArea(fewer) / signedArea(ring) - 1) < 0.01 ? fewer : withoutRepeats(ring);
}

/**
 * The ring with fewer spots, none of those left out more than `tolerance` from its chord. Each chord reaches as far
 * as it may, so that those of a round are alike and bend alike: walls are joined across even bends only.
 */
function evened(ring: Polygon, tolerance: number): Polygon {
  const kept: Spot[] = [];
  for (let at = 0; at < ring.length; ) {
    kept.push(...ring.slice(at, at + 1));
    let next = at + 1;
    while (next < ring.length && spans(ring, at, next + 1, tolerance)) next += 1;
    at = next;
  }
  return kept;
}

/** Whether the spots between two of a ring lie along the chord from the one to the other. */
function spans(ring: Polygon, from: number, to: number, tolerance: number): boolean {
  const [a, b] = [ring[from], ring[to % ring.length]];
  if (!a || !b) return false;
  const chord = minus(b, a);
  const long = Math.hypot(chord.x, chord.y);
  return ring.slice(from + 1, to).every((spot) => {
    const off = minus(spot, a);
    const along = dot(off, chord) / long;
    return along >= 0 && along <= long && Math.abs(cross(off, chord)) <= tolerance * long;
  });
}

function withoutRepeats(ring: Polygon): Polygon {
  return ring.filter((spot, i) => {
    const before = ring.at(i - 1) ?? spot;
    return spot.x !== before.x || spot.y !== before.y;
  });
}
