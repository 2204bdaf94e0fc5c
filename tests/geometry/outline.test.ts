import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/geometry/flatten.js';
import {
  area,
  areaOfRegion,
  bulgesOf,
  circle,
  containsPoint,
  extents,
  isCounterClockwise,
  outline,
  outlineFromBulges,
  perimeter,
  polygon,
  rectangle,
  reversed,
  roundedRectangle,
} from '../../src/geometry/outline.js';
import { tidy, tidyRegion } from '../../src/geometry/regions/tidy.js';
import { line, segmentFromBulge } from '../../src/geometry/segment.js';
import { mirrorX, mirrorY, rotate, scale, translate } from '../../src/geometry/transform.js';
import type { Path, Segment } from '../../src/geometry/types.js';
import { anyOutline, coordinateWithin, expectRegion, variants } from './shapes.js';

describe('what outlines measure', () => {
  it('rectangle, rounded rectangle and circle by their formulas', () => {
    expect(area(rectangle(1, 2, 4, 7))).toBe(15);
    expect(perimeter(rectangle(1, 2, 4, 7))).toBe(16);
    const rounded = roundedRectangle(0, 0, 20, 10, 3);
    expect(area(rounded)).toBeCloseTo(200 - (4 - Math.PI) * 9, 10);
    expect(perimeter(rounded)).toBeCloseTo(60 - 24 + 6 * Math.PI, 10);
    expect(extents(rounded)).toEqual({ minX: 0, minY: 0, maxX: 20, maxY: 10 });
    expect(area(circle({ x: 3, y: -2 }, 5))).toBeCloseTo(25 * Math.PI, 10);
    expect(circle({ x: 0, y: 0 }, 5).segments).toHaveLength(2);
    expectRegion([rounded]);
  });

  it('a radius over half the shorter side leaves a slot with round ends and no empty segments', () => {
    const slot = roundedRectangle(0, 0, 20, 10, 9);
    expect(area(slot)).toBeCloseTo(100 + 25 * Math.PI, 10);
    expect(slot.segments.every(({ from, to }) => Math.hypot(from.x - to.x, from.y - to.y) > 0)).toBe(true);
  });

  it('area and perimeter agree with the flattened outline to the faceting error', () => {
    fc.assert(
      fc.property(anyOutline, (one) => {
        const tolerance = 1e-5;
        const flat = polygon(flatten(one, tolerance));
        expect(Math.abs(area(one) - area(flat))).toBeLessThan((2 / 3) * tolerance * perimeter(one) + 1e-9);
        expect(perimeter(one) - perimeter(flat)).toBeGreaterThan(-1e-9);
        expect(perimeter(one) - perimeter(flat)).toBeLessThan(0.01);
        expect(isCounterClockwise(one)).toBe(true);
        expect(area(reversed(one))).toBeCloseTo(-area(one), 9);
      }),
    );
  });

  it('comes back from its bulges', () => {
    fc.assert(
      fc.property(anyOutline, (one) => {
        const again = outlineFromBulges(bulgesOf(one));
        expect(again.segments).toHaveLength(one.segments.length);
        expect(Math.abs(area(again) - area(one))).toBeLessThan(1e-9 * 400);
      }),
    );
  });
});

describe('a point is inside', () => {
  it('as the flattened outline says, by another rule (even and odd crossings)', () => {
    let inside = 0;
    const coordinate = coordinateWithin(12);
    fc.assert(
      fc.property(anyOutline, coordinate, coordinate, (one, x, y) => {
        const points = flatten(one, 1e-6);
        let odd = false;
        points.forEach((a, i) => {
          const b = points[(i + 1) % points.length] ?? a;
          if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) odd = !odd;
        });
        if (odd) inside++;
        expect(containsPoint([one], { x, y })).toBe(odd);
      }),
      { numRuns: 500 },
    );
    expect(inside).toBeGreaterThan(50);
  });

  it('not in a hole, and rightly on the chords of arcs', () => {
    const ring = [circle({ x: 0, y: 0 }, 5), reversed(circle({ x: 0, y: 0 }, 2))];
    for (const y of [0, 1e-16, -1e-16]) {
      expect(containsPoint(ring, { x: 0, y })).toBe(false);
      expect(containsPoint(ring, { x: 3, y })).toBe(true);
      expect(containsPoint(ring, { x: -3, y })).toBe(true);
      expect(containsPoint(ring, { x: 6, y })).toBe(false);
      expect(containsPoint(ring, { x: -6, y })).toBe(false);
    }
    const slot = [roundedRectangle(0, 0, 20, 10, 5)];
    for (const x of [1, 5, 10, 15, 19]) expect(containsPoint(slot, { x, y: 5 })).toBe(true);
    expect(containsPoint([], { x: 0, y: 0 })).toBe(false);
  });
});

