import { describe, expect, test } from 'vitest';
import { perimeter } from '../../src/geometry/outline.js';
import { distance } from '../../src/geometry/point.js';
import { distanceToSegment, pointAt } from '../../src/geometry/segment.js';
import type { Affine } from '../../src/geometry/svg/curve.js';
import { type DrawnPath, readSvgPath } from '../../src/geometry/svg/path.js';
import type { Point } from '../../src/geometry/types.js';

function only(d: string, placed?: Affine): DrawnPath {
  const read = readSvgPath(d, placed);
  if (!read.ok) throw new Error(`${d}: ${read.trouble} at ${read.position}`);
  const [one, ...others] = read.subpaths;
  if (one === undefined || others.length > 0) throw new Error(`${d}: ${read.subpaths.length} subpaths`);
  return one;
}

/** Corners of a path of lines as text: `0,0 10,0`. */
function corners(d: string): string {
  const { segments } = only(d).path;
  const points = [segments[0]?.from, ...segments.map(({ to }) => to)];
  return points.map((p) => (p === undefined ? '' : `${round(p.x)},${round(p.y)}`)).join(' ');
}

const round = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

/** The two paths are one: ends and middles of each lie on the other. */
function expectSame(one: string, other: string): void {
  const [a, b] = [only(one).path.segments, only(other).path.segments];
  for (const [from, on] of [
    [a, b],
    [b, a],
  ] as const) {
    for (const segment of from) {
      for (const t of [0, 0.5, 1]) {
        const off = Math.min(...on.map((each) => distanceToSegment(pointAt(segment, t), each)));
        expect(off).toBeLessThan(0.01);
      }
    }
  }
}

