import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offsetRegion } from '../../src/geometry/offset.js';
import {
  areaOfRegion,
  circle,
  containsPoint,
  extents,
  perimeterOfRegion,
  polygon,
  rectangle,
  reversed,
  roundedRectangle,
} from '../../src/geometry/outline.js';
import { union } from '../../src/geometry/regions/boolean.js';
import { scale } from '../../src/geometry/transform.js';
import type { Point, Region } from '../../src/geometry/types.js';
import {
  anyDistance,
  anyGridPolygon,
  anyOutline,
  comb,
  coordinateWithin,
  distanceToBoundary,
  expectRegion,
  expectSameArea,
  pointsOn,
  slots,
  variants,
} from './shapes.js';

const signed = fc.tuple(anyDistance, fc.boolean()).map(([d, outward]) => (outward ? d : -d));

/** Regions with holes and several parts: outlines joined, or one taken a little smaller from another. */
const anyRegion: fc.Arbitrary<Region> = fc.oneof(
  anyOutline.map((one) => [one]),
  fc.tuple(anyOutline, anyDistance).map(([one, d]) => {
    const hole = offsetRegion([one], -d);
    return [one, ...hole.map(reversed)];
  }),
  fc.tuple(anyOutline, anyGridPolygon).map(([a, b]) => union([a], [b])),
);

