import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bushingOpening, cutBy } from '../../src/geometry/compensate.js';
import { offsetRegion } from '../../src/geometry/offset.js';
import { openedRegion, unreachable } from '../../src/geometry/opening.js';
import {
  areaOfRegion,
  circle,
  containsPoint,
  extents,
  polygon,
  rectangle,
  reversed,
} from '../../src/geometry/outline.js';
import { difference } from '../../src/geometry/regions/boolean.js';
import { lengthOf } from '../../src/geometry/segment.js';
import {
  anyDistance,
  anyOutline,
  comb,
  distanceToBoundary,
  expectRegion,
  expectSameArea,
  pointsOn,
  slots,
  variants,
} from './shapes.js';

const inch = 25.4;

describe('the opening for a bushing', () => {
  it('is the slot widened by B/2 − r on each side, with round ends of the bushing', () => {
    // R 12 wide, r 5, B/2 8: centre field [5, 7] × [5, 25].
    const box = extents(...bushingOpening([rectangle(0, 0, 12, 30)], 5, 8));
    const sides = [box.minX, box.minY, box.maxX, box.maxY];
    for (const [i, side] of [-3, -3, 15, 33].entries()) {
      expect(Math.abs((sides[i] ?? 0) - side)).toBeLessThan(1e-9);
    }
    expect(areaOfRegion(bushingOpening([rectangle(0, 0, 12, 30)], 5, 8))).toBeCloseTo(
      18 * 36 - (4 - Math.PI) * 64,
      4,
    );
  });

  it('of a slot exactly as wide as the bit has straight sides to 1e-9 and half circles for ends', () => {
    const r = inch / 4;
    const b = (5 / 16) * inch;
    const opening = bushingOpening([rectangle(10, 0, 10 + inch / 2, 40)], r, b);
    expect(opening).toHaveLength(1);
    expectRegion(opening);
    const segments = opening[0]?.segments ?? [];
    expect(segments.map(({ kind }) => kind).sort()).toEqual(['arc', 'arc', 'line', 'line']);
    for (const one of segments.filter(({ kind }) => kind === 'line')) {
      for (const p of [one.from, one.to]) {
        expect(Math.abs(Math.abs(p.x - (10 + r)) - b)).toBeLessThan(1e-9);
      }
    }
    for (const one of segments) if (one.kind === 'arc') expect(Math.abs(one.radius - b)).toBeLessThan(1e-9);
  });

  it('of a square as wide as the bit is the bushing itself, a circle in two halves', () => {
    const opening = bushingOpening([rectangle(0, 0, 10, 10)], 5, 6);
    expect(opening[0]?.segments.map(({ kind }) => kind)).toEqual(['arc', 'arc']);
    expect(areaOfRegion(opening)).toBeCloseTo(Math.PI * 36, 3);
    expect(bushingOpening([circle({ x: 3, y: 4 }, 5)], 5, 6)[0]?.segments).toHaveLength(2);
  });

  it('is nothing where the bit does not fit', () => {
    expect(bushingOpening([rectangle(0, 0, 9.99, 40)], 5, 6)).toEqual([]);
  });

  it('narrows where the bit is larger than its bushing, and is the opened slot where they are equal', () => {
    expect(extents(...bushingOpening([rectangle(0, 0, 12, 30)], 6, 4))).toMatchObject({ minX: 2, maxX: 10 });
    const equal = bushingOpening([rectangle(0, 0, 12, 30)], 5, 5);
    expectSameArea(equal, openedRegion([rectangle(0, 0, 12, 30)], 5), 1e-4);
    const comb8 = [comb({ fingers: 8, slot: 10, slope: 0.14, pitch: 30, depth: 12 })];
    expectSameArea(bushingOpening(comb8, 5, 5), openedRegion(comb8, 5), 1e-4);
  });

  /*
   * Common practice, no source: a 5/8 in bushing with a 1/2 in straight bit sets a cut edge 1/16 in off the
   * finger. Box joint of 1/2 in fingers: template fingers of 3/8 in.
   */
  it('leaves template fingers of 3/8 in between 1/2 in slots with a 5/8 in bushing and a 1/2 in bit', () => {
    const box = slots({ fingers: 6, slot: inch / 2, slope: 0, pitch: inch, depth: 30 });
    const openings = bushingOpening(box, inch / 4, (5 / 16) * inch);
    expect(openings).toHaveLength(6);
    const sides = openings.map((one) => extents(one)).sort((a, b) => a.minX - b.minX);
    sides.slice(1).forEach((right, i) => {
      expect(Math.abs(right.minX - (sides[i]?.maxX ?? 0) - (3 / 8) * inch)).toBeLessThan(1e-9);
    });
    expect(Math.abs((sides[0]?.minX ?? 0) - (inch / 4 - inch / 16))).toBeLessThan(1e-9);
  });

  it.each([5, 20, 100])('serves combs of %i slots exactly as wide as the bit', (fingers) => {
    for (const slope of [0, Math.tan((8 * Math.PI) / 180), Math.tan((14 * Math.PI) / 180)]) {
      const waste = [comb({ fingers, slot: 12.7, slope, pitch: 40, depth: 12.7 })];
      const opening = bushingOpening(waste, 6.35, 7.9375);
      expect(opening).toHaveLength(1);
      expectRegion(opening);
      for (const one of opening[0]?.segments ?? []) expect(lengthOf(one)).toBeGreaterThan(1e-5);
      // Far ends of all slots reached: the bushing stands δ beyond them, and EXACT_FIT where the end is round.
      expect(Math.abs(extents(...opening).maxY - (12.7 + 7.9375 - 6.35))).toBeLessThan(1.1e-6);
    }
  });

  it('keeps fingers until they vanish', () => {
    const b = 7.9375;
    // Walls of 2 δ + w between slots become fingers w thin.
    const wall = (w: number): number => 2 * (b - 6.35) + w;
    for (const [w, openings] of [
      [0.5, 12],
      [1e-3, 12],
      [1e-5, 12],
      [0, 1],
      [-1e-3, 1],
    ] as const) {
      const waste = slots({ fingers: 12, slot: 14, slope: 0, pitch: 14 + wall(w), depth: 40 });
      const opening = bushingOpening(waste, 6.35, b);
      expect(opening, `${w}`).toHaveLength(openings);
      expectRegion(opening);
    }
  });

  it('lets the bit clear what it can reach and nothing else, for any waste', () => {
    let cleared = 0;
    fc.assert(
      fc.property(anyOutline, anyDistance, anyDistance, (one, r, b) => {
        const opening = bushingOpening([one], r, b);
        expectRegion(opening);
        const cut = cutBy(opening, b, r);
        if (opening.length > 0) cleared++;
        expect(Math.abs(areaOfRegion(difference(openedRegion([one], r), cut)))).toBeLessThan(1e-3);
        expect(areaOfRegion(opening)).toBeGreaterThanOrEqual(0);
        // A bushing that closes a finger's gap lets the bit go farther: only without closing is the cut R opened.
        for (const { there } of variants) {
          expectSameArea(bushingOpening(there([one]), r, b), opening, 1e-3);
        }
      }),
      { numRuns: 60 },
    );
    expect(cleared).toBeGreaterThan(20);
  });
});

