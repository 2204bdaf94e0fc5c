import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offsetRegion } from '../../src/geometry/offset.js';
import {
  areaOfRegion,
  circle,
  containsPoint,
  polygon,
  rectangle,
  reversed,
} from '../../src/geometry/outline.js';
import {
  difference,
  intersection,
  union,
  unionOfAll,
  withoutSharedEdges,
} from '../../src/geometry/regions/boolean.js';
import { translate } from '../../src/geometry/transform.js';
import type { Region } from '../../src/geometry/types.js';
import {
  anyOutline,
  coordinateWithin,
  distanceToBoundary,
  expectRegion,
  expectSameArea,
  slots,
  variants,
} from './shapes.js';

const columns = 6;
const rows = 5;
/** Which cells of a 6 × 5 board of 2 mm squares are taken. */
const anyCells = fc.array(fc.boolean(), { minLength: columns * rows, maxLength: columns * rows });

const cellRegion = (cells: readonly boolean[]): Region =>
  cells.flatMap((taken, i) => {
    const x = 2 * (i % columns);
    const y = 2 * Math.floor(i / columns);
    return taken ? [rectangle(x, y, x + 2, y + 2)] : [];
  });

describe('any two regions', () => {
  it('hold the points that the definition says', () => {
    const coordinate = coordinateWithin(14);
    const seen = { union: 0, intersection: 0, difference: 0 };
    fc.assert(
      fc.property(
        anyOutline,
        anyOutline,
        fc.array(fc.tuple(coordinate, coordinate), { minLength: 20, maxLength: 20 }),
        (one, other, points) => {
          const [a, b]: [Region, Region] = [[one], translate([other], 4, 1)];
          const results = [union(a, b), intersection(a, b), difference(a, b)] as const;
          for (const result of results) expectRegion(result);
          for (const [x, y] of points) {
            const p = { x, y };
            if (distanceToBoundary(p, [...a, ...b]) < 1e-6) continue;
            const [inA, inB] = [containsPoint(a, p), containsPoint(b, p)];
            const wanted = [inA || inB, inA && inB, inA && !inB];
            expect(results.map((result) => containsPoint(result, p))).toEqual(wanted);
            if (wanted[0]) seen.union++;
            if (wanted[1]) seen.intersection++;
            if (wanted[2]) seen.difference++;
          }
        },
      ),
      { numRuns: 200 },
    );
    expect(Math.min(seen.union, seen.intersection, seen.difference)).toBeGreaterThan(100);
  });

  it('have areas that add up, in every variant', () => {
    fc.assert(
      fc.property(anyOutline, anyOutline, (one, other) => {
        for (const { there } of variants) {
          const [a, b] = [there([one]), there([other])];
          const common = areaOfRegion(intersection(a, b));
          expect(
            Math.abs(areaOfRegion(union(a, b)) + common - areaOfRegion(a) - areaOfRegion(b)),
          ).toBeLessThan(1e-4);
          expect(Math.abs(areaOfRegion(difference(a, b)) + common - areaOfRegion(a))).toBeLessThan(1e-4);
        }
      }),
      { numRuns: 60 },
    );
  });
});

it('copies moved by 1e-9 to 1e-4 mm have areas that add up', () => {
  const tiny = fc
    .tuple(fc.integer({ min: 4, max: 9 }), fc.constantFrom(-1.4, 0.7, 1))
    .map(([k, f]) => f * 10 ** -k);
  fc.assert(
    fc.property(anyOutline, tiny, tiny, (one, dx, dy) => {
      const a = offsetRegion([one], 1);
      const b = translate(a, dx, dy);
      const common = areaOfRegion(intersection(a, b));
      expect(Math.abs(areaOfRegion(union(a, b)) + common - 2 * areaOfRegion(a))).toBeLessThan(1e-4);
      expect(Math.abs(areaOfRegion(difference(a, b)) + common - areaOfRegion(a))).toBeLessThan(1e-4);
    }),
    { numRuns: 200 },
  );
});

