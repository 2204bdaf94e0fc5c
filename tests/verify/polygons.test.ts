import { EndType, inflatePathsD, JoinType, type PathD } from 'clipper2-ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  area,
  difference,
  dilate,
  erode,
  type Polygon,
  perimeter,
  rectangle,
  runsAt,
  signedArea,
  widest,
} from '../../src/verify/cut/polygons.js';
import { boardLeft, bushingCentres, centresAtStops, cutAt, radiusAt } from '../../src/verify/cut/route.js';

const box = (minX: number, minY: number, maxX: number, maxY: number): Polygon =>
  rectangle({ minX, minY, maxX, maxY });

/** The same polygon turned about the origin. */
function turned(polygon: Polygon, angle: number): Polygon {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return polygon.map(({ x, y }) => ({ x: cos * x - sin * y, y: sin * x + cos * y }));
}

test('Steiner’s formula: a convex set grown by r has area + perimeter·r + πr²', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 60, noNaN: true }),
      fc.double({ min: 1, max: 60, noNaN: true }),
      fc.double({ min: 0.5, max: 15, noNaN: true }),
      (width, height, r) => {
        const set = [box(0, 0, width, height)];
        const wanted = width * height + perimeter(set) * r + Math.PI * r * r;
        const missing = wanted - area(dilate(set, r));
        expect(missing).toBeGreaterThan(-1e-3);
        // Chords leave out at most 2/3 of the tolerance times the arcs' length.
        expect(missing).toBeLessThan((2 / 3) * 2e-4 * 2 * Math.PI * r + 1e-3);
      },
    ),
    { numRuns: 50 },
  );
});

test('the width of a strip is its thickness, however it lies', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 2, noNaN: true }),
      fc.double({ min: 0, max: Math.PI, noNaN: true }),
      (thickness, angle) => {
        const { width, at } = widest([turned(box(0, 0, 19, thickness), angle)]);
        expect(Math.abs(width - thickness)).toBeLessThan(1e-4);
        expect(at).toBeDefined();
      },
    ),
    { numRuns: 50 },
  );
});

test('of several pieces the widest counts; area without thickness counts for nothing', () => {
  expect(widest([box(0, 0, 0.05, 19), box(5, 0, 5.2, 19)]).width).toBeCloseTo(0.2, 4);
  expect(widest([box(0, 0, 50, 5e-6)]).width).toBe(0);
  expect(widest([])).toEqual({ width: 0 });
  // A right triangle's largest disc: (a + b − c)/2 in radius.
  const triangle = [
    { x: 0, y: 0 },
    { x: 3, y: 0 },
    { x: 0, y: 4 },
  ];
  expect(widest([triangle]).width).toBeCloseTo(2, 4);
});

test('runs along a line leave holes and gaps out', () => {
  const ring = difference([box(0, 0, 10, 10)], [box(4, 4, 6, 6)]);
  expect(runsAt(ring, 5)).toEqual([
    [0, 4],
    [6, 10],
  ]);
  expect(runsAt(ring, 11)).toEqual([]);
});

test('a dovetail bit loses tan θ of radius per unit of height', () => {
  const cutter = { diameter: 12.7, angle: (14 * Math.PI) / 180 };
  expect(radiusAt(cutter, 0)).toBe(6.35);
  expect(radiusAt(cutter, 10)).toBeCloseTo(6.35 - 10 * Math.tan(cutter.angle), 12);
  expect(radiusAt(cutter, 100)).toBe(0);
});

const stock = [box(0, -20, 60, 0)];
/** A plate with one opening from 20 to `to`, from the operator's edge at −30 to y = 15. */
const plateWith = (to: number) => difference([box(-40, -30, 100, 60)], [box(20, -40, to, 15)]);

test('a bushing in a straight opening cuts opening − (B − d)', () => {
  const centres = bushingCentres(plateWith(36), stock, 12, 4);
  const left = boardLeft(centres, 4);
  const [[, from] = [], [to] = []] = runsAt(left, -10);
  expect(from).toBeCloseTo(22, 5);
  expect(to).toBeCloseTo(34, 5);
});

test('an opening as wide as its bushing cuts a slot as wide as its bit', () => {
  const left = boardLeft(bushingCentres(plateWith(32), stock, 12, 4), 4);
  const [[, from] = [], [to] = []] = runsAt(left, -10);
  expect(from).toBeCloseTo(22, 5);
  expect(to).toBeCloseTo(30, 5);
});

test('a bushing that does not go in cuts nothing', () => {
  const left = boardLeft(bushingCentres(plateWith(31.9), stock, 12, 4), 4);
  expect(area(left)).toBeCloseTo(1200, 3);
});

test('a hole with no way in from the operator’s side is left alone, with what stands in it', () => {
  const hole = difference([box(10, -18, 50, -2)], [box(28, -12, 32, -8)]);
  const plate = difference([box(-40, -30, 100, 60)], hole);
  expect(area(boardLeft(bushingCentres(plate, stock, 3, 4), 4))).toBeCloseTo(1200, 3);
});

test('what is cut is the opening of the waste by the bit: cutting again changes nothing', () => {
  const centres = bushingCentres(plateWith(36), stock, 12, 4);
  const cut = cutAt(centres, 4);
  const again = dilate(erode(cut, 3.9), 3.9);
  expect(area(cut) - area(again)).toBeLessThan(0.01);
});

