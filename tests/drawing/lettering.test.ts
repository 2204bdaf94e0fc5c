import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fractions, glyphs, marks } from '../../src/drawing/lettering/glyphs.js';
import { missingLetters, strokesOf, textWidth } from '../../src/drawing/lettering/lettering.js';
import type { TextItem } from '../../src/drawing/model.js';
import { flatten } from '../../src/geometry/flatten.js';
import { extents } from '../../src/geometry/outline.js';
import type { Path, Point } from '../../src/geometry/types.js';
import { overlaps } from './overlap.js';

const line = (text: string, more: Partial<TextItem> = {}): TextItem => ({
  kind: 'text',
  layer: 'ENGRAVE',
  text,
  at: { x: 0, y: 0 },
  height: 12,
  angle: 0,
  align: 'start',
  ...more,
});

const ascii = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i));
const signs = [...'°±×½¼¾⅛⅜⅝⅞⅓⅔–—″′∅Øµ→←µ÷≤≥'];
const accented = [...'áàâäãåčçéèêëíìîïñóòôöõøúùûüýÿšžřěůąęşţßæœłđðþÁÀÂÄÃÅČÇÉÈÊËÍÌÎÏÑÓÒÔÖÕØÚÙÛÜÝŠŽŘŁÆŒőű'];
const everything = [...Object.keys(glyphs), ...Object.keys(fractions), ...accented];

describe('what can be lettered', () => {
  test('all printable ASCII, the signs of a workshop, Latin letters with accents', () => {
    expect(missingLetters([...ascii, ...signs, ...accented].join(''))).toEqual([]);
  });

  test('every letter but a space leaves a mark', () => {
    for (const letter of everything) {
      if (letter.trim() !== '') expect(strokesOf(line(letter)).length, letter).toBeGreaterThan(0);
    }
  });

  test('what cannot be drawn is named once, in order, and shows as a box as high as a capital', () => {
    expect(missingLetters('aЖb漢Жc\n')).toEqual(['Ж', '漢', '\n']);
    const box = strokesOf(line('漢'));
    expect(box).toHaveLength(1);
    expect(extents(...box)).toEqual({ minX: 0, minY: 0, maxX: 6, maxY: 12 });
  });

  test('an accent may come as one character or as two', () => {
    expect(strokesOf(line('e\u0301'))).toEqual(strokesOf(line('é')));
    expect(missingLetters('q\u0301')).toEqual([]);
    expect(missingLetters('a\u20dd')).toEqual(['a\u20dd']);
  });

  test('an i gives up its dot to an accent', () => {
    // Stem and accent; a dotted i would have three strokes.
    expect(strokesOf(line('í'))).toHaveLength(2);
    expect(strokesOf(line('i'))).toHaveLength(2);
  });
});

describe('every letter', () => {
  test.each(everything)('%s has no piece of no length, none twice, none broken', (letter) => {
    const pieces = strokesOf(line(letter)).flatMap((one) => one.segments);
    for (const { from, to } of pieces) expect(Math.hypot(to.x - from.x, to.y - from.y)).toBeGreaterThan(0.05);
    expect(overlaps(pieces)).toEqual([]);
    for (const { segments } of strokesOf(line(letter))) {
      segments.forEach((one, i) => {
        const next = segments[i + 1];
        if (next) expect(Math.hypot(next.from.x - one.to.x, next.from.y - one.to.y)).toBeLessThan(1e-9);
      });
    }
  });

  test('curves have no kink: an arc leaves along the line that it came by', () => {
    for (const letter of everything) {
      for (const { segments } of strokesOf(line(letter))) {
        segments.forEach((one, i) => {
          const next = segments[i + 1];
          if (one.kind !== 'arc' || !next) return;
          const away = angleBetween(headingAtEnd(one), headingAtStart(next));
          expect(away, letter).toBeLessThan(1e-6);
        });
      }
    }
  });

  test('capitals and figures stand on the baseline and reach their height', () => {
    for (const letter of [...'ABCDEFGHIJKLMNOPRSTUVWXYZ0123456789']) {
      const box = extents(...strokesOf(line(letter)));
      expect(box.minY, letter).toBeCloseTo(0, 9);
      expect(box.maxY, letter).toBeCloseTo(12, 9);
    }
  });

  test('figures are equally wide, so that columns of them line up', () => {
    for (const figure of '123456789') expect(textWidth(figure, 3)).toBe(textWidth('0', 3));
  });

  test('letters taken for each other differ by at least 0.3 mm somewhere, 3 mm high', () => {
    for (const [a, b] of ['0O', '1l', '1I', 'lI', '5S', '2Z', '8B', '6b', 'rn', 'uv', 'ij', 'a°', ',.']) {
      expect(farthestApart(a ?? '', b ?? ''), `${a} ${b}`).toBeGreaterThan(0.3);
    }
  });

  test('marks stay clear of the letters that they stand on', () => {
    for (const letter of [...'áâäãåčÁÂÄÃÅČő']) {
      const base = extents(...strokesOf(line(letter.normalize('NFD').charAt(0)))).maxY;
      const whole = strokesOf(line(letter));
      const above = whole.filter((one) => extents(one).minY > base);
      expect(above.length, letter).toBeGreaterThan(0);
      for (const one of above) expect(extents(one).minY - base).toBeGreaterThanOrEqual(1.2);
    }
  });

  test('the table of marks names combining characters only', () => {
    for (const mark of Object.keys(marks)) expect(mark).toMatch(/^\p{M}$/u);
  });
});

