/// <reference path="../../src/verify/files/libraries.d.ts" />
import DxfParser, { type Entity } from 'dxf-parser';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { closed, extentsOf } from '../../src/drawing/drawing.js';
import { type Drawing, layers } from '../../src/drawing/model.js';
import { outlineFromBulges } from '../../src/geometry/outline.js';
import type { Outline } from '../../src/geometry/types.js';
import { numberedColour } from '../../src/writers/dxf/colours.js';
import { type DxfOptions, dxfWriter } from '../../src/writers/dxf/dxf.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { colours, comb, plate, screwHole, slots } from '../drawing/fixture.js';

/** DXF read back by the dxf-parser package, and judged by ezdxf's audit (Debian: python3-ezdxf). */

const written = (drawing: Drawing, options: Partial<DxfOptions> = {}): string =>
  String(dxfWriter.write(drawing, { colours, ...options }));

const sheet = (...outlines: readonly Outline[]): Drawing => ({
  title: '',
  notes: [],
  items: outlines.map((one) => closed('CUT', one)),
});

const entitiesOf = (dxf: string): readonly Entity[] => new DxfParser().parseSync(dxf)?.entities ?? [];

const releases = ['r2000', 'r2007', 'r12'] as const;
const styles = ['polylines', 'lines-and-arcs', 'flattened'] as const;
const every = releases.flatMap((version) => styles.map((entities) => ({ version, entities })));

describe.each(releases)('dxf-parser reads %s', (version) => {
  const entities = entitiesOf(written(plate, { version }));
  const on = (layer: string): readonly Entity[] => entities.filter((one) => one.layer === layer);

  test('every contour of CUT and STOCK closed, lettering and scores open', () => {
    expect([on('CUT').length, on('STOCK').length]).toEqual([2, 1]);
    for (const one of [...on('CUT'), ...on('STOCK')]) expect(one.shape).toBe(true);
    expect(on('ENGRAVE').length).toBeGreaterThan(5);
    for (const one of [...on('ENGRAVE'), ...on('SCORE'), ...on('REF')]) expect(one.shape).toBeFalsy();
  });

  test('the vertices and bulges that were drawn', () => {
    const [hole, outline] = on('CUT');
    expectSame(outline, comb);
    expectSame(hole, screwHole);
  });

  test('boxes that equal the model, layer by layer, within 0.0001 mm', () => {
    for (const layer of layers) {
      const box = boxOf(on(layer));
      const drawn = extentsOf(plate, [layer]);
      for (const side of ['minX', 'minY', 'maxX', 'maxY'] as const) {
        expect(Math.abs(box[side] - (drawn?.[side] ?? Number.NaN)), `${layer} ${side}`).toBeLessThan(1e-4);
      }
    }
  });

  test('the slots where they were put', () => {
    const vertices = on('CUT')[1]?.vertices ?? [];
    for (const { from, to, depth } of slots) {
      const root = vertices.findIndex(({ x, y }) => x === from && y > -20);
      const [a, b] = vertices.slice(root, root + 2);
      expect(a?.bulge).toBe(-1);
      expect(b?.x).toBe(to);
      expect((a?.y ?? 0) + (to - from) / 2).toBeCloseTo(-20 + depth, 6);
    }
  });
});