test('a board moved along to a second stop gets the same slot again, one move nearer to its edge', () => {
  const centres = centresAtStops(plateWith(36), stock, 12, 4, { at: [0, -18] });
  // At the stop −18 the board's 40 lies under the template's 22.
  expect(runsAt(boardLeft(centres, 4), -10).map((run) => run.map((x) => Math.round(x * 1e4) / 1e4))).toEqual([
    [0, 22],
    [34, 40],
    [52, 60],
  ]);
});

test('an opening left out is not used at the second stop', () => {
  const centres = centresAtStops(plateWith(36), stock, 12, 4, { at: [0, -18], leaveOut: [20, 36] });
  expect(runsAt(boardLeft(centres, 4), -10)).toHaveLength(2);
});

/** A block with a slot from below that ends in a half circle of radius `end`, chopped into chords. */
function slotted(end: number, chords: number): Polygon {
  const round = Array.from({ length: chords + 1 }, (_, i) => {
    const angle = (Math.PI * i) / chords;
    return { x: end * Math.cos(angle), y: 12 + end * Math.sin(angle) };
  });
  const corner = (x: number, y: number) => ({ x, y });
  return [
    corner(-60, 0),
    corner(-end, 0),
    ...round.reverse(),
    corner(end, 0),
    corner(60, 0),
    corner(60, 50),
    corner(-60, 50),
  ];
}

test('a disc swept round a hollow as round as itself, or rounder, leaves no tear: as Clipper2’s own offset has it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 2, max: 12, noNaN: true }),
      fc.double({ min: -0.5, max: 0.5, noNaN: true }),
      fc.integer({ min: 8, max: 120 }),
      fc.constantFrom(0, 1, 1, 0.01, 0.001),
      (radius, more, chords, share) => {
        const ring = slotted(radius + more * share, chords);
        const sum = dilate([ring], radius);
        const theirs = inflatePathsD([ring as PathD], radius, JoinType.Round, EndType.Polygon, 2, 6, 2e-4);
        const apart = area(difference(sum, theirs)) + area(difference(theirs, sum));
        expect(apart).toBeLessThan(2e-4 * 2 * perimeter([ring]));
        expect(widest(difference(theirs, sum)).width).toBeLessThan(5e-4);
        // A tear is a hole, however thin.
        expect(sum.filter((one) => signedArea(one) < 0)).toEqual([]);
      },
    ),
    { numRuns: 200 },
  );
});

test('a hole of no thickness beside a strip does not hide how wide the strip is', () => {
  const sliver = [...box(3, 1, 3.00001, 4)].reverse();
  expect(widest([box(0, 0, 0.05, 19), box(2, 0, 4, 0.001), sliver]).width).toBeCloseTo(0.05, 3);
  const hole = [...box(1, 1, 9, 4)].reverse();
  expect(widest([box(20, 0, 20.05, 19), box(0, 0, 10, 5), hole]).width).toBeGreaterThan(1);
});

/** The ring with needles of a millionth of a mm at its corners, some of them crossing themselves. */
function needled(
  ring: Polygon,
  needles: readonly {
    readonly at: number;
    readonly long: number;
    readonly offs: readonly [number, number];
  }[],
) {
  return ring.flatMap((corner, i) => {
    const needle = needles.find(({ at }) => at % ring.length === i);
    const before = ring[(i + ring.length - 1) % ring.length];
    if (!needle || !before) return [corner];
    const far = Math.hypot(corner.x - before.x, corner.y - before.y);
    const [x, y] = [(corner.x - before.x) / far, (corner.y - before.y) / far];
    // Forth and back along the way there, a hair to either side of it, and on.
    const beside = (along: number, off: number) => ({
      x: corner.x + along * x - 1e-6 * off * y,
      y: corner.y + along * y + 1e-6 * off * x,
    });
    return [beside(needle.long, needle.offs[0]), beside(-needle.long, needle.offs[1]), corner];
  });
}

const needles = fc.array(
  fc.record({
    at: fc.nat(200),
    long: fc.double({ min: -0.04, max: 0.04, noNaN: true }),
    offs: fc.tuple(fc.integer({ min: -300, max: 300 }), fc.integer({ min: -300, max: 300 })),
  }),
  { minLength: 1, maxLength: 6 },
);

test('needles in a ring that cross themselves tear no hole in what is grown or shrunk', () => {
  fc.assert(
    fc.property(fc.double({ min: 2, max: 12, noNaN: true }), needles, (radius, some) => {
      // One bay wide enough for the disc, with a round end of chords; one screw hole.
      const bay = slotted(13, 60);
      const hole = [...Array(40).keys()].map((i) => {
        const turn = (-2 * Math.PI * i) / 40;
        return { x: 40 + 2 * Math.cos(turn), y: 30 + 2 * Math.sin(turn) };
      });
      const plain = [bay, hole];
      const rough = [needled(bay, some), needled(hole, some)];
      for (const change of [dilate, erode]) {
        const [wanted, found] = [change(plain, radius), change(rough, radius)];
        expect(widest(difference(wanted, found)).width).toBeLessThan(0.09);
        expect(widest(difference(found, wanted)).width).toBeLessThan(0.09);
        expect(Math.abs(area(wanted) - area(found))).toBeLessThan(0.1 * perimeter(plain));
      }
    }),
    { numRuns: 100 },
  );
});
