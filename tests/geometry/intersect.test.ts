import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { intersect } from '../../src/geometry/intersect.js';
import { distance } from '../../src/geometry/point.js';
import { arc, distanceToSegment, line, segmentFromBulge } from '../../src/geometry/segment.js';
import type { Point, Segment } from '../../src/geometry/types.js';

const p = (x: number, y: number): Point => ({ x, y });
const around = (center: Point, radius: number, from: number, to: number, ccw = true): Segment => {
  const at = (angle: number): Point =>
    p(center.x + radius * Math.cos(angle), center.y + radius * Math.sin(angle));
  return arc(at(from), at(to), center, ccw);
};
const half = around(p(0, 0), 5, 0, Math.PI);

describe('two lines', () => {
  it('meet in one point, also at their ends', () => {
    expect(intersect(line(p(0, 0), p(10, 0)), line(p(4, -1), p(4, 1)))).toEqual({
      kind: 'points',
      at: [p(4, 0)],
    });
    expect(intersect(line(p(0, 0), p(10, 0)), line(p(10, 0), p(12, 5)))).toEqual({
      kind: 'points',
      at: [p(10, 0)],
    });
  });
  it('miss', () => {
    expect(intersect(line(p(0, 0), p(10, 0)), line(p(0, 1), p(10, 1))).kind).toBe('none');
    expect(intersect(line(p(0, 0), p(10, 0)), line(p(11, -1), p(11, 1))).kind).toBe('none');
    expect(intersect(line(p(0, 0), p(4, 0)), line(p(5, 0), p(9, 0))).kind).toBe('none');
  });
  it('share a stretch, or touch end to end', () => {
    const both = intersect(line(p(0, 0), p(6, 0)), line(p(9, 0), p(4, 0)));
    expect(both.kind).toBe('overlapping');
    if (both.kind === 'overlapping') expect(both.ends.map(({ x }) => x).sort()).toEqual([4, 6]);
    expect(intersect(line(p(0, 0), p(4, 0)), line(p(4, 0), p(9, 0)))).toEqual({
      kind: 'points',
      at: [p(4, 0)],
    });
  });
});

describe('a line and an arc', () => {
  it('meet twice, once or not at all', () => {
    const two = intersect(line(p(-9, 3), p(9, 3)), half);
    expect(two.kind === 'points' && two.at.map(({ x }) => x)).toEqual([-4, 4]);
    expect(intersect(line(p(0, 3), p(9, 3)), half)).toEqual({ kind: 'points', at: [p(4, 3)] });
    expect(intersect(line(p(-9, -3), p(9, -3)), half).kind).toBe('none');
    expect(intersect(line(p(-9, 6), p(9, 6)), half).kind).toBe('none');
  });
  it('touch, to within the tolerance and no more', () => {
    for (const error of [0, 5e-8, -5e-8]) {
      const met = intersect(line(p(-9, 5 + error), p(9, 5 + error)), half);
      expect(met.kind).toBe('tangent');
    }
    expect(intersect(line(p(-9, 5 + 2e-7), p(9, 5 + 2e-7)), half).kind).toBe('none');
    expect(intersect(line(p(-9, 5 - 2e-7), p(9, 5 - 2e-7)), half).kind).toBe('points');
  });
});

describe('two arcs', () => {
  it('meet twice, once or not at all', () => {
    const other = around(p(6, 0), 5, 0, Math.PI);
    expect(intersect(half, other)).toEqual({ kind: 'points', at: [p(3, 4)] });
    expect(intersect(around(p(0, 0), 5, -3, 3), around(p(6, 0), 5, 0.1, -0.1)).kind).toBe('points');
    expect(intersect(half, around(p(11, 0), 5, 0, Math.PI)).kind).toBe('none');
    expect(intersect(half, around(p(0, 0), 4, 0, Math.PI)).kind).toBe('none');
  });
  it('touch from outside and from inside', () => {
    expect(intersect(half, around(p(0, 8), 3, Math.PI, 0))).toEqual({ kind: 'tangent', at: p(0, 5) });
    const inner = intersect(half, around(p(0, 2), 3, 0, Math.PI));
    expect(inner.kind).toBe('tangent');
    if (inner.kind === 'tangent') expect(distance(inner.at, p(0, 5))).toBeLessThan(1e-12);
  });
  it('of one circle share a stretch, two stretches, or only their ends', () => {
    const one = intersect(half, around(p(0, 0), 5, 1, 4));
    expect(one.kind === 'overlapping' && one.ends.length).toBe(2);
    const two = intersect(around(p(0, 0), 5, 0, 4), around(p(0, 0), 5, 3, 1));
    expect(two.kind === 'overlapping' && two.ends.length).toBe(4);
    const ends = intersect(half, around(p(0, 0), 5, Math.PI, 0));
    expect(ends.kind === 'points' && ends.at.length).toBe(2);
    const back = intersect(half, around(p(0, 0), 5, Math.PI, 0, false));
    expect(back.kind).toBe('overlapping');
  });
});

it('finds points that lie on both segments, and the same kind of meeting from either side', () => {
  const coordinate = fc.double({ min: -20, max: 20, noNaN: true });
  const any = fc
    .tuple(coordinate, coordinate, coordinate, coordinate, fc.constantFrom(0, 0.4, -0.7, 1, -1.6))
    .filter(([a, b, c, d]) => Math.hypot(a - c, b - d) > 0.5)
    .map(([a, b, c, d, bulge]) => segmentFromBulge(p(a, b), p(c, d), bulge));
  let met = 0;
  fc.assert(
    fc.property(any, any, (a, b) => {
      const found = intersect(a, b);
      const swapped = intersect(b, a);
      expect(swapped.kind).toBe(found.kind);
      if (found.kind !== 'points') return;
      met++;
      for (const at of found.at) {
        expect(distanceToSegment(at, a)).toBeLessThan(1e-7);
        expect(distanceToSegment(at, b)).toBeLessThan(1e-7);
      }
    }),
    { numRuns: 500 },
  );
  expect(met).toBeGreaterThan(50);
});
