import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { closed, open } from '../../src/drawing/drawing.js';
import { type Drawing, layers } from '../../src/drawing/model.js';
import { circle, outlineFromBulges, rectangle } from '../../src/geometry/outline.js';
import { line } from '../../src/geometry/segment.js';
import { colourNumber, numberedColour } from '../../src/writers/dxf/colours.js';
import { type DxfOptions, dxfWriter } from '../../src/writers/dxf/dxf.js';
import { dxfEntities, FLATTENED_WITHIN } from '../../src/writers/dxf/entities.js';
import { colours, plate, small } from '../drawing/fixture.js';

const written = (drawing: Drawing, options: Partial<DxfOptions> = {}): string =>
  String(dxfWriter.write(drawing, { colours, ...options }));

const versions = ['r2000', 'r2007', 'r12'] as const;
const styles = ['polylines', 'lines-and-arcs', 'flattened'] as const;
const every = versions.flatMap((version) => styles.map((entities) => ({ version, entities })));

type Tag = readonly [code: number, value: string];

/** The tags of a file, read by the rule of the format: code and value take turns, line by line. */
function tagsOf(dxf: string): readonly Tag[] {
  const lines = dxf.trimEnd().split('\n');
  expect(lines.length % 2).toBe(0);
  expect(lines.filter((line, i) => i % 2 === 0 && !/^\d+$/.test(line))).toEqual([]);
  return Array.from({ length: lines.length / 2 }, (_, i) => [Number(lines[2 * i]), lines[2 * i + 1] ?? '']);
}

/** Records (layers, entities) of a kind, as tags. */
function recordsOf(dxf: string, ...kinds: readonly string[]): readonly (readonly Tag[])[] {
  const tags = tagsOf(dxf);
  const starts = tags.flatMap(([code], i) => (code === 0 ? [i] : []));
  return starts
    .map((from, i) => tags.slice(from, starts[i + 1]))
    .filter(([first]) => kinds.includes(first?.[1] ?? ''));
}

const valuesOf = (record: readonly Tag[] | undefined, code: number): readonly string[] =>
  (record ?? []).filter((tag) => tag[0] === code).map(([, value]) => value);

const header = (dxf: string, name: string): readonly string[] => {
  const tags = tagsOf(dxf);
  const at = tags.findIndex(([code, value]) => code === 9 && value === `$${name}`);
  const next = tags.findIndex(([code], i) => i > at && (code === 9 || code === 0));
  return tags.slice(at + 1, next).map(([, value]) => value);
};

