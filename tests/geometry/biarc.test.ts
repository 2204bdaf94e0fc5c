import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distance, turn } from '../../src/geometry/point.js';
import { distanceToSegment, lengthOf, pointAt, tangentAt } from '../../src/geometry/segment.js';
import { fitArcs } from '../../src/geometry/svg/biarc.js';
import type { Cubic, Elliptic } from '../../src/geometry/svg/curve.js';
import type { Point, Segment } from '../../src/geometry/types.js';

/** What the job file's users are promised, mm. */
const PROMISED = 0.005;

/** An arc of more than 10 km radius is drawn as a line; over 80 mm it turns by less than this, radians. */
const SMOOTH = 1e-5;

/** A Bézier by its Bernstein polynomials: another road than the one that the fit takes. */
const bernstein = ({ from: a, control1: b, control2: c, to: d }: Cubic, t: number): Point => {
  const s = 1 - t;
  const sum = (p: number, q: number, r: number, u: number): number =>
    s * s * s * p + 3 * s * s * t * q + 3 * s * t * t * r + t * t * t * u;
  return { x: sum(a.x, b.x, c.x, d.x), y: sum(a.y, b.y, c.y, d.y) };
};

const onEllipse = ({ center, u, v, start, sweep }: Elliptic, t: number): Point => ({
  x: center.x + u.x * Math.cos(start + sweep * t) + v.x * Math.sin(start + sweep * t),
  y: center.y + u.y * Math.cos(start + sweep * t) + v.y * Math.sin(start + sweep * t),
});

/** Greatest distance of points of the curve from the arcs, and of points of the arcs from the curve. */
function apart(curve: (t: number) => Point, segments: readonly Segment[]): number {
  const count = 240;
  const points = Array.from({ length: count + 1 }, (_, i) => curve(i / count));
  const there = points.map((p) => Math.min(...segments.map((one) => distanceToSegment(p, one))));
  const back = segments.flatMap((one) =>
    [0.25, 0.5, 0.75].map((t) => {
      const p = pointAt(one, t);
      const far = points.map((q) => distance(p, q));
      const near = far.flatMap((d, i) => (d <= (far[i - 1] ?? d) && d <= (far[i + 1] ?? d) ? [i] : []));
      const stretch = (i: number) => [Math.max(0, i - 1) / count, Math.min(count, i + 1) / count] as const;
      return Math.min(...near.map((i) => nearby(curve, p, ...stretch(i))));
    }),
  );
  return Math.max(...there, ...back);
}

/** Distance from p to the stretch of the curve between two parameters, by thirds. */
function nearby(curve: (t: number) => Point, p: Point, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let i = 0; i < 40; i++) {
    const third = (b - a) / 3;
    if (distance(p, curve(a + third)) < distance(p, curve(b - third))) b -= third;
    else a += third;
  }
  return distance(p, curve((a + b) / 2));
}

/** Greatest turn between one segment and the next, radians; gaps are an error. */
function worstKink(segments: readonly Segment[]): number {
  return segments.slice(1).reduce((worst, next, i) => {
    const before = segments[i];
    if (before === undefined) return worst;
    expect(distance(before.to, next.from)).toBeLessThan(1e-9);
    return Math.max(worst, Math.abs(turn(tangentAt(before, 1), tangentAt(next, 0))));
  }, 0);
}

/** Hundredths, as drawing programs write them. */
const coordinate = fc.integer({ min: -6000, max: 6000 }).map((n) => n / 100);
const anyPoint = fc.record({ x: coordinate, y: coordinate });
const cubics = fc
  .record({ from: anyPoint, control1: anyPoint, control2: anyPoint, to: anyPoint })
  .map((c): Cubic => ({ kind: 'cubic', ...c }));

/** Controls ahead of the start and behind the end, as a person draws: no cusps and no standstill. */
const gentle = fc
  .record({
    width: fc.double({ min: 10, max: 80, noNaN: true }),
    rise: fc.double({ min: -40, max: 40, noNaN: true }),
    a: fc.double({ min: -40, max: 40, noNaN: true }),
    b: fc.double({ min: -40, max: 40, noNaN: true }),
  })
  .map(
    ({ width, rise, a, b }): Cubic => ({
      kind: 'cubic',
      from: { x: 0, y: 0 },
      control1: { x: width / 3, y: a },
      control2: { x: (2 * width) / 3, y: rise + b },
      to: { x: width, y: rise },
    }),
  );

