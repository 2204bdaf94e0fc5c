import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contoursOf } from '../../src/drawing/contours.js';
import { closed, open } from '../../src/drawing/drawing.js';
import type { Drawing, Item } from '../../src/drawing/model.js';
import { area, circle, outline, polygon, rectangle, reversed } from '../../src/geometry/outline.js';
import { line, sweepOf } from '../../src/geometry/segment.js';
import type { Arc, Outline } from '../../src/geometry/types.js';
import { plateWith } from '../cam/plates.js';
import { comb, plate } from './fixture.js';
import { overlaps } from './overlap.js';

const drawing = (...items: readonly Item[]): Drawing => ({ title: '', notes: [], items });

const started = (one: Outline, at: number): Outline =>
  outline([...one.segments.slice(at), ...one.segments.slice(0, at)]);

describe('what writers draw', () => {
  test('a contour given twice is cut once, wherever it starts and whichever way it runs', () => {
    const twice = drawing(closed('CUT', comb), closed('CUT', started(reversed(comb), 5)));
    expect(contoursOf(twice)).toHaveLength(1);
  });

  test('the same line on two layers is two lines', () => {
    expect(contoursOf(drawing(closed('CUT', comb), closed('STOCK', comb)))).toHaveLength(2);
  });

  test('nought below zero is nought', () => {
    const one = open('REF', { closed: false, segments: [line({ x: 0, y: 0 }, { x: 1, y: 0 })] });
    const other = open('REF', { closed: false, segments: [line({ x: -0, y: -1e-9 }, { x: 1, y: -0 })] });
    expect(contoursOf(drawing(one, other))).toHaveLength(1);
  });

  test('pieces of no length are left out, and the rest still closes', () => {
    const [a, b, c] = [
      { x: 0, y: 0 },
      { x: 5, y: 0 },
      { x: 5, y: 5 },
    ];
    const [one] = contoursOf(drawing(closed('CUT', polygon([a, b, { ...b, y: 1e-8 }, c]))));
    expect(one?.line.segments).toHaveLength(3);
    expect(one?.line.closed && area(one.line)).toBeCloseTo(12.5, 6);
  });

  test('an arc of nearly a whole turn becomes two, and turns as far', () => {
    const wide: Arc = {
      kind: 'arc',
      from: { x: 5, y: 0 },
      to: { x: 5 * Math.cos(-0.01), y: 5 * Math.sin(-0.01) },
      center: { x: 0, y: 0 },
      radius: 5,
      ccw: true,
    };
    const [one] = contoursOf(drawing(open('CUT', { closed: false, segments: [wide] })));
    const arcs = one?.line.segments.filter((piece) => piece.kind === 'arc') ?? [];
    expect(arcs).toHaveLength(2);
    expect(arcs.reduce((sum, piece) => sum + sweepOf(piece), 0)).toBeCloseTo(2 * Math.PI - 0.01, 9);
  });

  test('stands in the order of cutting: lettering, scores, then from the inside outward, whatever the order before', () => {
    const { items } = plateWith(
      rectangle(0, 0, 100, 100),
      rectangle(10, 10, 90, 90),
      rectangle(20, 20, 80, 80),
      circle({ x: 50, y: 50 }, 10),
    );
    fc.assert(
      fc.property(fc.shuffledSubarray([...items.keys()], { minLength: items.length }), (order) => {
        const sorted = contoursOf(drawing(...order.flatMap((i) => items[i] ?? [])));
        const ranks = sorted.map(({ layer }) => ['ENGRAVE', 'SCORE', 'CUT', 'REF', 'STOCK'].indexOf(layer));
        expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
        expect(new Set(ranks).size).toBe(4);
        const sizes = sorted.flatMap(({ layer, line: one }) =>
          layer === 'CUT' && one.closed ? [Math.abs(area(one))] : [],
        );
        expect(sizes).toHaveLength(4);
        expect(sizes).toEqual([...sizes].sort((a, b) => a - b));
      }),
    );
  });

  test('the fixture of these tests runs over none of its lines twice', () => {
    for (const layer of ['CUT', 'SCORE', 'ENGRAVE', 'REF', 'STOCK']) {
      const pieces = contoursOf(plate)
        .filter((one) => one.layer === layer)
        .flatMap((one) => one.line.segments);
      expect(pieces.length).toBeGreaterThan(0);
      expect(overlaps(pieces), layer).toEqual([]);
    }
  });
});

test('the overlap check sees what it should', () => {
  const [one, two] = [line({ x: 0, y: 0 }, { x: 10, y: 0 }), line({ x: 12, y: 0 }, { x: 9, y: 0 })];
  const half: Arc = {
    kind: 'arc',
    from: { x: 1, y: 0 },
    to: { x: -1, y: 0 },
    center: { x: 0, y: 0 },
    radius: 1,
    ccw: true,
  };
  const quarter: Arc = { ...half, from: { x: 0, y: 1 }, to: { x: 1, y: 0 }, ccw: false };
  expect(overlaps([one, two])).toHaveLength(1);
  expect(overlaps([half, quarter])).toHaveLength(1);
  expect(overlaps([half, { ...half, ccw: false }])).toHaveLength(0);
  expect(overlaps([one, line({ x: 10, y: 0 }, { x: 20, y: 0 })])).toHaveLength(0);
});
