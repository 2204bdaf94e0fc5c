import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offsetRegion } from '../../src/geometry/offset.js';
import { openedRegion } from '../../src/geometry/opening.js';
import {
  area,
  areaOfRegion,
  bulgesOf,
  containsPoint,
  extents,
  outline,
  perimeter,
  perimeterOfRegion,
  reversed,
} from '../../src/geometry/outline.js';
import { tidy } from '../../src/geometry/regions/tidy.js';
import { arc, line } from '../../src/geometry/segment.js';
import { EXACT_FIT } from '../../src/geometry/tolerance.js';
import type { Outline, Point, Segment } from '../../src/geometry/types.js';
import {
  anyConvex,
  anyDistance,
  anyOutline,
  coordinateWithin,
  distanceToBoundary,
} from '../geometry/shapes.js';

interface Word {
  readonly x?: number;
  readonly y?: number;
  readonly i?: number;
  readonly j?: number;
}

/** Runs straight moves and clockwise arcs (those with i or j, offsets of the center from the start). */
function run(start: Point, words: readonly Word[]): Outline {
  let at = start;
  const segments: Segment[] = [];
  for (const { x = at.x, y = at.y, i, j } of words) {
    const to = { x, y };
    const turning = i !== undefined || j !== undefined;
    segments.push(turning ? arc(at, to, { x: at.x + (i ?? 0), y: at.y + (j ?? 0) }, false) : line(at, to));
    at = to;
  }
  return outline(segments);
}

/*
 * NISTIR 6556 (Kramer, Proctor, Messina: The NIST RS274/NGC Interpreter, version 3, 2000), Appendix B, tables
 * 12 and 13: a material edge and the path of a cutter of diameter 1 beside it, both clockwise.
 */
const edge = run({ x: 2, y: 3 }, [
  { x: 3, y: 2, j: -1 },
  { y: -1 },
  { x: 2, y: -2, i: -1 },
  { x: -2 },
  { x: -2.6, y: -0.2, j: 1 },
  { x: 1.4, y: 2.8 },
  { x: 2, y: 3, i: 0.6, j: -0.8 },
]);
const path = run({ x: 2, y: 3.5 }, [
  { x: 3.5, y: 2, j: -1.5 },
  { y: -1 },
  { x: 2, y: -2.5, i: -1.5 },
  { x: -2 },
  { x: -2.9, y: 0.2, j: 1.5 },
  { x: 1.1, y: 3.2 },
  { x: 2, y: 3.5, i: 0.9, j: -1.2 },
]);

describe('the published offset pair of NISTIR 6556, Appendix B', () => {
  const moved = offsetRegion([reversed(edge)], 0.5);

  it('is met vertex by vertex to 1e-9', () => {
    expect(moved).toHaveLength(1);
    const ours = bulgesOf(moved[0] ?? edge);
    // The two arcs round (2,2) that meet at the path's start are one arc in a tidy outline.
    const theirs = bulgesOf(tidy(reversed(path)) ?? path);
    expect(ours).toHaveLength(theirs.length);
    for (const vertex of theirs) {
      const off = ours.map((one) =>
        Math.max(Math.abs(one.x - vertex.x), Math.abs(one.y - vertex.y), Math.abs(one.bulge - vertex.bulge)),
      );
      expect(Math.min(...off)).toBeLessThan(1e-9);
    }
  });

  it('has the areas, perimeters and bulges that follow from it', () => {
    expect(Math.abs(area(edge) + (18 + Math.PI))).toBeLessThan(1e-9);
    expect(Math.abs(areaOfRegion(moved) - (24 + 2.25 * Math.PI))).toBeLessThan(1e-9);
    expect(Math.abs(perimeter(edge) - (12 + 2 * Math.PI))).toBeLessThan(1e-9);
    expect(Math.abs(perimeterOfRegion(moved) - (12 + 3 * Math.PI))).toBeLessThan(1e-9);
    const bulges = bulgesOf(path)
      .map(({ bulge }) => bulge)
      .filter((bulge) => bulge !== 0);
    [-0.41421356, -0.41421356, -0.72075922, -0.16227766].forEach((printed, i) => {
      expect(Math.abs((bulges[i] ?? 0) - printed)).toBeLessThan(5.1e-9);
    });
  });

  it('goes back to the edge', () => {
    const back = offsetRegion([reversed(path)], -0.5);
    expect(Math.abs(areaOfRegion(back) - (18 + Math.PI))).toBeLessThan(1e-9);
    expect(back[0]?.segments).toHaveLength(edge.segments.length - 1);
  });
});