describe('moving', () => {
  it('keeps area, orientation and shape, and goes back', () => {
    fc.assert(
      fc.property(anyOutline, (one) => {
        for (const { there, back } of variants) {
          const moved = there([one]);
          expect(areaOfRegion(moved)).toBeCloseTo(area(one), 6);
          expect(extents(...back(moved)).maxX).toBeCloseTo(extents(one).maxX, 9);
        }
        expect(area(scale(one, 25.4)) / area(one)).toBeCloseTo(25.4 ** 2, 6);
      }),
    );
  });

  it('puts points where they should go', () => {
    const path: Path = { closed: false, segments: [line({ x: 1, y: 2 }, { x: 3, y: 5 })] };
    expect(translate(path, 10, 20).segments[0]?.to).toEqual({ x: 13, y: 25 });
    expect(mirrorX(path, 10).segments[0]).toEqual(line({ x: 9, y: 2 }, { x: 7, y: 5 }));
    expect(mirrorY(path, 10).segments[0]).toEqual(line({ x: 1, y: 8 }, { x: 3, y: 5 }));
    const turned = rotate(path, Math.PI / 2, { x: 1, y: 2 }).segments[0]?.to;
    expect(turned?.x).toBeCloseTo(-2, 12);
    expect(turned?.y).toBeCloseTo(4, 12);
  });
});

describe('tidying', () => {
  it('merges what runs on and leaves the region alone', () => {
    fc.assert(
      fc.property(anyOutline, (one) => {
        const pieces = one.segments.flatMap((segment): Segment[] => {
          const { from, to } = segment;
          if (segment.kind === 'line') {
            const at = { x: from.x + (to.x - from.x) / 3, y: from.y + (to.y - from.y) / 3 };
            return [line(from, at), line(at, to)];
          }
          return [segment];
        });
        const tidied = tidy(outline(pieces));
        expect(tidied?.segments.length).toBeLessThanOrEqual(one.segments.length);
        expect(Math.abs(area(tidied ?? one) - area(one))).toBeLessThan(1e-6);
        expectRegion(tidyRegion([one]));
      }),
    );
  });

  it('drops short segments without tilting the long ones', () => {
    const tiny = 2e-6;
    const chipped = polygon([
      { x: 0, y: 0 },
      { x: 10, y: 0 },
      { x: 10, y: 6 - tiny },
      { x: 10 - tiny, y: 6 },
      { x: 0, y: 6 },
    ]);
    const square = tidy(chipped, 1e-5);
    expect(square?.segments.map(({ to }) => to)).toHaveLength(4);
    const corner = square?.segments.map(({ to }) => to).find(({ x, y }) => x > 5 && y > 3);
    expect(corner?.x).toBeCloseTo(10, 12);
    expect(corner?.y).toBeCloseTo(6, 12);
  });

  it('makes one arc of two with a tiny line between, exactly as wide as the slot', () => {
    const quarter = Math.tan(Math.PI / 8);
    const tiny = 2e-6;
    const end = [
      line({ x: 20, y: 0 }, { x: 20, y: 10 }),
      segmentFromBulge({ x: 20, y: 10 }, { x: 15 + tiny / 2, y: 15 - tiny / 2 }, quarter),
      line({ x: 15 + tiny / 2, y: 15 - tiny / 2 }, { x: 15 - tiny / 2, y: 15 - tiny / 2 }),
      segmentFromBulge({ x: 15 - tiny / 2, y: 15 - tiny / 2 }, { x: 10, y: 10 }, quarter),
      line({ x: 10, y: 10 }, { x: 10, y: 0 }),
      line({ x: 10, y: 0 }, { x: 20, y: 0 }),
    ];
    const slot = tidy(outline(end), 1e-5);
    const arcs = slot?.segments.filter((one) => one.kind === 'arc');
    expect(arcs).toHaveLength(1);
    expect(arcs?.[0]).toMatchObject({ radius: 5 });
  });

  it('leaves nothing of a sliver', () => {
    expect(tidyRegion([rectangle(0, 0, 100, 1e-7)])).toEqual([]);
    expect(tidyRegion([rectangle(0, 0, 100, 2e-6)])).toHaveLength(1);
    expect(tidyRegion([rectangle(0, 0, 100, 2e-6)], 1e-5)).toEqual([]);
  });
});