describe('a Bézier curve as arcs', () => {
  test('stays within what was promised, whatever the curve', () => {
    fc.assert(
      fc.property(cubics, (curve) => {
        fc.pre(distance(curve.from, curve.to) + distance(curve.control1, curve.control2) > 1);
        const { segments } = fitArcs(curve);
        expect(apart((t) => bernstein(curve, t), segments)).toBeLessThan(PROMISED);
      }),
      { numRuns: 60 },
    );
  });

  test('is one smooth line where the curve is, from end to end', () => {
    fc.assert(
      fc.property(gentle, (curve) => {
        const { segments } = fitArcs(curve);
        expect(worstKink(segments)).toBeLessThan(SMOOTH);
        expect(segments[0]?.from).toEqual(curve.from);
        expect(segments.at(-1)?.to).toEqual(curve.to);
      }),
      { numRuns: 200 },
    );
  });

  test('never bends tighter than the curve itself', () => {
    fc.assert(
      fc.property(gentle, (curve) => {
        const { segments, bends } = fitArcs(curve);
        const most = Math.max(0, ...bends.map(({ curvature }) => Math.abs(curvature)));
        const arcs = segments.map((one) => (one.kind === 'arc' ? 1 / one.radius : 0));
        expect(Math.max(...arcs)).toBeLessThanOrEqual(most * (1 + 1e-5) + 1e-9);
      }),
      { numRuns: 200 },
    );
  });

  test('takes few arcs: halving the tolerance eight times over adds at most a good third each time', () => {
    const wave: Cubic = {
      kind: 'cubic',
      from: { x: 0, y: 0 },
      control1: { x: 20, y: 30 },
      control2: { x: 40, y: -30 },
      to: { x: 60, y: 0 },
    };
    const counts = [0.04, 0.005, 0.000625].map((tolerance) => fitArcs(wave, tolerance).segments.length);
    // The error of a biarc falls with the cube of its length, so an eighth of it takes twice the arcs.
    const [coarse = 0, middle = 0, fine = 0] = counts;
    expect(middle).toBeLessThanOrEqual(3 * coarse);
    expect(fine).toBeLessThanOrEqual(3 * middle);
    expect(middle).toBeLessThan(40);
  });

  test('with all points in line it is a line', () => {
    const flat: Cubic = {
      kind: 'cubic',
      from: { x: 1, y: 2 },
      control1: { x: 2, y: 4 },
      control2: { x: 3, y: 6 },
      to: { x: 5, y: 10 },
    };
    expect(fitArcs(flat).segments.map(({ kind }) => kind)).toEqual(['line']);
  });

  test('knows the curvature at the top of a parabola: y = x² / 2p bends with radius p', () => {
    // The Bézier of y = x²/20 from −15 to 15: quadratic control at (0, −11.25), raised to a cubic.
    const parabola: Cubic = {
      kind: 'cubic',
      from: { x: -15, y: 11.25 },
      control1: { x: -5, y: -3.75 },
      control2: { x: 5, y: -3.75 },
      to: { x: 15, y: 11.25 },
    };
    const sharpest = fitArcs(parabola).bends.reduce((a, b) => (b.curvature > a.curvature ? b : a));
    expect(sharpest.curvature).toBeCloseTo(1 / 10, 9);
    expect(sharpest.at.x).toBeCloseTo(0, 9);
  });
});

describe('an ellipse as arcs', () => {
  test('stays within what was promised and smooth', () => {
    const half = fc.double({ min: 0.5, max: 80, noNaN: true });
    const angle = fc.double({ min: -6.28, max: 6.28, noNaN: true });
    fc.assert(
      fc.property(half, half, angle, angle, (a, b, start, sweep) => {
        fc.pre(Math.abs(sweep) > 0.1);
        const whole = {
          kind: 'elliptic',
          center: { x: 3, y: -2 },
          u: { x: a, y: a / 3 },
          v: { x: -b / 5, y: b },
          start,
          sweep,
        } as const;
        const from = onEllipse({ ...whole, from: whole.center, to: whole.center }, 0);
        const curve: Elliptic = { ...whole, from, to: onEllipse({ ...whole, from, to: from }, 1) };
        const { segments } = fitArcs(curve);
        expect(apart((t) => onEllipse(curve, t), segments)).toBeLessThan(PROMISED);
        expect(worstKink(segments)).toBeLessThan(SMOOTH);
      }),
      { numRuns: 40 },
    );
  });

  test('bends with b²/a at the ends of its long axis and a²/b at those of its short one', () => {
    const curve: Elliptic = {
      kind: 'elliptic',
      center: { x: 0, y: 0 },
      u: { x: 30, y: 0 },
      v: { x: 0, y: 12 },
      start: -1,
      sweep: 3.5,
      from: { x: 30 * Math.cos(-1), y: 12 * Math.sin(-1) },
      to: { x: 30 * Math.cos(2.5), y: 12 * Math.sin(2.5) },
    };
    const radii = fitArcs(curve).bends.map(({ curvature }) => 1 / curvature);
    expect(Math.min(...radii)).toBeCloseTo((12 * 12) / 30, 6);
    expect(Math.max(...radii)).toBeCloseTo((30 * 30) / 12, 6);
  });

  test('of equal half diameters it is a circle in true arcs', () => {
    const curve: Elliptic = {
      kind: 'elliptic',
      center: { x: 0, y: 0 },
      u: { x: 6, y: 8 },
      v: { x: -8, y: 6 },
      start: 0,
      sweep: -5,
      from: { x: 6, y: 8 },
      to: { x: 6 * Math.cos(5) + 8 * Math.sin(5), y: 8 * Math.cos(5) - 6 * Math.sin(5) },
    };
    const { segments, bends } = fitArcs(curve);
    expect(segments.map((one) => (one.kind === 'arc' ? one.radius : 0))).toEqual([10, 10]);
    expect(segments.reduce((sum, one) => sum + lengthOf(one), 0)).toBeCloseTo(50, 9);
    expect(bends.map(({ curvature }) => curvature)).toEqual([-0.1]);
  });
});
