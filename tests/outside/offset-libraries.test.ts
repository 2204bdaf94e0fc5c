import { createRequire } from 'node:module';
import { areaPathsD, EndType, inflatePathsD, JoinType } from 'clipper2-ts';
import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, it } from 'vitest';
import { bushingOpening } from '../../src/geometry/compensate.js';
import { flattenRegion } from '../../src/geometry/flatten.js';
import { offsetRegion } from '../../src/geometry/offset.js';
import {
  area,
  areaOfRegion,
  type BulgeVertex,
  bulgesOf,
  outlineFromBulges,
  perimeter,
  perimeterOfRegion,
  rectangle,
} from '../../src/geometry/outline.js';
import { lengthOf } from '../../src/geometry/segment.js';
import type { Outline, Region } from '../../src/geometry/types.js';
import { anyDistance, anyOutline, comb, slots } from '../geometry/shapes.js';

/** Second opinions from general-purpose libraries, written by other people by other methods. */

const signed = fc.tuple(anyDistance, fc.boolean()).map(([d, outward]) => (outward ? d : -d));

describe('clipper2-ts (Clipper2: integer polygons, winding numbers)', () => {
  const tolerance = 1e-3;
  const digits = 5;

  /** Chords lose at most 2/3 of their tolerance over the length of the arcs; the integer grid adds its half step. */
  const bound = (source: Region, result: Region): number => {
    const arcs = [...source, ...result].flatMap((one) => one.segments).filter(({ kind }) => kind === 'arc');
    const arcLength = arcs.reduce((sum, one) => sum + lengthOf(one), 0);
    return (
      (2 / 3) * tolerance * 2 * arcLength + perimeterOfRegion([...source, ...result]) * 10 ** -digits + 1e-9
    );
  };
  const theirs = (region: Region, d: number): number =>
    areaPathsD(
      inflatePathsD(
        flattenRegion(region, tolerance).map((points) => [...points]),
        d,
        JoinType.Round,
        EndType.Polygon,
        2,
        digits,
        tolerance,
      ),
    );

  it('agrees on the area of random offsets to its faceting error', () => {
    let alive = 0;
    fc.assert(
      fc.property(anyOutline, signed, (one, d) => {
        const ours = offsetRegion([one], d);
        if (ours.length > 0) alive++;
        expect(Math.abs(areaOfRegion(ours) - theirs([one], d))).toBeLessThan(bound([one], ours));
      }),
      { numRuns: 80 },
    );
    expect(alive).toBeGreaterThan(50);
  });

  it('agrees on combs and on rows of slots that merge', () => {
    const shape = { fingers: 12, slot: 8, slope: 0.14, pitch: 20, depth: 12 };
    for (const region of [[comb(shape)], slots(shape)]) {
      for (const d of [-3.5, -1, 1, 4, 5.2, 7]) {
        const ours = offsetRegion(region, d);
        expect(Math.abs(areaOfRegion(ours) - theirs(region, d))).toBeLessThan(bound(region, ours));
      }
    }
  });
});

type Polyline = { readonly vertexes: readonly BulgeVertex[]; readonly isClosed: boolean };
type OffsetPolyline = (line: Polyline, distance: number, selfCrossing: boolean) => readonly Polyline[];

describe('@crhio/offset (a port of cavalier_contours: polylines with bulges)', () => {
  const load = createRequire(import.meta.url);
  const loaded: unknown = load('@crhio/offset');
  const offsetPolyline = (
    typeof loaded === 'function' ? loaded : (loaded as { default: unknown }).default
  ) as OffsetPolyline;

  /** Positive distances go to the left there: inward for a counter-clockwise outline. */
  const theirs = (one: Outline, d: number): Region =>
    offsetPolyline(
      { vertexes: bulgesOf(one).map((vertex) => ({ ...vertex })), isClosed: true },
      -d,
      false,
    ).map(({ vertexes }) => outlineFromBulges(vertexes));

  it('agrees on the area of random offsets of single loops to 1e-6', () => {
    let alive = 0;
    fc.assert(
      fc.property(
        anyOutline,
        fc.double({ min: 0.3, max: 6, noNaN: true }),
        fc.boolean(),
        (one, size, outward) => {
          const d = outward ? size : -size;
          const ours = offsetRegion([one], d);
          if (ours.length > 0) alive++;
          expect(Math.abs(areaOfRegion(ours) - areaOfRegion(theirs(one, d)))).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 300 },
    );
    expect(alive).toBeGreaterThan(150);
  });

  it('agrees on dovetail combs', () => {
    for (const fingers of [5, 20, 60]) {
      const one = comb({ fingers, slot: 8, slope: 0.14, pitch: 20, depth: 12 });
      for (const d of [-3.1, -1.5, 1.5, 3.3]) {
        expect(Math.abs(areaOfRegion(offsetRegion([one], d)) - areaOfRegion(theirs(one, d)))).toBeLessThan(
          1e-6 * fingers,
        );
      }
    }
  });
});

describe('makerjs (paths of lines and arcs)', () => {
  /** Outline of a model, its area by its own chain points with bulges rebuilt from arcs. */
  const theirLengths = (width: number, height: number, d: number): number => {
    const model = makerjs.model.outline(new makerjs.models.Rectangle(width, height), d, 0);
    const chains = makerjs.model.findChains(model) as makerjs.IChain[];
    return chains.reduce((sum, chain) => sum + chain.pathLength, 0);
  };

  it('agrees on the outline of a slot: length and true arcs', () => {
    const ours = bushingOpening([rectangle(0, 0, 12, 40)], 5, 8);
    // Its center field is 2 × 30; ours is that field's outline at 8.
    expect(Math.abs(perimeterOfRegion(ours) - theirLengths(2, 30, 8))).toBeLessThan(1e-4);
    const plain = offsetRegion([rectangle(0, 0, 12, 40)], 3);
    expect(Math.abs(perimeterOfRegion(plain) - theirLengths(12, 40, 3))).toBeLessThan(1e-9);
    expect(perimeter(plain[0] ?? rectangle(0, 0, 1, 1))).toBeCloseTo(104 + 6 * Math.PI, 9);
    expect(area(plain[0] ?? rectangle(0, 0, 1, 1))).toBeCloseTo(480 + 312 + 9 * Math.PI, 9);
  });
});
