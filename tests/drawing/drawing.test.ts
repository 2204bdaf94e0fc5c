import { describe, expect, test } from 'vitest';
import { arrow, dimension } from '../../src/drawing/dimension.js';
import { closed, extentsOf, linesOf, mirrored, movedDrawing, open, text } from '../../src/drawing/drawing.js';
import { textWidth } from '../../src/drawing/lettering/lettering.js';
import type { Drawing, Item } from '../../src/drawing/model.js';
import { area, circle, extents } from '../../src/geometry/outline.js';
import { line } from '../../src/geometry/segment.js';
import { comb, plate } from './fixture.js';

const drawing = (...items: readonly Item[]): Drawing => ({ title: '', notes: [], items });

describe('extents of a drawing', () => {
  test('follow arcs to their outermost points, not only their ends', () => {
    expect(extentsOf(drawing(closed('CUT', circle({ x: 3, y: -2 }, 5))))).toEqual({
      minX: -2,
      minY: -7,
      maxX: 8,
      maxY: 3,
    });
  });

  test('hold for the layers asked for', () => {
    expect(extentsOf(plate, ['STOCK'])).toEqual({ minX: 0, minY: -15, maxX: 64, maxY: 0 });
    expect(extentsOf(plate, ['CUT'])).toEqual(extents(comb));
  });

  test('include lettering', () => {
    const box = extentsOf(drawing(text('REF', 'HH', { x: 1, y: 2 }, 6)));
    expect(box?.maxX).toBeCloseTo(1 + textWidth('HH', 6), 9);
    expect(box?.maxY).toBeCloseTo(8, 9);
  });

  test('are unknown when nothing is drawn', () => {
    expect(extentsOf(drawing())).toBeUndefined();
    expect(extentsOf(drawing(text('REF', ' ', { x: 1, y: 2 }, 6)))).toBeUndefined();
    expect(extentsOf(plate, [])).toBeUndefined();
  });
});

describe('moving a drawing', () => {
  test('moves everything on it alike', () => {
    const before = extentsOf(plate);
    const after = extentsOf(movedDrawing(plate, 10, -4));
    expect(after?.minX).toBeCloseTo((before?.minX ?? 0) + 10, 9);
    expect(after?.maxX).toBeCloseTo((before?.maxX ?? 0) + 10, 9);
    expect(after?.minY).toBeCloseTo((before?.minY ?? 0) - 4, 9);
    expect(after?.maxY).toBeCloseTo((before?.maxY ?? 0) - 4, 9);
  });

  test('leaves the given drawing as it was', () => {
    const before = JSON.stringify(plate);
    movedDrawing(plate, 1, 1);
    mirrored(plate);
    expect(JSON.stringify(plate)).toBe(before);
  });
});

describe('mirroring a drawing', () => {
  test('keeps the inside of outlines on their left', () => {
    const [one] = mirrored(drawing(closed('CUT', comb)), 60).items;
    expect(one?.kind === 'closed' && area(one.outline)).toBeCloseTo(area(comb), 9);
    expect(one?.kind === 'closed' && extents(one.outline).minX).toBeCloseTo(60 - extents(comb).maxX, 9);
  });

  test.each([0, 0.7, Math.PI / 2, -2])(
    'puts lettering turned by %d where its mirror image was, still readable',
    (angle) => {
      const words = text('ENGRAVE', 'HEH', { x: 5, y: 2 }, 4, { angle });
      const [image] = mirrored(drawing(words), 20).items;
      const mirror = mirrored(
        drawing(...linesOf(words).map((path) => open('REF', { ...path, closed: false }))),
        20,
      );
      const expected = extentsOf(mirror);
      const box = image && extentsOf(drawing(image));
      for (const side of ['minX', 'minY', 'maxX', 'maxY'] as const) {
        expect(box?.[side]).toBeCloseTo(expected?.[side] ?? Number.NaN, 9);
      }
      expect(image?.kind === 'text' && image.text).toBe('HEH');
    },
  );
});

describe('arrows and dimensions', () => {
  test('an arrow ends with its point at the place shown', () => {
    const items = arrow({ x: 0, y: 0 }, { x: 20, y: 0 });
    expect(extentsOf(drawing(...items))).toMatchObject({ minX: 0, maxX: 20 });
    expect(items.every((one) => one.layer === 'REF')).toBe(true);
  });

  test('the head of a short arrow is shorter than the arrow', () => {
    const head = arrow({ x: 0, y: 0 }, { x: 2, y: 0 })[1];
    expect(head && extentsOf(drawing(head))?.minX).toBeGreaterThan(1);
  });

  test('a dimension line is as long as what it measures and stands off to the side asked for', () => {
    const items = dimension({ x: 3, y: 0 }, { x: 43, y: 0 }, '40 mm', { offset: -10 });
    const measured = items.find((one) => one.kind === 'open' && spans(one.path.segments[0], 3, 43, -10));
    expect(measured).toBeDefined();
    expect(extentsOf(drawing(...items))?.maxY).toBeLessThan(0);
  });

  test('a label never stands upside down', () => {
    for (let degrees = 0; degrees < 360; degrees += 15) {
      const radians = (degrees * Math.PI) / 180;
      const to = { x: 50 * Math.cos(radians), y: 50 * Math.sin(radians) };
      const label = dimension({ x: 0, y: 0 }, to, '50').find((one) => one.kind === 'text');
      const angle = label?.kind === 'text' ? label.angle : Number.NaN;
      expect(Math.cos(angle), `${degrees}°`).toBeGreaterThan(-1e-6);
    }
  });

  test('where it is too narrow for its label, the arrows point inward from outside', () => {
    const box = extentsOf(drawing(...dimension({ x: 0, y: 0 }, { x: 1, y: 0 }, '1', { offset: 5 })));
    expect(box?.minX).toBeLessThan(-2);
    expect(box?.maxX).toBeGreaterThan(3);
  });
});

test('an open item is dashed only when asked', () => {
  const path = { closed: false, segments: [line({ x: 0, y: 0 }, { x: 1, y: 0 })] } as const;
  expect(open('REF', path)).toEqual({ kind: 'open', layer: 'REF', path });
  expect(open('REF', path, true)).toEqual({ kind: 'open', layer: 'REF', path, dashed: true });
});

function spans(
  one: { from: { x: number; y: number }; to: { x: number; y: number } } | undefined,
  from: number,
  to: number,
  y: number,
): boolean {
  return one !== undefined && one.from.x === from && one.to.x === to && one.from.y === y && one.to.y === y;
}