describe('the grammar', () => {
  test.each([
    ['lines', 'M 0 0 L 10 0 L 10 5', '0,0 10,0 10,5'],
    ['relative lines', 'm 1 1 l 10 0 l 0 5', '1,1 11,1 11,6'],
    ['pairs after M are lines', 'M 0 0 10 0 10 5', '0,0 10,0 10,5'],
    ['pairs after m are relative lines', 'm 1,1 10,0 0,5', '1,1 11,1 11,6'],
    ['H and V', 'M 1 2 H 8 V 9', '1,2 8,2 8,9'],
    ['h and v, repeated', 'M 1 2 h 3 4 v -1 -1', '1,2 4,2 8,2 8,1 8,0'],
    ['Z goes back', 'M 1 1 H 5 V 4 Z', '1,1 5,1 5,4 1,1'],
    ['no space before a sign', 'M100-200L10-20', '100,-200 10,-20'],
    ['no space before a second point', 'M0.5.25L.6.5.7.8', '0.5,0.25 0.6,0.5 0.7,0.8'],
    ['exponents', 'M 1e1 -2E-1 L +3e0 .4e+1', '10,-0.2 3,4'],
    ['a point at the end of a number', 'M1. 2. L3. 4.', '1,2 3,4'],
    ['commas, tabs, line ends and form feeds', 'M0,0\tL1,\n1\r\n2\f2', '0,0 1,1 2,2'],
    ['points on top of one another', 'M 0 0 L 0 0 L 5 0 L 5 0', '0,0 5,0'],
    ['an arc without radius is a line', 'M 0 0 A 0 5 0 0 1 9 3', '0,0 9,3'],
    ['an arc that goes nowhere is nothing', 'M 0 0 L 4 0 A 5 5 0 0 1 4 0', '0,0 4,0'],
  ])('%s', (_, d, wanted) => {
    expect(corners(d)).toBe(wanted);
  });

  test.each([
    ['c', 'M 5 5 C 10 20 20 20 30 5', 'M 5 5 c 5 15 15 15 25 0'],
    [
      's mirrors the control before it',
      'M0 0C5 9 15 9 20 0S35 -9 40 0',
      'M0 0C5 9 15 9 20 0C25 -9 35 -9 40 0',
    ],
    ['s relative', 'M1 1c5 9 15 9 20 0s15-9 20 0', 'M1 1C6 10 16 10 21 1C26-8 36-8 41 1'],
    ['S after a line starts from its own point', 'M0 0L9 0S15 9 20 0', 'M0 0L9 0C9 0 15 9 20 0'],
    ['S after Q does not mirror it', 'M0 0Q5 9 10 0S15 9 20 0', 'M0 0Q5 9 10 0C10 0 15 9 20 0'],
    ['q', 'M 2 2 Q 10 20 20 2', 'M 2 2 q 8 18 18 0'],
    ['a quadratic is a cubic', 'M 0 0 Q 9 18 18 0', 'M 0 0 C 6 12 12 12 18 0'],
    ['t again and again', 'M0 0Q5 10 10 0T20 0 30 0', 'M0 0Q5 10 10 0Q15 -10 20 0Q25 10 30 0'],
    ['t relative', 'M0 0q5 10 10 0t10 0', 'M0 0Q5 10 10 0Q15 -10 20 0'],
    ['T after a cubic starts from its own point', 'M0 0C3 9 6 9 9 0T20 5', 'M0 0C3 9 6 9 9 0L20 5'],
    ['implicit cubics', 'M0 0C1 9 8 9 9 0 10-9 17-9 18 0', 'M0 0C1 9 8 9 9 0C10-9 17-9 18 0'],
    ['a', 'M 10 10 A 6 6 0 0 1 20 10', 'M 10 10 a 6 6 0 0 1 10 0'],
    ['flags without separators', 'M0 0 a6 6 0 0 1 10 0', 'M0 0a6,6 0 0110,0'],
    ['flags and then a fraction', 'M0 0 a6 6 0 1 0 .5 .5', 'M0 0a6 6 0 10.5.5'],
    ['repeated arcs', 'M0 0a5 5 0 0 1 9 0a5 5 0 0 0 9 0', 'M0 0a5 5 0 0 1 9 0 5 5 0 0 0 9 0'],
    ['signs of radii are dropped', 'M0 0 A 6 4 20 0 1 8 3', 'M0 0A-6-4 20 0 1 8 3'],
    ['radii too small reach just far enough', 'M0 0A1 1 0 0 1 10 0', 'M0 0A5 5 0 0 1 10 0'],
    ['an ellipse too small keeps its shape', 'M0 0A2 1 0 0 0 12 0', 'M0 0A6 3 0 0 0 12 0'],
  ])('%s', (_, one, other) => {
    expectSame(one, other);
  });

  test('several subpaths come one by one', () => {
    const read = readSvgPath('M0 0L1 0M5 5l1 0m2 2l1 0zm1 1l3 3');
    expect(read.ok && read.subpaths.map(({ closed }) => closed)).toEqual([false, false, true, false]);
  });

  test('after Z a line goes on from where the subpath began', () => {
    const read = readSvgPath('M 3 4 h 5 v 5 z l -1 -1');
    expect(read.ok && read.subpaths[1]?.path.segments[0]?.from).toEqual({ x: 3, y: 4 });
  });
});

describe('a path that is none', () => {
  test.each([
    ['M 0 0 L 10 x', 12, 'x', 'a number'],
    ['M 0 0 K 10 10', 7, 'K', 'a command'],
    ['L 1 1', 1, 'L', 'M'],
    ['M 0 0 L 1', 10, '', 'a number'],
    ['M 0 0 A 5 5 0 2 1 9 9', 15, '2', 'a flag, 0 or 1'],
    ['M 0 0 L 1 2,', 13, '', 'a number'],
    ['none', 1, 'none', 'M'],
  ])('%s', (d, position, read, expected) => {
    const reading = readSvgPath(d);
    expect(reading).toMatchObject({ ok: false, trouble: 'syntax', position, read });
    expect(!reading.ok && reading.expected).toContain(expected);
  });

  test('a number without end is refused where it stands', () => {
    expect(readSvgPath('M 0 0 L 5 1e400')).toMatchObject({
      trouble: 'not-finite',
      position: 11,
      read: '1e400',
    });
    expect(readSvgPath('M0 0a5 5 0 011e999 3')).toMatchObject({ ok: false, trouble: 'not-finite' });
  });

  test('a number too far out, and moves that add up to one, are refused', () => {
    expect(readSvgPath('M 0 0 L 5 -2e7')).toMatchObject({ trouble: 'far', position: 11, read: '-2e7' });
    expect(readSvgPath('M 0 0 l 9e5 0 h 9e5')).toMatchObject({ trouble: 'far', position: 15, read: 'h' });
  });

  test('nothing is said to be nothing', () => {
    for (const d of ['', '  ', '\n']) expect(readSvgPath(d)).toMatchObject({ ok: false, trouble: 'empty' });
  });

  test('a path that only moves has no subpath', () => {
    expect(readSvgPath('M 1 1')).toEqual({ ok: true, subpaths: [] });
  });
});