describe('what a bit can clear', () => {
  it('a point stays when a disc inside the region holds it, and opening again changes nothing', () => {
    fc.assert(
      fc.property(anyOutline, anyDistance, (one, r) => {
        const opened = openedRegion([one], r);
        expectRegion(opened);
        for (const p of pointsOn(opened)) {
          expect(containsPoint([one], p) || distanceToBoundary(p, [one]) < 1e-6).toBe(true);
        }
        expectSameArea(openedRegion(opened, r), opened, 1e-3);
      }),
      { numRuns: 120 },
    );
  });

  it('the corners of a rectangle are out of reach: (4 − π) r² in four pieces', () => {
    const left = unreachable([rectangle(0, 0, 30, 20)], 4);
    expect(left).toHaveLength(4);
    expect(areaOfRegion(left)).toBeCloseTo((4 - Math.PI) * 16, 4);
    expectRegion(left);
  });

  it('nothing is out of reach where all corners are rounded wide enough, holes included', () => {
    const smooth = offsetRegion([rectangle(0, 0, 30, 20)], 4);
    expect(unreachable(smooth, 4)).toEqual([]);
    expect(unreachable([circle({ x: 0, y: 0 }, 9), reversed(rectangle(-1, -1, 1, 1))], 2)).toEqual([]);
  });

  it('a passage narrower than the bit is out of reach in one piece', () => {
    const channel = polygon([
      { x: 0, y: 0 },
      { x: 20, y: 0 },
      { x: 20, y: 8 },
      { x: 40, y: 8 },
      { x: 40, y: 12 },
      { x: 20, y: 12 },
      { x: 20, y: 20 },
      { x: 0, y: 20 },
    ]);
    const left = unreachable([channel], 3);
    expect(Math.max(...left.map((one) => areaOfRegion([one])))).toBeGreaterThan(75);
    expectSameArea([channel], [...left, ...openedRegion([channel], 3)], 1e-6);
  });

  it('reached and not reached make up the whole', () => {
    fc.assert(
      fc.property(anyOutline, anyDistance, (one, r) => {
        const parts = [...openedRegion([one], r), ...unreachable([one], r)];
        expectSameArea(parts, [one], 1e-3);
      }),
      { numRuns: 120 },
    );
  });
});
