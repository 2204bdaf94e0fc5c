import fc from 'fast-check';
import { expect } from 'vitest';
import { roundCorners } from '../../src/geometry/fillet.js';
import { intersect } from '../../src/geometry/intersect.js';
import { area, areaOfRegion, containsPoint, outline, polygon } from '../../src/geometry/outline.js';
import { cross, distance, minus, plus, times, turnedLeft } from '../../src/geometry/point.js';
import {
  distanceToSegment,
  extentsOfSegment,
  lengthOf,
  pointAt,
  tangentAt,
} from '../../src/geometry/segment.js';
import { mirrorX, mirrorY, rotate, translate } from '../../src/geometry/transform.js';
import type { Outline, Point, Region, Segment } from '../../src/geometry/types.js';

/** Random shapes, their variants, and what must be true of every region that the kernel gives. */

const share = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);

/** A coordinate in hundredths of a millimetre, spread more evenly than random floating point numbers are. */
export const coordinateWithin = (limit: number): fc.Arbitrary<number> =>
  fc.integer({ min: -100 * limit, max: 100 * limit }).map((n) => n / 100);

/** Star-shaped polygons with 4 to 14 corners, 5 to 20 mm from their middle. */
export const anyPolygon: fc.Arbitrary<Outline> = fc
  .array(fc.tuple(share, share), { minLength: 4, maxLength: 14 })
  .map((corners) =>
    polygon(
      corners.map(([turn, reach], i) => {
        const angle = ((i + 0.8 * turn) / corners.length) * 2 * Math.PI;
        return { x: (5 + 15 * reach) * Math.cos(angle), y: (5 + 15 * reach) * Math.sin(angle) };
      }),
    ),
  )
  .filter((one) => area(one) > 10 && isSimple(one));

/** The same with corners on whole millimetres: parallel edges, exact gaps and exact collapses turn up. */
export const anyGridPolygon: fc.Arbitrary<Outline> = anyPolygon
  .map((one) => {
    const corners = one.segments.map(({ from }) => ({ x: Math.round(from.x), y: Math.round(from.y) }));
    return polygon(corners.filter((p, i) => distance(p, corners.at(i - 1) ?? p) > 0));
  })
  .filter((one) => one.segments.length > 2 && area(one) > 10 && isSimple(one));

/** Polygons of both kinds, half of them with some corners rounded. */
export const anyOutline: fc.Arbitrary<Outline> = fc
  .tuple(fc.oneof(anyPolygon, anyGridPolygon), fc.constantFrom(0, 0, 1, 2.5), fc.boolean())
  .map(([one, radius, all]) => roundCorners(one, (_, turnsLeft) => (all || turnsLeft ? radius : 0)));

/** Convex outlines: corners on an ellipse, half of them rounded. */
export const anyConvex: fc.Arbitrary<Outline> = fc
  .tuple(
    fc.uniqueArray(fc.integer({ min: 0, max: 359 }), { minLength: 5, maxLength: 20 }),
    fc.double({ min: 2, max: 40, noNaN: true }),
    fc.double({ min: 2, max: 40, noNaN: true }),
    fc.constantFrom(0, 0.5),
  )
  .map(([degrees, a, b, radius]) => {
    const angles = degrees.sort((p, q) => p - q).map((one) => (one * Math.PI) / 180);
    const sharp = polygon(angles.map((t) => ({ x: a * Math.cos(t), y: b * Math.sin(t) })));
    return roundCorners(sharp, () => radius);
  });

/** Distances of 0.3 to 6 mm, half of them on whole half millimetres. */
export const anyDistance = fc.oneof(
  fc.integer({ min: 1, max: 12 }).map((n) => n / 2),
  fc.double({ min: 0.3, max: 6, noNaN: true }),
);

export interface Comb {
  readonly fingers: number;
  /** Width of the slots between fingers at their open end. */
  readonly slot: number;
  /** How much a slot's side moves outward per unit of depth: above 0 for dovetail sockets. */
  readonly slope: number;
  readonly pitch: number;
  readonly depth: number;
}

/** The waste of a row of joints: a band with slots rising from it, counter-clockwise. */
export function comb({ fingers, slot, slope, pitch, depth }: Comb): Outline {
  const width = fingers * pitch;
  const corners: Point[] = [
    { x: 0, y: -15 },
    { x: width, y: -15 },
    { x: width, y: 0 },
  ];
  for (let i = fingers - 1; i >= 0; i--) {
    const middle = (i + 0.5) * pitch;
    const far = slot / 2 + slope * depth;
    corners.push(
      { x: middle + slot / 2, y: 0 },
      { x: middle + far, y: depth },
      { x: middle - far, y: depth },
      { x: middle - slot / 2, y: 0 },
    );
  }
  return polygon([...corners, { x: 0, y: 0 }]);
}

/** Slots with the shape of dovetail sockets, without a band. */
export const slots = ({ fingers, slot, slope, pitch, depth }: Comb): Region =>
  Array.from({ length: fingers }, (_, i) => {
    const middle = (i + 0.5) * pitch;
    const far = slot / 2 + slope * depth;
    return polygon([
      { x: middle - slot / 2, y: 0 },
      { x: middle + slot / 2, y: 0 },
      { x: middle + far, y: depth },
      { x: middle - far, y: depth },
    ]);
  });