/*
 * Steiner's formula (J. Steiner, 1840; any text on convex geometry, here from memory): for convex K
 * area(K ⊕ disc r) = area + perimeter r + π r², and the perimeter grows by 2 π r.
 */
describe("Steiner's formula", () => {
  it('holds for random convex outlines', () => {
    fc.assert(
      fc.property(anyConvex, fc.double({ min: 0.01, max: 50, noNaN: true }), (one, r) => {
        const moved = offsetRegion([one], r);
        expect(moved).toHaveLength(1);
        const wanted = area(one) + perimeter(one) * r + Math.PI * r * r;
        expect(Math.abs(areaOfRegion(moved) / wanted - 1)).toBeLessThan(1e-9);
        expect(Math.abs(perimeterOfRegion(moved) / (perimeter(one) + 2 * Math.PI * r) - 1)).toBeLessThan(
          1e-8,
        );
        // And backward: the erosion of the dilation of a convex set is the set.
        expect(Math.abs(areaOfRegion(offsetRegion(moved, -r)) - area(one))).toBeLessThan(1e-4);
      }),
      { numRuns: 300 },
    );
  });
});

/*
 * Opening (J. Serra, Image Analysis and Mathematical Morphology, 1982): a point survives exactly if a disc of
 * radius r inside the set contains it; the opening is idempotent, lies within the set, and keeps order.
 */
describe('opening, after Serra', () => {
  it('is idempotent and shrinks with the radius', () => {
    let rounded = 0;
    fc.assert(
      fc.property(anyOutline, anyDistance, (one, r) => {
        const opened = openedRegion([one], r);
        expect(Math.abs(areaOfRegion(openedRegion(opened, r)) - areaOfRegion(opened))).toBeLessThan(1e-3);
        // Where EXACT_FIT's traces are tidied away, an arc may move by as much along its length.
        expect(areaOfRegion(opened)).toBeLessThanOrEqual(area(one) + EXACT_FIT * perimeter(one));
        expect(areaOfRegion(openedRegion([one], r * 1.3))).toBeLessThanOrEqual(areaOfRegion(opened) + 1e-6);
        if (opened.length > 0 && areaOfRegion(opened) < area(one) - 0.01) rounded++;
      }),
      { numRuns: 150 },
    );
    expect(rounded).toBeGreaterThan(40);
  });

  it('holds every disc that fits, and no point outside all of them', () => {
    const coordinate = coordinateWithin(8);
    let fitted = 0;
    fc.assert(
      fc.property(anyOutline, anyDistance, coordinate, coordinate, (one, r, x, y) => {
        const opened = openedRegion([one], r);
        const fits = (p: Point): boolean =>
          containsPoint([one], p) && distanceToBoundary(p, [one]) > r + 1e-5;
        if (fits({ x, y })) {
          fitted++;
          for (let k = 0; k < 12; k++) {
            const angle = (k * Math.PI) / 6;
            const rim = { x: x + 0.9999 * r * Math.cos(angle), y: y + 0.9999 * r * Math.sin(angle) };
            expect(containsPoint(opened, rim)).toBe(true);
          }
        } else if (containsPoint(opened, { x, y }) && distanceToBoundary({ x, y }, opened) > 1e-3) {
          // Some disc inside the outline must hold it: look for its center on a fine grid of directions.
          const centers = Array.from({ length: 4000 }, (_, k) => {
            const angle = k * 2.399963;
            const reach = r * Math.sqrt(k / 4000);
            return { x: x + reach * Math.cos(angle), y: y + reach * Math.sin(angle) };
          });
          const room = Math.max(
            ...centers.map((c) => (containsPoint([one], c) ? distanceToBoundary(c, [one]) : 0)),
          );
          expect(room).toBeGreaterThan(r * 0.97);
        }
      }),
      { numRuns: 150 },
    );
    expect(fitted).toBeGreaterThan(10);
  });

  it('reaches the extents of a set that needs no rounding', () => {
    const smooth = offsetRegion([reversed(edge)], 0.5);
    expect(extents(...openedRegion(smooth, 0.5)).maxX).toBeCloseTo(3.5, 9);
  });
});