describe('regions that share edges', () => {
  it('made of board cells have the areas that counting gives', () => {
    fc.assert(
      fc.property(anyCells, anyCells, (one, other) => {
        const a = unionOfAll(cellRegion(one).map((cell) => [cell]));
        const b = withoutSharedEdges(cellRegion(other));
        const count = (take: (inA: boolean, inB: boolean) => boolean): number =>
          4 * one.filter((taken, i) => take(taken, other[i] ?? false)).length;
        expect(areaOfRegion(a)).toBeCloseTo(
          count((inA) => inA),
          9,
        );
        expect(areaOfRegion(b)).toBeCloseTo(
          count((_, inB) => inB),
          9,
        );
        const all: readonly (readonly [Region, number])[] = [
          [union(a, b), count((inA, inB) => inA || inB)],
          [intersection(a, b), count((inA, inB) => inA && inB)],
          [difference(a, b), count((inA, inB) => inA && !inB)],
        ];
        for (const [region, wanted] of all) {
          expect(areaOfRegion(region)).toBeCloseTo(wanted, 9);
          expectRegion(region);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('with themselves and with their own offsets come out whole', () => {
    fc.assert(
      fc.property(anyOutline, fc.constantFrom(-1, -0.5, 0.5, 1), (one, d) => {
        const a = [one];
        expectSameArea(union(a, a), a);
        expectSameArea(intersection(a, a), a);
        expect(difference(a, a)).toEqual([]);
        // There and back shares most of its boundary, arcs included, with where it started.
        const back = offsetRegion(offsetRegion(a, d), -d);
        const [small, large] = d < 0 ? [back, a] : [a, back];
        expectSameArea(union(small, large), large, 1e-4);
        expectSameArea(intersection(small, large), small, 1e-4);
        expect(areaOfRegion(difference(small, large))).toBeLessThan(1e-4);
      }),
      { numRuns: 100 },
    );
  });

  it('side by side become one, one inside the other a ring', () => {
    const left = [rectangle(0, 0, 10, 6)];
    const joined = union(left, [rectangle(10, 0, 20, 6)]);
    expect(joined[0]?.segments).toHaveLength(4);
    expect(intersection(left, [rectangle(10, 0, 20, 6)])).toEqual([]);
    expect(difference(left, [rectangle(10, 0, 20, 6)])).toEqual(left);
    const ring = difference(left, [rectangle(2, 2, 4, 4)]);
    expect(ring).toHaveLength(2);
    expect(areaOfRegion(ring)).toBe(56);
    expect(difference(left, [rectangle(2, 0, 4, 6)])).toHaveLength(2);
    // Discs that touch from outside stay two; an arc shared in part is shared exactly.
    expect(union([circle({ x: 0, y: 0 }, 3)], [circle({ x: 6, y: 0 }, 3)])).toHaveLength(2);
    const half = intersection([circle({ x: 0, y: 0 }, 3)], [rectangle(0, -5, 5, 5)]);
    expect(areaOfRegion(half)).toBeCloseTo(4.5 * Math.PI, 10);
    expect(areaOfRegion(union([circle({ x: 0, y: 0 }, 3)], half))).toBeCloseTo(9 * Math.PI, 10);
    expect(areaOfRegion(difference([circle({ x: 0, y: 0 }, 3)], half))).toBeCloseTo(4.5 * Math.PI, 10);
  });

  it('and none, or nothing at all', () => {
    const a = [rectangle(0, 0, 10, 6)];
    expect(union(a, [])).toEqual(a);
    expect(union([], [])).toEqual([]);
    expect(intersection(a, [])).toEqual([]);
    expect(difference([], a)).toEqual([]);
    expect(difference(a, [rectangle(-1, -1, 11, 7)])).toEqual([]);
    expect(withoutSharedEdges([rectangle(0, 0, 5, 5), reversed(rectangle(0, 0, 5, 5))])).toEqual([]);
  });
});

it('slots taken out of a plate leave one outline, each slot open at the edge', () => {
  const shape = { fingers: 50, slot: 10, slope: 0.1, pitch: 25, depth: 30 };
  const plate = [rectangle(-20, 0, 50 * 25 + 20, 80)];
  const openings = offsetRegion(slots(shape), 1);
  const left = difference(plate, openings);
  expect(left).toHaveLength(1);
  expectRegion(left);
  expect(areaOfRegion(left)).toBeCloseTo(
    areaOfRegion(plate) - areaOfRegion(intersection(plate, openings)),
    6,
  );
  const fromEdge = polygon([
    { x: 0, y: -5 },
    { x: 9, y: -5 },
    { x: 9, y: 5 },
    { x: 0, y: 5 },
  ]);
  expect(difference(plate, [fromEdge])).toHaveLength(1);
});
