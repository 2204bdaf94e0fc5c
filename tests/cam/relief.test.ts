import { describe, expect, test } from 'vitest';
import { relieved, widestMill } from '../../src/cam/relief.js';
import { offsetRegion } from '../../src/geometry/offset.js';
import {
  areaOfRegion,
  circle,
  containsPoint,
  outlineFromBulges,
  rectangle,
} from '../../src/geometry/outline.js';
import { difference } from '../../src/geometry/regions/boolean.js';
import { regionOf } from '../../src/geometry/regions/nesting.js';
import { rotate } from '../../src/geometry/transform.js';
import { grown, minus, polygonsOf, sizeOf } from '../support/swept.js';
import { points, roundComb, squareComb } from './plates.js';

const mill = 6;
const angle = points([0, 0], [30, 0], [30, 30], [60, 30], [60, 60], [0, 60]);

describe('an inside corner', () => {
  test('that is as round as the mill or rounder needs no relief', () => {
    const plate = [roundComb];
    expect(relieved(plate, 12, 'none').missed).toEqual([]);
    expect(relieved(plate, 12, 'corner')).toMatchObject({ plate, corners: [] });
    expect(relieved(plate, 11, 'none').missed).toEqual([]);
  });

  test('that is tighter is found in its place, with its radius', () => {
    expect(relieved([angle], mill, 'none').missed).toEqual([{ at: { x: 30, y: 30 }, radius: 0 }]);
    const [left, right] = relieved([roundComb], 13, 'none').missed;
    expect(left?.radius).toBeCloseTo(6, 9);
    // The apex of a quarter circle of radius 6 about (16, 6).
    expect(left?.at.x).toBeCloseTo(16 - 6 * Math.SQRT1_2, 9);
    expect(left?.at.y).toBeCloseTo(6 + 6 * Math.SQRT1_2, 9);
    expect(right?.at.x).toBeCloseTo(22 + 6 * Math.SQRT1_2, 9);
  });

  test('is the least of all: the widest mill that needs no relief is twice its radius', () => {
    expect(widestMill([roundComb], 'none', 20)).toBeCloseTo(12, 2);
    const tight = outlineFromBulges([
      { x: 0, y: 0 },
      { x: 30, y: 0 },
      { x: 30, y: 28, bulge: -Math.tan(Math.PI / 8) },
      { x: 32, y: 30 },
      { x: 60, y: 30 },
      { x: 60, y: 60 },
      { x: 0, y: 60 },
    ]);
    expect(widestMill([tight], 'none', 6)).toBeCloseTo(4, 2);
  });

  test('that is square loses by `corner` a bite through its apex, half on either side', () => {
    const { plate, corners, missed } = relieved([angle], mill, 'corner');
    expect(missed).toEqual([]);
    expect(corners).toHaveLength(1);
    const bite = difference([angle], plate);
    // The mill's round about a centre r along the bisector passes through the apex and overhangs each wall by
    // r (1 − √½); nothing is bitten further off.
    const r = mill / 2;
    const reach = r * (1 - Math.SQRT1_2);
    // The waste lies below and to the right of (30, 30).
    const center = { x: 30 + r * Math.SQRT1_2, y: 30 - r * Math.SQRT1_2 };
    expect(containsPoint(bite, { x: center.x, y: 30 + reach - 1e-4 })).toBe(true);
    expect(containsPoint(bite, { x: center.x, y: 30 + reach + 1e-4 })).toBe(false);
    expect(containsPoint(bite, { x: 30 - reach + 1e-4, y: center.y })).toBe(true);
    expect(containsPoint(bite, { x: 30 - reach - 1e-4, y: center.y })).toBe(false);
  });

  test('that is square loses by `edge` a bite of one wall only: the shorter', () => {
    const { plate, missed } = relieved([angle], mill, 'edge');
    expect(missed).toEqual([]);
    const bite = difference([angle], plate);
    // Both walls are 30 long: of equals, the one across x stays whole and the bite is in the other.
    expect(containsPoint(bite, { x: 30 + mill / 2, y: 30 + mill / 2 - 1e-3 })).toBe(true);
    expect(containsPoint(bite, { x: 30 - 1e-3, y: 29 })).toBe(false);
    const deep = points([0, 0], [30, 0], [30, 12], [60, 12], [60, 60], [0, 60]);
    const other = difference([deep], relieved([deep], mill, 'edge').plate);
    expect(containsPoint(other, { x: 30 - mill / 2 + 1e-3, y: 12 - mill / 2 })).toBe(true);
    expect(containsPoint(other, { x: 31, y: 12 + 1e-3 })).toBe(false);
  });

  test.each(['corner', 'edge'] as const)(
    'relieved by %s, however it is turned: the mill leaves no waste and takes no more',
    (relief) => {
      for (const turned of [0, 0.3, 1.1, 2.5]) {
        const plate = [rotate(squareComb, turned)];
        const made = relieved(plate, mill, relief);
        expect(made.missed).toEqual([]);
        expect(made.corners).toHaveLength(4);
        // By the other polygon library: dilating and eroding by the mill leaves nothing of the plate's own waste.
        // A hair narrower, for the bites are as wide as the mill and its round is chopped into chords there.
        const step = mill / 2 - 0.005;
        const closed = grown(grown(polygonsOf(made.plate), step), -step);
        expect(sizeOf(minus(closed, grown(polygonsOf(plate), 0.01)))).toBeLessThan(0.01);
        // Bites are small: together less than a circle of the mill for each corner.
        const lost = areaOfRegion(plate) - areaOfRegion(made.plate);
        expect(lost).toBeGreaterThan(0);
        expect(lost).toBeLessThan(4 * Math.PI * (mill / 2) ** 2);
      }
    },
  );
});

describe('a gap that is narrower than the mill', () => {
  const slot = points([0, 0], [30, 0], [30, 30], [35, 30], [35, 0], [60, 0], [60, 60], [0, 60]);

  test('is no corner: no relief helps, and the widest mill is the gap', () => {
    for (const relief of ['none', 'corner', 'edge'] as const) {
      const { missed } = relieved([slot], mill, relief);
      expect(missed.length).toBeGreaterThan(0);
      expect(missed.every(({ radius }) => radius === undefined)).toBe(true);
    }
    expect(widestMill([slot], 'corner', mill)).toBeCloseTo(5, 1);
    expect(widestMill([slot], 'corner', mill)).toBeLessThanOrEqual(5);
  });

  test('may be a hole, square or round', () => {
    const square = regionOf([rectangle(0, 0, 40, 40), rectangle(10, 10, 15, 15)]);
    expect(widestMill(square, 'corner', mill)).toBeLessThanOrEqual(5);
    const round = regionOf([rectangle(0, 0, 40, 40), circle({ x: 20, y: 20 }, 2.5)]);
    expect(relieved(round, 6, 'corner').missed).toHaveLength(1);
    expect(relieved(round, 5, 'none').missed).toEqual([]);
    expect(widestMill(round, 'none', 6)).toBeCloseTo(5, 1);
  });

  test('as wide as the mill is milled in one pass', () => {
    expect(relieved([slot], 5, 'corner').missed).toEqual([]);
    const path = offsetRegion(relieved([slot], 5, 'corner').plate, 2.5 - 1e-6);
    expect(path).toHaveLength(1);
  });
});