describe.each(every)('DXF $version, $entities', (options) => {
  const dxf = written(plate, options);

  test('is in ASCII, in plain decimals, and ends as a file should', () => {
    expect(dxf).toMatch(/^[\n -~]*$/);
    expect(dxf.endsWith('\n0\nEOF\n')).toBe(true);
    const reals = tagsOf(dxf).filter(([code]) => code >= 10 && code <= 59);
    expect(reals.length).toBeGreaterThan(100);
    expect(reals.filter(([, value]) => !/^(?!-0$)-?\d+(\.\d+)?$/.test(value))).toEqual([]);
  });

  test('says its release, millimetres and the true extents', () => {
    expect(header(dxf, 'ACADVER')).toEqual([
      { r2000: 'AC1015', r2007: 'AC1021', r12: 'AC1009' }[options.version],
    ]);
    expect(header(dxf, 'INSUNITS')).toEqual(['4']);
    expect(header(dxf, 'MEASUREMENT')).toEqual(['1']);
    expect(header(dxf, 'EXTMIN')).toEqual(['-12.5', '-20', '0']);
    expect(header(dxf, 'EXTMAX')).toEqual(['80', '40', '0']);
  });

  test('holds lines, arcs and polylines only', () => {
    const tags = tagsOf(dxf);
    const from = tags.findIndex(([code, value]) => code === 2 && value === 'ENTITIES');
    const until = tags.findIndex(([code, value], i) => i > from && code === 0 && value === 'ENDSEC');
    const kinds = new Set(tags.slice(from, until).flatMap(([code, value]) => (code === 0 ? [value] : [])));
    const polyline = options.version === 'r12' ? ['POLYLINE', 'VERTEX', 'SEQEND'] : ['LWPOLYLINE'];
    expect(kinds).toEqual(new Set(options.entities === 'lines-and-arcs' ? ['LINE', 'ARC'] : polyline));
  });

  test('declares every layer, and each entity has the colour of its layer', () => {
    const declared = new Map(recordsOf(dxf, 'LAYER').map((one) => [valuesOf(one, 2)[0], one]));
    expect([...declared.keys()]).toEqual(['0', ...layers]);
    for (const layer of layers)
      expect(valuesOf(declared.get(layer), 62)).toEqual([String(colourNumber(colours[layer]))]);
    const entities = recordsOf(dxf, 'LWPOLYLINE', 'POLYLINE', 'VERTEX', 'SEQEND', 'LINE', 'ARC');
    expect(new Set(entities.flatMap((one) => valuesOf(one, 8)))).toEqual(new Set(layers));
    for (const one of entities) {
      const layer = declared.get(valuesOf(one, 8)[0] ?? '');
      expect(valuesOf(one, 62)).toEqual(valuesOf(layer, 62));
      expect(valuesOf(one, 420)).toEqual(valuesOf(layer, 420));
      expect(valuesOf(one, 420)).toHaveLength(options.version === 'r2007' ? 1 : 0);
    }
  });

  test('numbers its handles from 1 without gaps that a reader could trip over, none twice', () => {
    const own = tagsOf(dxf)
      .filter(([code], i, all) => code === 5 && all[i - 1]?.[1] !== '$HANDSEED')
      .map(([, value]) => Number.parseInt(value, 16));
    expect(new Set(own).size).toBe(own.length);
    expect(Math.min(...own)).toBe(1);
    expect(Number.parseInt(header(dxf, 'HANDSEED')[0] ?? '', 16)).toBe(Math.max(...own) + 1);
    const owners = tagsOf(dxf).filter(([code]) => code === 330 || code === 350);
    for (const [, value] of owners) expect([0, ...own]).toContain(Number.parseInt(value, 16));
  });

  test('has the same bytes whatever was written before', () => {
    for (const other of every) written(small, other);
    expect(written(plate, options)).toBe(dxf);
  });

  test('has no entity twice and none of no length', () => {
    const entities = dxfEntities(plate, options.entities);
    const plain = entities.map((one) => JSON.stringify(one));
    expect(new Set(plain).size).toBe(plain.length);
    for (const one of entities) {
      if (one.kind === 'line')
        expect(Math.hypot(one.to.x - one.from.x, one.to.y - one.from.y)).toBeGreaterThan(1e-6);
      if (one.kind === 'arc') expect(one.start).not.toBe(one.end);
      if (one.kind !== 'polyline') continue;
      const last = one.vertices.length - 1;
      one.vertices.forEach((vertex, i) => {
        const next = one.vertices[i === last && one.closed ? 0 : i + 1];
        if (next) expect(Math.hypot(next.x - vertex.x, next.y - vertex.y)).toBeGreaterThan(1e-6);
      });
    }
  });
});

describe('closed contours', () => {
  test('are one closed polyline each, the first vertex not repeated', () => {
    const [hole, outline] = recordsOf(written(plate), 'LWPOLYLINE').filter(
      (one) => valuesOf(one, 8)[0] === 'CUT',
    );
    expect(valuesOf(outline, 70)).toEqual(['1']);
    expect(valuesOf(outline, 90)).toEqual(['14']);
    expect(valuesOf(outline, 10)).toHaveLength(14);
    expect(valuesOf(hole, 10)).toEqual(['-1.75', '-6.25']);
    expect(valuesOf(hole, 20)).toEqual(['31', '31']);
    // Clockwise half circles: the hole runs with the plate on its left.
    expect(valuesOf(hole, 42)).toEqual(['-1', '-1']);
  });

  test('lettering is open polylines', () => {
    const letters = recordsOf(written(plate), 'LWPOLYLINE').filter(
      (one) => valuesOf(one, 8)[0] === 'ENGRAVE',
    );
    expect(letters.length).toBeGreaterThan(5);
    for (const one of letters) expect(valuesOf(one, 70)).toEqual(['0']);
  });
});

describe('loose pieces', () => {
  const loose = (drawing: Drawing) => dxfEntities(drawing, 'lines-and-arcs');

  test('a side that two contours share stands there once', () => {
    const neighbours: Drawing = {
      title: '',
      notes: [],
      items: [closed('CUT', rectangle(0, 0, 10, 10)), closed('CUT', rectangle(10, 0, 20, 10))],
    };
    expect(loose(neighbours)).toHaveLength(7);
  });

  test('arcs run counter-clockwise, whichever way the contour does', () => {
    const arcs = loose({
      title: '',
      notes: [],
      items: [
        closed(
          'CUT',
          outlineFromBulges([
            { x: 0, y: 0, bulge: -1 },
            { x: 0, y: 4 },
          ]),
        ),
      ],
    });
    expect(arcs).toEqual([
      { kind: 'arc', layer: 'CUT', center: { x: 0, y: 2 }, radius: 2, start: 90, end: 270 },
      { kind: 'line', layer: 'CUT', from: { x: 0, y: 4 }, to: { x: 0, y: 0 } },
    ]);
  });
});