describe('what is drawn', () => {
  test('a circular arc is one true arc, both ways round', () => {
    const [arc] = only('M 0 0 A 10 10 0 0 1 10 10').path.segments;
    expect(arc).toMatchObject({ kind: 'arc', radius: 10, ccw: true });
    const [other] = only('M 0 0 A 10 10 0 0 0 10 10').path.segments;
    expect(other).toMatchObject({ kind: 'arc', radius: 10, ccw: false });
  });

  test('y up turns arcs over', () => {
    const [arc] = only('M 0 0 A 10 10 0 0 1 10 10', [1, 0, 0, -1, 0, 0]).path.segments;
    expect(arc).toMatchObject({ kind: 'arc', ccw: false, to: { x: 10, y: -10 } });
  });

  test('a circle stretched two ways is an ellipse: each of its points was one of the circle', () => {
    const placed: Affine = [2, 0.3, -0.4, 0.5, 7, -3];
    const { segments } = only('M 10 0 A 10 10 0 1 1 -10 0', placed).path;
    const back = inverse(placed);
    expect(segments.length).toBeGreaterThan(4);
    for (const one of segments) {
      for (const t of [0, 0.3, 0.7, 1]) {
        // Half a unit is the shorter half diameter, so 0.005 mm on the ellipse is under 0.011 on the circle.
        expect(Math.abs(Math.hypot(...back(pointAt(one, t))) - 10)).toBeLessThan(0.011);
      }
    }
  });

  test('turned, moved and evenly scaled, a circle stays one', () => {
    const [cos, sin] = [2 * Math.cos(0.7), 2 * Math.sin(0.7)];
    const { segments } = only('M 10 0 A 10 10 0 0 1 0 10', [cos, sin, -sin, cos, 4, 5]).path;
    expect(segments).toHaveLength(1);
    expect(segments[0]).toMatchObject({ kind: 'arc' });
    expect(perimeter(only('M 10 0 A 10 10 0 0 1 0 10', [cos, sin, -sin, cos, 4, 5]).path)).toBeCloseTo(
      10 * Math.PI,
      9,
    );
  });

  test('corners are named with their side, smooth nodes are not', () => {
    const turns = (d: string) => only(d).bends.map(({ curvature }) => curvature);
    expect(turns('M 0 0 L 5 0 L 5 5 L 9 5')).toEqual([Infinity, -Infinity]);
    expect(turns('M 0 0 L 5 0 L 10 0.02')).toEqual([]);
    expect(turns('M 0 0 H 10 A 5 5 0 0 1 15 5 V 20')).toEqual([0.2]);
  });

  test('segments follow on one another exactly', () => {
    const { segments } = only('M0 0C5 9 15 9 20 0S35-9 40 0A6 3 20 0 1 50 0L60 0').path;
    for (const [i, one] of segments.slice(1).entries()) expect(one.from).toBe(segments[i]?.to);
    expect(distance(segments.at(-1)?.to ?? { x: 0, y: 0 }, { x: 60, y: 0 })).toBe(0);
  });
});

function inverse([a, b, c, d, e, f]: Affine): (p: Point) => readonly [number, number] {
  const det = a * d - b * c;
  return ({ x, y }) => [(d * (x - e) - c * (y - f)) / det, (a * (y - f) - b * (x - e)) / det];
}
