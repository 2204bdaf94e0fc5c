import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clipToWindow } from '../../src/drawing/tiling/clip.js';
import { circle, perimeter, roundedRectangle } from '../../src/geometry/outline.js';
import { line, pointAt } from '../../src/geometry/segment.js';
import type { Extents } from '../../src/geometry/types.js';

const window: Extents = { minX: 0, minY: 0, maxX: 100, maxY: 60 };

const number = fc.double({ min: -150, max: 250, noNaN: true });

const shape = fc
  .record({ x: number, y: number, size: fc.double({ min: 1, max: 200, noNaN: true }), round: fc.boolean() })
  .map(({ x, y, size, round }) =>
    round ? circle({ x, y }, size) : roundedRectangle(x, y, x + size, y + size / 2, size / 8),
  );

describe('clipping to a window', () => {
  test('keeps what is inside and nothing else', () => {
    fc.assert(
      fc.property(shape, (one) => {
        const pieces = clipToWindow(one, window);
        const inside = one.segments
          .flatMap((segment) => Array.from({ length: 2000 }, (_, i) => pointAt(segment, (i + 0.5) / 2000)))
          .filter((p) => p.x > 0 && p.x < 100 && p.y > 0 && p.y < 60);
        for (const p of pieces.flatMap(({ line: piece }) => piece.segments.map((s) => pointAt(s, 0.5)))) {
          expect(p.x).toBeGreaterThanOrEqual(-1e-9);
          expect(p.x).toBeLessThanOrEqual(100 + 1e-9);
          expect(p.y).toBeGreaterThanOrEqual(-1e-9);
          expect(p.y).toBeLessThanOrEqual(60 + 1e-9);
        }
        // Length inside, counted by points: each of the 2000 a segment stands for its share.
        const counted = one.segments.reduce((sum, segment) => {
          const within = Array.from({ length: 2000 }, (_, i) => pointAt(segment, (i + 0.5) / 2000)).filter(
            (p) => p.x > 0 && p.x < 100 && p.y > 0 && p.y < 60,
          ).length;
          return sum + (within / 2000) * perimeter({ closed: false, segments: [segment] });
        }, 0);
        const kept = pieces.reduce((sum, { line: piece }) => sum + perimeter(piece), 0);
        expect(Math.abs(kept - counted)).toBeLessThan((perimeter(one) / 2000) * 4 + 1e-6);
        if (inside.length > 4) expect(pieces.length).toBeGreaterThan(0);
      }),
      { numRuns: 150, seed: 13 },
    );
  });

  test('leaves a line that is wholly inside as it is', () => {
    const one = circle({ x: 50, y: 30 }, 20);
    expect(clipToWindow(one, window)).toEqual([{ line: one, start: 0 }]);
  });

  test('says how far along the line a piece begins', () => {
    const one = { closed: false, segments: [line({ x: -40, y: 10 }, { x: 140, y: 10 })] } as const;
    expect(clipToWindow(one, window).map((piece) => piece.start)).toEqual([40]);
  });

  test('keeps the piece across an outline start in one', () => {
    const one = circle({ x: 90, y: 30 }, 20);
    const turned = clipToWindow(one, { ...window, minX: 95, maxX: 200 });
    expect(turned).toHaveLength(1);
    expect(turned[0]?.line.segments.length).toBe(2);
  });

  test('a window that a line only passes by gives nothing', () => {
    const one = { closed: false, segments: [line({ x: -10, y: 50 }, { x: 5, y: 80 })] } as const;
    expect(clipToWindow(one, window)).toEqual([]);
  });
});