/** The same region written down in other ways, each with its way back. */
export const variants: readonly {
  readonly name: string;
  readonly there: (region: Region) => Region;
  readonly back: (region: Region) => Region;
}[] = [
  { name: 'mirrored left to right', there: (r) => mirrorX(r, 7), back: (r) => mirrorX(r, 7) },
  { name: 'mirrored top to bottom', there: (r) => mirrorY(r, 3), back: (r) => mirrorY(r, 3) },
  { name: 'turned by 33°', there: (r) => rotate(r, 0.576), back: (r) => rotate(r, -0.576) },
  { name: 'turned by 90°', there: (r) => rotate(r, Math.PI / 2), back: (r) => rotate(r, -Math.PI / 2) },
  {
    name: 'far from the origin',
    there: (r) => translate(r, 900, -700),
    back: (r) => translate(r, -900, 700),
  },
  { name: 'started elsewhere', there: (r) => r.map(startedElsewhere).reverse(), back: (r) => r },
];

function startedElsewhere(one: Outline): Outline {
  const at = Math.ceil(one.segments.length / 2);
  return outline([...one.segments.slice(at), ...one.segments.slice(0, at)]);
}

/** Distance from p to the nearest boundary of the region. */
export const distanceToBoundary = (p: Point, region: Region): number =>
  Math.min(...region.flatMap((one) => one.segments.map((segment) => distanceToSegment(p, segment))));

/** Points spread over every segment of a region. */
export const pointsOn = (region: Region): readonly Point[] =>
  region.flatMap((one) =>
    one.segments.flatMap((segment) => [0, 0.2, 0.5, 0.8].map((t) => pointAt(segment, t))),
  );

/**
 * A region as promised: outlines closed to the bit, tidy, crossing neither themselves nor each other, arcs
 * that begin and end on their circles, the inside to the left and the outside to the right all along.
 */
export function expectRegion(region: Region): void {
  expect(faultsOf(region)).toEqual([]);
}

function faultsOf(region: Region): readonly string[] {
  const faults: string[] = [];
  const check = (right: boolean, fault: string, segment: Segment): void => {
    if (!right) faults.push(`${fault}: ${JSON.stringify(segment)}`);
  };
  for (const one of region) {
    one.segments.forEach((segment, i) => {
      const next = one.segments[(i + 1) % one.segments.length] ?? segment;
      check(one.segments.length > 1, 'outline of one segment', segment);
      check(next.from.x === segment.to.x && next.from.y === segment.to.y, 'open', segment);
      check(lengthOf(segment) > 1e-7, 'too short', segment);
      check(!canMerge(segment, next), 'should be one with its neighbour', segment);
      if (segment.kind === 'arc') {
        const off = [segment.from, segment.to].map((p) =>
          Math.abs(distance(p, segment.center) - segment.radius),
        );
        check(Math.max(...off) < 1e-6, 'ends beside its circle', segment);
      }
    });
  }
  const segments = region.flatMap((one) => one.segments);
  const boxes = segments.map(extentsOfSegment);
  segments.forEach((a, i) => {
    check(hasSides(region, a), 'inside not to the left only', a);
    const box = boxes[i];
    segments.forEach((b, j) => {
      const other = boxes[j];
      if (j <= i || !box || !other || box.maxX < other.minX || box.minX > other.maxX) return;
      check(!crosses(a, b), 'crossed by another', a);
    });
  });
  return faults;
}

function canMerge(a: Segment, b: Segment): boolean {
  if (a.kind === 'line' && b.kind === 'line') {
    return distanceToSegment(a.to, { kind: 'line', from: a.from, to: b.to }) < 1e-9;
  }
  if (a.kind !== 'arc' || b.kind !== 'arc' || a.ccw !== b.ccw || distance(a.center, b.center) > 1e-9)
    return false;
  // A full circle is two half arcs.
  return distance(a.from, b.to) > 1e-9;
}

/** Leaves out segments too short to step off by, and places where another boundary runs close by. */
function hasSides(region: Region, segment: Segment): boolean {
  const step = 1e-4;
  if (lengthOf(segment) < 100 * step) return true;
  const middle = pointAt(segment, 0.5);
  const left = times(turnedLeft(tangentAt(segment, 0.5)), step);
  return [plus(middle, left), minus(middle, left)].every(
    (p, i) => Math.abs(distanceToBoundary(p, region) - step) > 1e-7 || containsPoint(region, p) === (i === 0),
  );
}

/** true when the segments meet away from the ends of both, at more than a grazing angle. */
function crosses(a: Segment, b: Segment): boolean {
  const met = intersect(a, b, 1e-9);
  if (met.kind !== 'points') return false;
  return met.at.some((p) => [a.from, a.to, b.from, b.to].every((end) => distance(end, p) > 1e-5));
}

/** Independent of the kernel: no two edges that are no neighbours meet. */
export function isSimple(one: Outline): boolean {
  const p = one.segments.map((segment) => segment.from);
  const at = (i: number): Point => p[i % p.length] ?? { x: 0, y: 0 };
  const side = (a: Point, b: Point, c: Point): number => cross(minus(b, a), minus(c, a));
  return p.every((_, i) =>
    p.every((__, j) => {
      if (j < i + 2 || (i === 0 && j === p.length - 1)) return true;
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      return !(side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0);
    }),
  );
}

export const expectSameArea = (a: Region, b: Region, within = 1e-6): void =>
  expect(Math.abs(areaOfRegion(a) - areaOfRegion(b))).toBeLessThan(within);
