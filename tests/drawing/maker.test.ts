import fc from 'fast-check';
import makerjs from 'makerjs';
import { describe, expect, test } from 'vitest';
import { closed, extentsOf, linesOf } from '../../src/drawing/drawing.js';
import { fromMaker, type MakerModel, toMaker } from '../../src/drawing/maker.js';
import type { Drawing } from '../../src/drawing/model.js';
import { area, circle, outlineFromBulges, perimeter } from '../../src/geometry/outline.js';
import { lengthOf } from '../../src/geometry/segment.js';
import { solveJob } from '../../src/outputs/joint.js';
import { readSample } from '../support/jobs.js';

/** makerjs measures, scales, turns and exports what we give it: it is the outside reader here. */

/** The plates of samples. */
const drawn = (samples: readonly string[]): readonly Drawing[] =>
  samples.flatMap((name) =>
    solveJob(readSample(`${name}.yaml`)).flatMap(
      ({ made }) => made?.templates.map(({ drawing }) => drawing) ?? [],
    ),
  );

function read(model: MakerModel): Drawing {
  const result = fromMaker(model);
  if (!result.ok) throw new Error(JSON.stringify(result.diagnostics));
  return result.value;
}

const outlines = ({ items }: Drawing) =>
  items.flatMap((item) => (item.kind === 'closed' ? [item.outline] : []));
const sizes = (drawing: Drawing) =>
  outlines(drawing)
    .map((one) => [Math.abs(area(one)), perimeter(one)] as const)
    .sort(([a], [b]) => a - b);

describe('a drawing as a model of makerjs', () => {
  test('has the extents that makerjs measures, with arcs', () => {
    for (const drawing of drawn(['small-tray', 'slide-box', 'cabinet'])) {
      const cut = { ...drawing, items: drawing.items.filter(({ layer }) => layer === 'CUT') };
      const model = toMaker(cut) as MakerJs.IModel;
      const { low, high } = makerjs.measure.modelExtents(model) ?? { low: [], high: [] };
      const { minX, minY, maxX, maxY } = extentsOf(cut) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
      for (const [ours, theirs] of [
        [minX, low[0]],
        [minY, low[1]],
        [maxX, high[0]],
        [maxY, high[1]],
      ]) {
        expect(theirs).toBeCloseTo(ours ?? NaN, 9);
      }
    }
  });

  test('comes back the same: outlines, sizes, layers', () => {
    for (const drawing of drawn(['small-tray', 'cabinet'])) {
      const plain = { ...drawing, items: drawing.items.filter(({ kind }) => kind === 'closed') };
      const back = read(toMaker(plain));
      const [before, after] = [sizes(plain), sizes(back)];
      expect(after.length).toBe(before.length);
      for (const [i, [a, l]] of before.entries()) {
        expect(after[i]?.[0]).toBeCloseTo(a, 6);
        expect(after[i]?.[1]).toBeCloseTo(l, 6);
      }
      expect(back.items.map(({ layer }) => layer).sort()).toEqual(
        plain.items.map(({ layer }) => layer).sort(),
      );
    }
  });

  test('comes back with every line of it, crossing strokes of letters too', () => {
    const { plates } = solveJob(readSample('small-tray.yaml'))[0]?.made ?? { plates: [] };
    const lengths = ({ items }: Drawing) => {
      const sums: Record<string, number> = {};
      for (const item of items) {
        for (const { segments } of linesOf(item)) {
          for (const one of segments) sums[item.layer] = (sums[item.layer] ?? 0) + lengthOf(one);
        }
      }
      return sums;
    };
    expect(plates.length).toBeGreaterThan(0);
    for (const { nominal } of plates) {
      const [before, after] = [lengths(nominal), lengths(read(toMaker(nominal)))];
      for (const [layer, length] of Object.entries(before))
        expect(after[layer], layer).toBeCloseTo(length, 3);
    }
  });

  test('comes back turned as makerjs turns it, whatever the bulges', () => {
    const vertex = fc.record({
      bulge: fc.double({ min: -0.9, max: 0.9, noNaN: true }),
      r: fc.double({ min: 30, max: 60, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(vertex, { minLength: 3, maxLength: 9 }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (all, turn) => {
          const vertices = all.map(({ bulge, r }, i) => ({
            x: r * Math.cos((2 * Math.PI * i) / all.length),
            y: r * Math.sin((2 * Math.PI * i) / all.length),
            bulge: Math.abs(bulge) < 1e-3 ? 0 : bulge * 0.3,
          }));
          const one = outlineFromBulges(vertices);
          const turned = makerjs.model.rotate(
            toMaker({ title: '', notes: [], items: [closed('CUT', one)] }) as MakerJs.IModel,
            turn,
          );
          const [back] = outlines(read(turned as MakerModel));
          if (!back) throw new Error('nothing came back');
          // makerjs rounds points that it turns to 1e-7 mm or so: times the perimeter, some 400 mm.
          expect(Math.abs(Math.abs(area(back)) - Math.abs(area(one)))).toBeLessThan(1e-4);
          expect(Math.abs(perimeter(back) - perimeter(one))).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a model of makerjs as a drawing', () => {
  test('a rounded rectangle in inches comes in mm: area w h - (4 - pi) r^2', () => {
    const model = { ...new makerjs.models.RoundRectangle(3, 2, 0.5), units: 'inch' } as MakerModel;
    const [one] = outlines(read(model));
    expect(one && Math.abs(area(one))).toBeCloseTo((6 - (4 - Math.PI) * 0.25) * 25.4 ** 2, 6);
  });

  test('a circle in a moved model stands where it was moved to', () => {
    const model: MakerModel = {
      models: { hole: { origin: [10, 20], paths: { c: { type: 'circle', origin: [1, 2], radius: 4 } } } },
    };
    const [one] = outlines(read(model));
    expect(extentsOf(read(model))).toMatchObject({ minX: 7, minY: 18, maxX: 15, maxY: 26 });
    expect(one && Math.abs(area(one))).toBeCloseTo(area(circle({ x: 0, y: 0 }, 4)), 9);
  });

  test('an open chain stays open, and an unknown layer becomes the one asked for', () => {
    const model: MakerModel = {
      layer: 'red',
      paths: {
        a: { type: 'line', origin: [0, 0], end: [5, 0] },
        b: { type: 'arc', origin: [5, 5], radius: 5, startAngle: 270, endAngle: 0 },
      },
    };
    const result = fromMaker(model, { layer: 'SCORE', title: 'mine' });
    expect(result.ok && result.value.title).toBe('mine');
    expect(result.ok && result.value.items.map(({ kind, layer }) => [kind, layer])).toEqual([
      ['open', 'SCORE'],
    ]);
  });

  test('other curves and numbers that are none are refused by their names', () => {
    const model: MakerModel = {
      models: {
        m: {
          paths: {
            curve: { type: 'bezier-seed', origin: [0, 0], end: [1, 1] },
            lost: { type: 'line', origin: [0, Number.NaN], end: [1, 1] },
            fine: { type: 'line', origin: [0, 0], end: [1, 1] },
          },
        },
      },
    };
    const result = fromMaker(model);
    expect(result.ok).toBe(false);
    expect(result.diagnostics.map(({ code, data }) => [code, data])).toEqual([
      ['model-path-unknown', { path: 'm/curve', type: 'bezier-seed' }],
      ['model-path-unknown', { path: 'm/lost', type: 'line' }],
    ]);
  });
});
