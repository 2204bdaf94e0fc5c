import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distance, dot, minus, turnedLeft } from '../../src/geometry/point.js';
import {
  arc,
  bulgeOf,
  distanceToSegment,
  extentsOfSegment,
  lengthOf,
  line,
  parameterOf,
  pointAt,
  reversedSegment,
  segmentFromBulge,
  split,
  sweepOf,
  tangentAt,
} from '../../src/geometry/segment.js';

const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
const point = fc.record({ x: coordinate, y: coordinate });
const bulge = fc.oneof(
  fc.constant(0),
  fc.double({ min: 0.05, max: 3, noNaN: true }),
  fc.double({ min: -3, max: -0.05, noNaN: true }),
);
const segment = fc
  .tuple(point, point, bulge)
  .filter(([a, b]) => distance(a, b) > 0.1)
  .map(([a, b, c]) => segmentFromBulge(a, b, c));

describe('a segment', () => {
  it('gives back the bulge it was made from, through both ends', () => {
    fc.assert(
      fc.property(point, point, bulge, (from, to, b) => {
        fc.pre(distance(from, to) > 0.1);
        const made = segmentFromBulge(from, to, b);
        expect(Math.abs(bulgeOf(made) - b)).toBeLessThan(1e-9);
        if (made.kind === 'arc') {
          expect(Math.abs(distance(made.to, made.center) - made.radius)).toBeLessThan(
            1e-9 * (1 + made.radius),
          );
        }
      }),
    );
  });

  it('has a half circle for bulge 1, counter-clockwise to the right of its chord', () => {
    const half = segmentFromBulge({ x: 0, y: 0 }, { x: 2, y: 0 }, 1);
    expect(half).toMatchObject({ kind: 'arc', radius: 1, ccw: true, center: { x: 1, y: 0 } });
    expect(pointAt(half, 0.5).y).toBeCloseTo(-1, 12);
    expect(lengthOf(half)).toBeCloseTo(Math.PI, 12);
  });

  it('runs evenly along its length, and its parts make up the whole', () => {
    fc.assert(
      fc.property(segment, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (one, t) => {
        const [first, rest] = split(one, t);
        expect(Math.abs(lengthOf(first) - t * lengthOf(one))).toBeLessThan(1e-8);
        expect(Math.abs(lengthOf(first) + lengthOf(rest) - lengthOf(one))).toBeLessThan(1e-8);
        expect(Math.abs(parameterOf(one, pointAt(one, t)) - t)).toBeLessThan(1e-8);
        expect(distanceToSegment(pointAt(one, t), one)).toBeLessThan(1e-9 * 100);
      }),
    );
  });

  it('turned round has the same points, length and opposite tangents', () => {
    fc.assert(
      fc.property(segment, (one) => {
        const back = reversedSegment(one);
        expect(Math.abs(lengthOf(back) - lengthOf(one))).toBeLessThan(1e-9);
        expect(distance(pointAt(back, 0.25), pointAt(one, 0.75))).toBeLessThan(1e-9 * 100);
        expect(dot(tangentAt(back, 0.5), tangentAt(one, 0.5))).toBeCloseTo(-1, 9);
      }),
    );
  });

  it('is as far from a point as its nearest sample, and no farther', () => {
    fc.assert(
      fc.property(segment, point, (one, p) => {
        const steps = 400;
        const nearest = Math.min(
          ...Array.from({ length: steps + 1 }, (_, i) => distance(p, pointAt(one, i / steps))),
        );
        const found = distanceToSegment(p, one);
        expect(found).toBeLessThanOrEqual(nearest + 1e-9);
        expect(nearest - found).toBeLessThanOrEqual(lengthOf(one) / steps);
      }),
    );
  });

  it('fits its extents tightly', () => {
    fc.assert(
      fc.property(segment, (one) => {
        const box = extentsOfSegment(one);
        const samples = Array.from({ length: 401 }, (_, i) => pointAt(one, i / 400));
        for (const [low, high, of] of [
          [box.minX, box.maxX, (p: { x: number; y: number }) => p.x],
          [box.minY, box.maxY, (p: { x: number; y: number }) => p.y],
        ] as const) {
          const values = samples.map(of);
          expect(Math.min(...values)).toBeGreaterThanOrEqual(low - 1e-9);
          expect(Math.max(...values)).toBeLessThanOrEqual(high + 1e-9);
          expect(Math.min(...values) - low).toBeLessThan(lengthOf(one) / 400);
          expect(high - Math.max(...values)).toBeLessThan(lengthOf(one) / 400);
        }
      }),
    );
  });

  it('knows the sweep of arcs on both sides of a half turn', () => {
    const from = { x: 1, y: 0 };
    const center = { x: 0, y: 0 };
    expect(sweepOf(arc(from, { x: 0, y: 1 }, center, true))).toBeCloseTo(Math.PI / 2, 12);
    expect(sweepOf(arc(from, { x: 0, y: 1 }, center, false))).toBeCloseTo((-3 * Math.PI) / 2, 12);
    expect(sweepOf(arc(from, { x: 0, y: -1 }, center, true))).toBeCloseTo((3 * Math.PI) / 2, 12);
  });

  it('heads along its tangent', () => {
    fc.assert(
      fc.property(segment, (one) => {
        const [a, b] = [pointAt(one, 0.5), pointAt(one, 0.5 + 1e-6)];
        const step = minus(b, a);
        expect(Math.abs(dot(step, turnedLeft(tangentAt(one, 0.5))))).toBeLessThan(
          1e-3 * distance(a, b) + 1e-12,
        );
        expect(dot(step, tangentAt(one, 0.5))).toBeGreaterThan(0);
      }),
    );
  });

  it('of no length is as far as its end', () => {
    const p = { x: 3, y: 4 };
    expect(distanceToSegment({ x: 0, y: 0 }, line(p, p))).toBe(5);
  });
});
