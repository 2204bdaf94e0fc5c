import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundCorners } from '../../src/geometry/fillet.js';
import { area, outline, polygon, rectangle } from '../../src/geometry/outline.js';
import { cross, dot } from '../../src/geometry/point.js';
import { tidyRegion } from '../../src/geometry/regions/tidy.js';
import { line, segmentFromBulge, tangentAt } from '../../src/geometry/segment.js';
import type { Outline } from '../../src/geometry/types.js';
import { anyGridPolygon, anyPolygon, expectRegion } from './shapes.js';

const smoothAt = (one: Outline, i: number): boolean => {
  const before = one.segments.at(i - 1);
  const after = one.segments[i];
  if (!before || !after) return false;
  const [a, b] = [tangentAt(before, 1), tangentAt(after, 0)];
  return Math.abs(cross(a, b)) < 1e-7 && dot(a, b) > 0;
};

describe('rounded corners', () => {
  it('of a rectangle take (4 − π) r² away', () => {
    const rounded = roundCorners(rectangle(0, 0, 30, 20), () => 4);
    expect(rounded.segments).toHaveLength(8);
    expect(area(rounded)).toBeCloseTo(600 - (4 - Math.PI) * 16, 10);
    expectRegion([rounded]);
  });

  it('are only those asked for, by place and by side', () => {
    const notch = polygon([
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 30, y: 20 },
      { x: 20, y: 20 },
      { x: 20, y: 10 },
      { x: 10, y: 10 },
      { x: 10, y: 20 },
      { x: 0, y: 20 },
    ]);
    const inside = roundCorners(notch, (_, turnsLeft) => (turnsLeft ? 0 : 2));
    expect(inside.segments.filter((one) => one.kind === 'arc')).toHaveLength(2);
    expect(inside.segments.every((one) => one.kind === 'line' || !one.ccw)).toBe(true);
    expect(area(inside)).toBeCloseTo(500 + 2 * (4 - Math.PI), 10);
    const lower = roundCorners(notch, ({ y }) => (y === 0 ? 2 : 0));
    expect(lower.segments.filter((one) => one.kind === 'arc')).toHaveLength(2);
    expect(roundCorners(notch, () => 0)).toEqual(notch);
  });

  it('are reduced to half a side shared by two, or a whole side that is not', () => {
    const all = roundCorners(rectangle(0, 0, 30, 10), () => 50);
    const radii = all.segments.flatMap((segment) => (segment.kind === 'arc' ? [segment.radius] : []));
    expect(radii).toHaveLength(4);
    for (const radius of radii) expect(radius).toBeCloseTo(5, 12);
    // Two corners side by side make a half circle, which is one arc when tidied.
    expectRegion(tidyRegion([all]));
    const one = roundCorners(rectangle(0, 0, 30, 10), ({ x, y }) => (x === 30 && y === 10 ? 50 : 0));
    const [single] = one.segments.flatMap((segment) => (segment.kind === 'arc' ? [segment.radius] : []));
    expect(single).toBeCloseTo(10, 12);
  });

  it('meet both sides smoothly and stay simple, whatever the polygon', () => {
    let arcs = 0;
    fc.assert(
      fc.property(
        fc.oneof(anyPolygon, anyGridPolygon),
        fc.double({ min: 0.2, max: 8, noNaN: true }),
        (one, radius) => {
          const rounded = roundCorners(one, () => radius);
          rounded.segments.forEach((segment, i) => {
            if (segment.kind !== 'arc') return;
            arcs++;
            expect(segment.radius).toBeLessThanOrEqual(radius + 1e-12);
            expect(smoothAt(rounded, i)).toBe(true);
            expect(smoothAt(rounded, (i + 1) % rounded.segments.length)).toBe(true);
          });
          expectRegion(tidyRegion([rounded]));
        },
      ),
      { numRuns: 150 },
    );
    expect(arcs).toBeGreaterThan(500);
  });

  it('leave outlines closed to the last digit where two arcs use up a side', () => {
    fc.assert(
      fc.property(fc.oneof(anyPolygon, anyGridPolygon), fc.constantFrom(1, 2.5, 30), (one, radius) => {
        const { segments } = roundCorners(one, () => radius);
        segments.forEach((segment, i) => {
          expect(segments[(i + 1) % segments.length]?.from).toEqual(segment.to);
        });
      }),
      { numRuns: 300 },
    );
  });

  it('beside an arc are tangent to it, or left where the radius does not fit', () => {
    // A half disc of radius 10: by Pythagoras a fillet r sits at height r, √((10 − r)² − r²) from the middle.
    const half = outline([
      line({ x: -10, y: 0 }, { x: 10, y: 0 }),
      segmentFromBulge({ x: 10, y: 0 }, { x: -10, y: 0 }, 1),
    ]);
    const rounded = roundCorners(half, () => 2);
    const fillets = rounded.segments.filter((one) => one.kind === 'arc' && one.radius === 2);
    expect(fillets).toHaveLength(2);
    for (const one of fillets) {
      if (one.kind === 'arc') {
        expect(one.center.y).toBeCloseTo(2, 10);
        expect(Math.abs(one.center.x)).toBeCloseTo(Math.sqrt(60), 10);
      }
    }
    rounded.segments.forEach((_, i) => {
      expect(smoothAt(rounded, i)).toBe(true);
    });
    expectRegion([rounded]);
    expect(roundCorners(half, () => 20)).toEqual(half);
  });

  it('beside an arc too short to hold the tangent point leave the corner, and turn no arc round', () => {
    // A plate whose slot begins with 0.0004 mm of an arc, as a bushing leaves it where a plate's edge cuts its round.
    const plate = outline([
      line({ x: -30, y: -14 }, { x: 0, y: -14 }),
      segmentFromBulge(
        { x: 0, y: -14 },
        { x: 0.0000932740042136, y: -13.99958605344992 },
        -0.000014805483399915635,
      ),
      line({ x: 0.0000932740042136, y: -13.99958605344992 }, { x: 3.8954905, y: 3.2856536 }),
      line({ x: 3.8954905, y: 3.2856536 }, { x: -30, y: 3.2856536 }),
      line({ x: -30, y: 3.2856536 }, { x: -30, y: -14 }),
    ]);
    const rounded = roundCorners(plate, (corner) => (corner.y < -14 + 1e-6 && corner.x > -1 ? 1.5 : 0));
    expectRegion([rounded]);
    expect(area(rounded)).toBeLessThanOrEqual(area(plate) + 1e-9);
    expect(area(rounded)).toBeGreaterThan(area(plate) - 1.5 * 1.5);
  });

  it('smooth joints are no corners', () => {
    const slot = roundCorners(rectangle(0, 0, 30, 10), () => 3);
    expect(roundCorners(slot, () => 1)).toEqual(slot);
  });
});