describe('the offset of any region', () => {
  it('is bounded by points exactly at the distance from it', () => {
    let checked = 0;
    fc.assert(
      fc.property(anyRegion, signed, (region, d) => {
        const moved = offsetRegion(region, d);
        for (const p of pointsOn(moved)) {
          checked++;
          expect(Math.abs(distanceToBoundary(p, region) - Math.abs(d))).toBeLessThan(1e-6);
          expect(containsPoint(region, p)).toBe(d < 0);
        }
      }),
      { numRuns: 200 },
    );
    expect(checked).toBeGreaterThan(3000);
  });

  it('holds a point exactly when the definition says so', () => {
    const coordinate = coordinateWithin(16);
    const answers = { inside: 0, outside: 0 };
    fc.assert(
      fc.property(
        anyRegion,
        signed,
        fc.array(fc.tuple(coordinate, coordinate), { minLength: 20, maxLength: 20 }),
        (region, d, points) => {
          const moved = offsetRegion(region, d);
          for (const [x, y] of points) {
            const away = distanceToBoundary({ x, y }, region);
            if (Math.abs(away - Math.abs(d)) < 1e-6) continue;
            const within = containsPoint(region, { x, y });
            const expected = d > 0 ? within || away < d : within && away > -d;
            answers[expected ? 'inside' : 'outside']++;
            expect(containsPoint(moved, { x, y })).toBe(expected);
          }
        },
      ),
      { numRuns: 200 },
    );
    expect(Math.min(answers.inside, answers.outside)).toBeGreaterThan(500);
  });

  it('is a tidy region', () => {
    fc.assert(
      fc.property(anyRegion, signed, (region, d) => expectRegion(offsetRegion(region, d))),
      { numRuns: 150 },
    );
  });

  it('is the same however the region is written down', () => {
    fc.assert(
      fc.property(anyRegion, signed, (region, d) => {
        const plain = offsetRegion(region, d);
        for (const { name, there } of variants) {
          const moved = offsetRegion(there(region), d);
          expect(Math.abs(areaOfRegion(moved) - areaOfRegion(plain)), name).toBeLessThan(1e-4);
          expect(Math.abs(perimeterOfRegion(moved) - perimeterOfRegion(plain)), name).toBeLessThan(1e-2);
        }
        expect(areaOfRegion(offsetRegion(scale(region, 25.4), d * 25.4)) / 25.4 ** 2).toBeCloseTo(
          areaOfRegion(plain),
          4,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('grows with the distance, and going on is going farther', () => {
    fc.assert(
      fc.property(anyRegion, anyDistance, anyDistance, (region, d, more) => {
        expect(areaOfRegion(offsetRegion(region, d + more))).toBeGreaterThan(
          areaOfRegion(offsetRegion(region, d)),
        );
        expect(areaOfRegion(offsetRegion(region, -d - more))).toBeLessThanOrEqual(
          areaOfRegion(offsetRegion(region, -d)) + 1e-9,
        );
        expectSameArea(offsetRegion(offsetRegion(region, d), more), offsetRegion(region, d + more), 1e-4);
        expectSameArea(offsetRegion(offsetRegion(region, -d), -more), offsetRegion(region, -d - more), 1e-4);
      }),
      { numRuns: 100 },
    );
  });
});

it('of outlines with arcs within a hair of being used up still lies between its neighbours', () => {
  const hair = fc
    .tuple(fc.integer({ min: 4, max: 9 }), fc.constantFrom(-1.4, -1, 1, 2))
    .map(([k, f]) => f * 10 ** -k);
  fc.assert(
    fc.property(anyOutline, anyDistance, hair, (one, d, off) => {
      const rounded = offsetRegion([one], d + off);
      const back = areaOfRegion(offsetRegion(rounded, -d));
      expect(back).toBeGreaterThanOrEqual(areaOfRegion(offsetRegion(rounded, -d - 1e-5)));
      expect(back).toBeLessThanOrEqual(areaOfRegion(offsetRegion(rounded, -d + 1e-5)));
    }),
    { numRuns: 200 },
  );
});

describe('the offset where things close or vanish exactly', () => {
  const bar = [rectangle(0, 0, 20, 6)];

  it('leaves nothing where the width is used up, and something just before', () => {
    expect(offsetRegion(bar, -3)).toEqual([]);
    expect(offsetRegion(bar, -4)).toEqual([]);
    expect(areaOfRegion(offsetRegion(bar, -(3 - 1e-6)))).toBeCloseTo(2e-6 * (14 + 2e-6), 12);
    expect(offsetRegion([circle({ x: 0, y: 0 }, 3)], -3)).toEqual([]);
    expect(areaOfRegion(offsetRegion([circle({ x: 0, y: 0 }, 3)], -2))).toBeCloseTo(Math.PI, 10);
  });

  it('shrinks an arc of that radius to a sharp corner', () => {
    const inner = offsetRegion([roundedRectangle(0, 0, 20, 10, 2)], -2);
    expect(inner[0]?.segments.map(({ kind }) => kind)).toEqual(['line', 'line', 'line', 'line']);
    expect(areaOfRegion(inner)).toBeCloseTo(16 * 6, 10);
  });

  it('closes a gap of exactly twice the distance, and keeps one a little wider', () => {
    const pair = [rectangle(0, 0, 10, 10), rectangle(14, 0, 24, 10)];
    const closed = offsetRegion(pair, 2);
    expect(closed).toHaveLength(1);
    expect(areaOfRegion(closed)).toBeCloseTo(2 * (100 + 80 + 4 * Math.PI), 9);
    expect(offsetRegion(pair, 2 - 1e-6)).toHaveLength(2);
    expect(offsetRegion(pair, 2 + 1e-6)).toHaveLength(1);
    const notch = polygon([
      { x: 0, y: 0 },
      { x: 24, y: 0 },
      { x: 24, y: 10 },
      { x: 14, y: 10 },
      { x: 14, y: 4 },
      { x: 10, y: 4 },
      { x: 10, y: 10 },
      { x: 0, y: 10 },
    ]);
    const filled = offsetRegion([notch], 2);
    expect(filled).toHaveLength(1);
    expectRegion(filled);
    expect(extents(...filled)).toEqual({ minX: -2, minY: -2, maxX: 26, maxY: 12 });
  });

  it('fills a hole of exactly twice the distance, and joins parts that share an edge', () => {
    const ring = [rectangle(0, 0, 20, 20), reversed(rectangle(8, 6, 12, 14))];
    expect(offsetRegion(ring, 2)).toHaveLength(1);
    expect(offsetRegion(ring, 2 - 1e-6)).toHaveLength(2);
    const touching = [rectangle(0, 0, 10, 10), rectangle(10, 0, 20, 10)];
    expect(areaOfRegion(offsetRegion(touching, 1))).toBeCloseTo(22 * 12 - (4 - Math.PI), 10);
    expect(offsetRegion(touching, 1)).toHaveLength(1);
  });

  it('splits a region at a waist of exactly twice the distance', () => {
    const waist = polygon([
      { x: 0, y: 0 },
      { x: 10, y: 3 },
      { x: 20, y: 0 },
      { x: 20, y: 10 },
      { x: 10, y: 7 },
      { x: 0, y: 10 },
    ]);
    for (const d of [-2, -2 - 1e-6, -2.2]) {
      const parts = offsetRegion([waist], d);
      expect(parts).toHaveLength(2);
      expectRegion(parts);
    }
    expect(offsetRegion([waist], -2 + 1e-6)).toHaveLength(1);
  });

  it('by nothing is the region itself, of nothing is nothing', () => {
    expect(offsetRegion(bar, 0)).toEqual(bar);
    expect(offsetRegion([], 3)).toEqual([]);
    expect(offsetRegion([], -3)).toEqual([]);
  });

  it('rounds the tip of a cusp, and leaves none inside', () => {
    // A lens and its two-cornered kin: arcs meeting at a tangent point from either side.
    const crescent = union([circle({ x: 0, y: 0 }, 6)], []).concat(reversed(circle({ x: 2, y: 0 }, 4)));
    const wider = offsetRegion(crescent, 1);
    expect(areaOfRegion(wider)).toBeCloseTo(Math.PI * (49 - 9), 6);
    expect(areaOfRegion(offsetRegion(crescent, -1))).toBeGreaterThan(0);
    for (const p of pointsOn(offsetRegion(crescent, -1)))
      expect(distanceToBoundary(p, crescent)).toBeCloseTo(1, 6);
  });
});

describe('the offset of combs', () => {
  it.each([5, 20, 100])('of %i dovetail slots follows the formula for straight sides', (fingers) => {
    const slope = Math.tan((8 * Math.PI) / 180);
    const shape = { fingers, slot: 8, slope, pitch: 20, depth: 12 };
    const d = 1.25;
    const moved = offsetRegion([comb(shape)], d);
    expect(moved).toHaveLength(1);
    expectRegion(moved);
    // Slot ends: the sides move outward by d / cos θ measured along x, the ends by d.
    const points = moved[0]?.segments.map(({ from }) => from) ?? [];
    for (let i = 0; i < fingers; i++) {
      const middle = (i + 0.5) * shape.pitch;
      const halfAt = (y: number): number => shape.slot / 2 + slope * y + d * Math.hypot(1, slope);
      const onSide = points.filter(
        (p: Point) => Math.abs(p.x - middle) < 10 && p.y > 1 && p.y < 13 && p.x > middle,
      );
      expect(onSide.length).toBeGreaterThan(0);
      const root = onSide.reduce((low, p) => (p.y < low.y ? p : low));
      expect(Math.abs(root.x - middle - halfAt(root.y))).toBeLessThan(1e-9);
    }
  });

  it('splits at roots narrower than twice the distance, one part a slot and one for the band', () => {
    const shape = { fingers: 30, slot: 4, slope: 0.2, pitch: 20, depth: 20 };
    const parts = offsetRegion([comb(shape)], -3);
    expect(parts).toHaveLength(31);
    expectRegion(parts);
  });

  it('merges slots whose walls are thinner than twice the distance, and not a hair before', () => {
    const shape = { fingers: 40, slot: 10, slope: 0, pitch: 13, depth: 20 };
    expect(offsetRegion(slots(shape), 1.5)).toHaveLength(1);
    expect(offsetRegion(slots(shape), 1.5 - 1e-6)).toHaveLength(40);
    expect(offsetRegion(slots(shape), 1.5 + 1e-6)).toHaveLength(1);
    expectRegion(offsetRegion(slots(shape), 1.5));
  });
});