describe('bulges', () => {
  /**
   * NISTIR 6556 (Kramer, Proctor, Messina, 2000), Appendix B, Tables 12 and 13: a material edge and the path of a
   * tool of diameter 1, both clockwise, as transcribed: end point and, for arcs, the center from the arc's start.
   */
  const published = {
    edge: [
      [2, 3],
      [3, 2, 0, -1],
      [3, -1],
      [2, -2, -1, 0],
      [-2, -2],
      [-2.6, -0.2, 0, 1],
      [1.4, 2.8],
      [2, 3, 0.6, -0.8],
    ],
    path: [
      [2, 3.5],
      [3.5, 2, 0, -1.5],
      [3.5, -1],
      [2, -2.5, -1.5, 0],
      [-2, -2.5],
      [-2.9, 0.2, 0, 1.5],
      [1.1, 3.2],
      [2, 3.5, 0.9, -1.2],
    ],
  } as const;

  test.each(Object.entries(published))(
    'of the published %s are tan(included angle / 4), negative clockwise',
    (_, moves) => {
      const segments = moves.slice(1).map(([x = 0, y = 0, i, j], at) => {
        const [x0 = 0, y0 = 0] = moves[at] ?? [];
        const [from, to] = [
          { x: x0, y: y0 },
          { x, y },
        ];
        if (i === undefined || j === undefined) return { kind: 'line', from, to } as const;
        return {
          kind: 'arc',
          from,
          to,
          center: { x: x0 + i, y: y0 + j },
          radius: Math.hypot(i, j),
          ccw: false,
        } as const;
      });
      const [read] = entitiesOf(written(sheet({ closed: true, segments })));
      // Included angle by the chord: sin(angle / 2) = chord / 2r, each arc under half a turn or just a quarter of it.
      const expected = [1, 3, 5, 7].map((at) => {
        const [x = 0, y = 0, i = 0, j = 0] = moves[at] ?? [];
        const [x0 = 0, y0 = 0] = moves[at - 1] ?? [];
        const cosine = (-i * (x - x0 - i) + -j * (y - y0 - j)) / (i * i + j * j);
        return -Math.tan(Math.acos(cosine) / 4);
      });
      const bulges = (read?.vertices ?? []).flatMap(({ bulge }) => (bulge ? [bulge] : []));
      expect(bulges).toHaveLength(4);
      [-0.41421356, -0.41421356, -0.72075922, -0.16227766].forEach((value, at) => {
        expect(bulges[at]).toBeCloseTo(value, 8);
        expect(bulges[at]).toBeCloseTo(expected[at] ?? Number.NaN, 9);
      });
    },
  );

  test('1 is a semicircle, counter-clockwise (DXF Reference, LWPOLYLINE, group 42)', () => {
    const half = outlineFromBulges([
      { x: 0, y: 0, bulge: 1 },
      { x: 10, y: 0 },
    ]);
    const box = boxOf(entitiesOf(written(sheet(half))));
    // From left to right counter-clockwise: it hangs below its chord.
    expect(box).toEqual({ minX: 0, minY: -5, maxX: 10, maxY: expect.closeTo(0, 9) });
  });

  test('of any outline come back, and its vertices, in every release', () => {
    // Thousandths of a millimetre, so that no two vertices fall together by chance.
    const coordinate = fc.integer({ min: -1e6, max: 1e6 }).map((one) => one / 1000 + 1 / 3);
    const bulge = fc.oneof(
      fc.constant(0),
      fc.double({ min: 0.001, max: 2, noNaN: true }),
      fc.double({ min: -2, max: -0.001, noNaN: true }),
    );
    const vertices = fc.uniqueArray(fc.record({ x: coordinate, y: coordinate, bulge }), {
      minLength: 3,
      maxLength: 12,
      selector: ({ x, y }) => `${x} ${y}`,
    });
    fc.assert(
      fc.property(vertices, fc.constantFrom(...releases), (given, version) => {
        const outline = outlineFromBulges(given);
        expectSame(entitiesOf(written(sheet(outline), { version }))[0], outline);
      }),
      { numRuns: 60 },
    );
  });
});

describe.each(releases)('loose pieces of %s', (version) => {
  test('are as long together as the outline, and chain up into closed contours', () => {
    const entities = entitiesOf(written(sheet(comb, screwHole), { version, entities: 'lines-and-arcs' }));
    const ends = entities.flatMap(endsOf);
    expect(entities).toHaveLength(comb.segments.length + screwHole.segments.length);
    // Each end meets exactly one other.
    for (const end of ends) expect(ends.filter((other) => apart(end, other) < 2e-6)).toHaveLength(2);
  });
});

describe('ezdxf', () => {
  const python = firstAtHand(['python3', '/usr/bin/python3'], '-c', 'import ezdxf');
  const script = [
    'import sys, io, json, ezdxf',
    'from ezdxf import bbox',
    'true = lambda e: e.dxf.true_color if e.dxf.hasattr("true_color") else None',
    'closed = lambda e: e.closed if e.dxftype() == "LWPOLYLINE" else e.is_closed',
    'def reading(text):',
    '  doc = ezdxf.read(io.StringIO(text))',
    '  audit = doc.audit()',
    '  space = doc.modelspace()',
    '  box = bbox.extents(space, flatten=0.00001)',
    '  layer = lambda e: doc.layers.get(e.dxf.layer)',
    '  return {',
    '    "release": doc.dxfversion,',
    '    "complaints": [e.message for e in list(audit.errors) + list(audit.fixes)],',
    '    "units": [doc.header["$INSUNITS"], doc.header["$MEASUREMENT"]],',
    '    "header": [list(doc.header["$EXTMIN"])[:2], list(doc.header["$EXTMAX"])[:2]],',
    '    "box": [list(box.extmin)[:2], list(box.extmax)[:2]],',
    '    "layers": [l.dxf.name for l in doc.layers],',
    '    "undeclared": [e.dxf.layer for e in space if e.dxf.layer not in doc.layers],',
    '    "odd": [e.dxftype() for e in space if e.dxf.color != layer(e).color or true(e) != true(layer(e))],',
    '    "open": [e.dxf.layer for e in space.query("LWPOLYLINE POLYLINE") if not closed(e) and e.dxf.layer in ("CUT", "STOCK")],',
    '    "count": len(space),',
    '  }',
    'print(json.dumps([reading(text) for text in json.load(sys.stdin)]))',
  ].join('\n');

  testWith(
    'python3-ezdxf',
    python,
    'audits every release and style: no error, no fix, all as drawn',
    (program) => {
      const files = JSON.stringify(every.map((options) => written(plate, options)));
      const readings = JSON.parse(output(program, ['-c', script], files).toString()) as readonly Reading[];
      expect(readings).toHaveLength(every.length);
      readings.forEach((read, at) => {
        const options = every[at];
        const which = `${options?.version}, ${options?.entities}`;
        expect(read.complaints, which).toEqual([]);
        expect(read.release, which).toBe(
          { r2000: 'AC1015', r2007: 'AC1021', r12: 'AC1009' }[options?.version ?? 'r12'],
        );
        expect(read.units, which).toEqual([4, 1]);
        expect(read.header, which).toEqual([
          [-12.5, -20],
          [80, 40],
        ]);
        // Its own box, from the entities it read, arcs included.
        read.box.flat().forEach((value, i) => {
          expect(Math.abs(value - (read.header.flat()[i] ?? Number.NaN)), which).toBeLessThan(1e-4);
        });
        expect(read.layers, which).toEqual(expect.arrayContaining([...layers]));
        expect([read.undeclared, read.odd, read.open], which).toEqual([[], [], []]);
        expect(read.count, which).toBeGreaterThan(10);
      });
    },
  );

  testWith('python3-ezdxf', python, 'has the same red, green and blue for numbered colours', (program) => {
    const table = 'import json, ezdxf.colors as c; print(json.dumps([c.aci2rgb(i) for i in range(1, 250)]))';
    const theirs = JSON.parse(
      output(program, ['-c', table], '').toString(),
    ) as readonly (readonly number[])[];
    // Not the darkest mixtures, ending in 7 and 9: there its table strays from its own series.
    const kept = theirs.flatMap((rgb, i) =>
      (i + 1) % 10 === 7 || (i + 1) % 10 === 9 ? [] : [[i + 1, rgb] as const],
    );
    expect(kept.length).toBeGreaterThan(190);
    for (const [number, rgb] of kept) expect(numberedColour(number), String(number)).toEqual(rgb);
  });
});