test('flattened arcs stay within their bound, points on the arc, chords inside', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.2, max: 500, noNaN: true }), (radius) => {
      const [ring] = dxfEntities(
        { title: '', notes: [], items: [closed('CUT', circle({ x: 1, y: 2 }, radius))] },
        'flattened',
      );
      const points = ring?.kind === 'polyline' ? ring.vertices : [];
      expect(points.length).toBeGreaterThan(5);
      points.forEach((from, i) => {
        const to = points[(i + 1) % points.length] ?? from;
        expect(from.bulge).toBe(0);
        expect(Math.hypot(from.x - 1, from.y - 2)).toBeCloseTo(radius, 9);
        const middle = Math.hypot((from.x + to.x) / 2 - 1, (from.y + to.y) / 2 - 2);
        expect(radius - middle).toBeLessThanOrEqual(FLATTENED_WITHIN + 1e-9);
      });
    }),
  );
  expect(FLATTENED_WITHIN).toBeLessThan(0.01);
});

describe('comments', () => {
  test('carry title and notes in ASCII, one line each, long ones in parts', () => {
    const dxf = written({ ...small, title: 'Käfer\n8° — 📐', notes: ['x'.repeat(450)] });
    const lines = tagsOf(dxf)
      .filter(([code]) => code === 999)
      .map(([, value]) => value);
    expect(lines[0]).toBe('K\\U+00E4fer 8\\U+00B0 \\U+2014 \\U+D83D\\U+DCD0');
    expect(lines.slice(1)).toEqual(['x'.repeat(200), 'x'.repeat(200), 'x'.repeat(50)]);
  });
});

test('an empty drawing is a whole file with extents inside out', () => {
  const dxf = written({ title: '', notes: [], items: [] });
  expect(header(dxf, 'EXTMIN')).toEqual(['100000000000000000000', '100000000000000000000', '0']);
  expect(recordsOf(dxf, 'LWPOLYLINE')).toEqual([]);
});

test('lines far from arcs keep six decimals, tiny bulges ten', () => {
  const flat = outlineFromBulges([
    { x: 0, y: 0, bulge: 1e-7 },
    { x: 1 / 3, y: 0 },
    { x: 0, y: 1 },
  ]);
  const [one] = recordsOf(
    written({
      title: '',
      notes: [],
      items: [
        closed('CUT', flat),
        open('REF', { closed: false, segments: [line({ x: 0, y: 0 }, { x: 1, y: 1 })] }),
      ],
    }),
    'LWPOLYLINE',
  );
  expect(valuesOf(one, 10)).toEqual(['0', '0.333333', '0']);
  expect(valuesOf(one, 42)).toEqual(['0.0000001']);
});

describe('numbered colours', () => {
  test.each([
    ['#FF0000', 1],
    ['#FFFF00', 2],
    ['#00FF00', 3],
    ['#00FFFF', 4],
    ['#0000FF', 5],
    ['#FF00FF', 6],
    ['#FFFFFF', 7],
    ['#000000', 7],
  ])('%s is %d', (colour, number) => expect(colourNumber(colour)).toBe(number));

  test('the five layers keep apart', () => {
    expect(new Set(layers.map((layer) => colourNumber(colours[layer]))).size).toBe(layers.length);
  });

  test('a numbered colour is its own nearest, or has the same red, green and blue', () => {
    for (let number = 1; number <= 249; number++) {
      const [red, green, blue] = numberedColour(number);
      const hex = `#${[red, green, blue].map((part) => part.toString(16).padStart(2, '0')).join('')}`;
      expect(numberedColour(colourNumber(hex)), String(number)).toEqual([red, green, blue]);
    }
  });
});

test.each([
  ['tab.dxf', {}],
  ['tab-r12.dxf', { version: 'r12' }],
] as const)('a small drawing, as it is kept in %s', (file, options) => {
  expect(written(small, options)).toBe(readFileSync(new URL(`golden/${file}`, import.meta.url), 'utf8'));
});