describe('a line of lettering', () => {
  const words = fc.string({
    unit: fc.constantFrom(...[...ascii, ...signs].filter((one) => one !== ' ')),
    minLength: 1,
  });

  test('is as long as textWidth says, to the letters and their side steps', () => {
    // Ø and its like are struck through past their own width, by 1.5 of 12 at most.
    fc.assert(
      fc.property(words, fc.double({ min: 1, max: 20, noNaN: true }), (text, height) => {
        const box = extents(...strokesOf(line(text, { height })));
        const width = textWidth(text, height);
        expect(box.minX).toBeGreaterThan(-0.1251 * height);
        expect(box.maxX).toBeLessThan(width + 0.1251 * height);
      }),
    );
  });

  test('grows in proportion to its height', () => {
    fc.assert(
      fc.property(words, (text) => {
        expect(textWidth(text, 6)).toBeCloseTo(2 * textWidth(text, 3), 9);
        const [once, twice] = [3, 6].map((height) => extents(...strokesOf(line(text, { height }))));
        expect(twice?.maxX).toBeCloseTo(2 * (once?.maxX ?? Number.NaN), 9);
        expect(twice?.maxY).toBeCloseTo(2 * (once?.maxY ?? Number.NaN), 9);
      }),
    );
  });

  test('hangs from its point at the start, the middle or the end', () => {
    const at = { x: 7, y: -3 };
    const [start, middle, end] = (['start', 'middle', 'end'] as const).map((align) =>
      extents(...strokesOf(line('HENH', { at, align, height: 5 }))),
    );
    expect(start?.minX).toBeCloseTo(7, 9);
    expect(end?.maxX).toBeCloseTo(7, 9);
    expect(((middle?.minX ?? 0) + (middle?.maxX ?? 0)) / 2).toBeCloseTo(7, 9);
    expect(start?.minY).toBeCloseTo(-3, 9);
  });

  test('turns counter-clockwise about its point', () => {
    const box = extents(...strokesOf(line('HH', { angle: Math.PI / 2, height: 12 })));
    // Reads upward: its length lies along +y, its capitals reach toward −x.
    expect(box).toMatchObject({ minX: expect.closeTo(-12, 9), maxX: expect.closeTo(0, 9) });
    expect(box.minY).toBeCloseTo(0, 9);
    expect(box.maxY).toBeCloseTo(textWidth('HH', 12), 9);
  });

  test('is nothing when there is nothing to say', () => {
    expect(strokesOf(line(''))).toEqual([]);
    expect(textWidth('', 3)).toBe(0);
    expect(strokesOf(line('   '))).toEqual([]);
  });

  test('a word is longer than its parts by one gap', () => {
    expect(textWidth('ab', 12)).toBeCloseTo(textWidth('a', 12) + 3 + textWidth('b', 12), 9);
  });
});

type Piece = Path['segments'][number];

const headingAtStart = (one: Piece): Point => heading(one, one.from);
const headingAtEnd = (one: Piece): Point => heading(one, one.to);

function heading(one: Piece, at: Point): Point {
  if (one.kind === 'line') return { x: one.to.x - one.from.x, y: one.to.y - one.from.y };
  const out = { x: at.x - one.center.x, y: at.y - one.center.y };
  return one.ccw ? { x: -out.y, y: out.x } : { x: out.y, y: -out.x };
}

function angleBetween(a: Point, b: Point): number {
  return Math.abs(Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y));
}

/** Largest distance of a point of one letter from the other letter, both 3 mm high. */
function farthestApart(a: string, b: string): number {
  const cloud = (letter: string): readonly Point[] =>
    strokesOf(line(letter, { height: 3 })).flatMap((one) => dense(flatten(one, 0.001)));
  const [left, right] = [cloud(a), cloud(b)];
  const farthest = (from: readonly Point[], to: readonly Point[]): number =>
    Math.max(...from.map((p) => Math.min(...to.map((q) => Math.hypot(p.x - q.x, p.y - q.y)))));
  return Math.max(farthest(left, right), farthest(right, left));
}

function dense(points: readonly Point[]): readonly Point[] {
  return points.flatMap((from, i) => {
    const to = points[i + 1] ?? from;
    return Array.from({ length: 20 }, (_, k) => ({
      x: from.x + ((to.x - from.x) * k) / 20,
      y: from.y + ((to.y - from.y) * k) / 20,
    }));
  });
}