interface Reading {
  readonly release: string;
  readonly complaints: readonly string[];
  readonly units: readonly number[];
  readonly header: readonly (readonly number[])[];
  readonly box: readonly (readonly number[])[];
  readonly layers: readonly string[];
  readonly undeclared: readonly string[];
  readonly odd: readonly string[];
  readonly open: readonly string[];
  readonly count: number;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

const apart = (a: Spot, b: Spot | undefined): number =>
  Math.hypot(a.x - (b?.x ?? Number.NaN), a.y - (b?.y ?? 0));

function expectSame(read: Entity | undefined, outline: Outline): void {
  expect(read?.shape).toBe(true);
  const vertices = read?.vertices ?? [];
  expect(vertices).toHaveLength(outline.segments.length);
  outline.segments.forEach((drawn, i) => {
    expect(apart(drawn.from, vertices[i])).toBeLessThan(1e-6);
    expect(Math.abs((vertices[i]?.bulge ?? 0) - bulgeByCenter(drawn))).toBeLessThan(1e-8);
  });
}

/** tan(included angle / 4) from the angles at the center, written anew for these tests. */
function bulgeByCenter(one: Outline['segments'][number]): number {
  if (one.kind === 'line') return 0;
  const bearing = ({ x, y }: Spot): number => Math.atan2(y - one.center.y, x - one.center.x);
  const turn = one.ccw ? bearing(one.to) - bearing(one.from) : bearing(one.from) - bearing(one.to);
  const included = (turn + 4 * Math.PI) % (2 * Math.PI);
  return (one.ccw ? 1 : -1) * Math.tan(included / 4);
}

function endsOf(one: Entity): readonly Spot[] {
  if (one.type === 'LINE') return one.vertices ?? [];
  const { center = { x: 0, y: 0 }, radius = 0, startAngle = 0, endAngle = 0 } = one;
  return [startAngle, endAngle].map((angle) => ({
    x: center.x + radius * Math.cos(angle),
    y: center.y + radius * Math.sin(angle),
  }));
}

/** Box of polylines, arcs sampled finely from their bulges: center and radius from chord and sagitta. */
function boxOf(entities: readonly Entity[]): { minX: number; minY: number; maxX: number; maxY: number } {
  const points = entities.flatMap(({ vertices = [], shape }) =>
    vertices.flatMap((from, i) => {
      const to = vertices[i + 1] ?? (shape ? vertices[0] : undefined);
      return to && from.bulge ? arcPoints(from, to, from.bulge) : [from];
    }),
  );
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const [minX, minY] = [xs, ys].map((values) => -most(values.map((one) => -one))) as [number, number];
  return { minX, minY, maxX: most(xs), maxY: most(ys) };
}

function arcPoints(from: Spot, to: Spot, bulge: number): readonly Spot[] {
  const chord = apart(from, to);
  const sagitta = (Math.abs(bulge) * chord) / 2;
  const radius = (chord * chord) / (8 * sagitta) + sagitta / 2;
  const off = (radius - sagitta) * Math.sign(bulge);
  const center = {
    x: (from.x + to.x) / 2 - (off * (to.y - from.y)) / chord,
    y: (from.y + to.y) / 2 + (off * (to.x - from.x)) / chord,
  };
  const start = Math.atan2(from.y - center.y, from.x - center.x);
  const sweep = 4 * Math.atan(bulge);
  return Array.from({ length: 4001 }, (_, i) => ({
    x: center.x + radius * Math.cos(start + (sweep * i) / 4000),
    y: center.y + radius * Math.sin(start + (sweep * i) / 4000),
  }));
}
