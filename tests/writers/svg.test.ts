import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Drawing } from '../../src/drawing/model.js';
import { arc } from '../../src/geometry/segment.js';
import { bezierPieces } from '../../src/geometry/svg/bezier.js';
import { decimal } from '../../src/units/decimal.js';
import { pictureWriter } from '../../src/writers/picture.js';
import { type SvgOptions, svgWriter } from '../../src/writers/svg.js';
import { colours, plate, small } from '../drawing/fixture.js';

const written = (drawing: Drawing, options: Partial<SvgOptions> = {}): string =>
  String(svgWriter.write(drawing, { colours, ...options }));

const pathsOf = (svg: string): readonly string[] => [...svg.matchAll(/ d="([^"]*)"/g)].map(([, d = '']) => d);

describe('an SVG for a machine', () => {
  const svg = written(plate);

  test('says millimetres and one unit a millimetre', () => {
    const [, width, height, box = ''] =
      /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(svg) ?? [];
    const [x, y, across, down] = box.split(' ');
    expect([across, down]).toEqual([width, height]);
    // The comb reaches from −12.5 to 80 and from −20 to 40, y turned over; nothing else reaches further.
    expect([x, y, across, down]).toEqual(['-12.5', '-40', '92.5', '60']);
  });

  test('is flat and plain: one contour a path, no transforms, styles, classes, clips, uses or font text', () => {
    expect(svg).not.toMatch(/transform|style|class=|clip|<use|<text|<defs|<symbol|font/i);
    for (const d of pathsOf(svg)) expect(d.match(/M/g)).toHaveLength(1);
    const elements = [...svg.matchAll(/<(\w+)/g)].map(([, name]) => name);
    expect(new Set(elements)).toEqual(new Set(['svg', 'title', 'desc', 'g', 'path']));
  });

  test('has one group a layer, each path in the colour of its layer and unfilled', () => {
    const groups = [...svg.matchAll(/<g id="(\w+)">([\s\S]*?)<\/g>/g)];
    expect(groups.map(([, id]) => id)).toEqual(['ENGRAVE', 'SCORE', 'CUT', 'REF', 'STOCK']);
    for (const [, id, inside = ''] of groups) {
      const lines = inside.trim().split('\n');
      for (const one of lines) {
        expect(one).toContain(
          `fill="none" stroke="${colours[id as keyof typeof colours]}" stroke-width="0.1"`,
        );
      }
    }
  });

  test('closes every outline with Z and names no point twice in a row', () => {
    const cut = pathsOf(svg.slice(svg.indexOf('id="CUT"'), svg.indexOf('id="REF"')));
    expect(cut).toHaveLength(2);
    for (const d of pathsOf(svg)) {
      const points = d
        .replace(/A[\d.]+ [\d.]+ 0 [01] [01] /g, 'L')
        .replace(/[MZ]/g, '')
        .split('L');
      for (const [i, one] of points.entries()) expect(one).not.toBe(points[i + 1]);
    }
    const [hole = '', outline = ''] = cut;
    expect(outline).toMatch(/Z$/);
    // The outline ends at another point than it starts with: Z draws the last line.
    expect(outline.match(/^M([-\d. ]+)L/)?.[1]).not.toBe(outline.match(/([-\d.]+ [-\d.]+)Z$/)?.[1]);
    expect(hole).toBe('M-1.75 -31A2.25 2.25 0 0 1 -6.25 -31A2.25 2.25 0 0 1 -1.75 -31Z');
  });

  test('dashes what is dashed and nothing else', () => {
    expect(svg.match(/stroke-dasharray/g)).toHaveLength(1);
    expect(svg.slice(svg.indexOf('id="REF"'))).toContain(
      'M5 -5L5 -36" fill="none" stroke="#009E73" stroke-width="0.1" stroke-dasharray="3 1.5"',
    );
  });

  test('carries title and notes, escaped', () => {
    expect(svg).toContain('<title>Specimen cabinet: tray-corner, finger template, tails</title>');
    expect(svg).toContain('Bit 8° &amp; bushing &lt;7/16 in&gt;.');
  });

  test('has the same bytes every time', () => {
    expect(written(plate)).toBe(svg);
    written(small);
    expect(written(plate)).toBe(svg);
  });

  test('is worth nothing but a page when nothing is drawn', () => {
    expect(written({ title: '', notes: [], items: [] })).toContain(
      'width="0mm" height="0mm" viewBox="0 0 0 0"',
    );
  });
});

test('a small drawing, as it is kept', () => {
  expect(written(small)).toBe(readFileSync(new URL('golden/tab.svg', import.meta.url), 'utf8'));
});

test('XML holds any title: markup, quotes, controls, half characters', () => {
  const svg = written({ ...small, title: 'a<b>&"c"\u0000\uD800 \u{1F4D0}', notes: [']]>'] });
  expect(svg).toContain('<title>a&lt;b&gt;&amp;&quot;c&quot;\uFFFD\uFFFD \u{1F4D0}</title>');
  expect(svg).toContain('<desc>]]&gt;</desc>');
});

describe('a picture', () => {
  const svg = pictureWriter.write(plate, { colours });

  test('has a white ground with a margin, still at true scale', () => {
    expect(svg).toContain('width="100.5mm" height="68mm" viewBox="-16.5 -44 100.5 68"');
    expect(svg).toContain('<rect x="-16.5" y="-44" width="100.5" height="68" fill="#FFFFFF"/>');
  });

  test('holds the same lines as the file for the machine', () => {
    expect([...pathsOf(svg)].sort()).toEqual([...pathsOf(written(plate))].sort());
  });
});

describe('arcs as béziers', () => {
  test('no arc is left, and outlines still close', () => {
    const paths = pathsOf(written(plate, { arcs: 'beziers' }));
    expect(paths.join('')).not.toContain('A');
    expect(paths.join('')).toContain('C');
    const closing = (all: readonly string[]) => all.map((one) => one.endsWith('Z'));
    expect(closing(paths)).toEqual(closing(pathsOf(written(plate))));
    expect(closing(paths)).toContain(true);
  });

  test('stay within 0.0005 mm of any arc up to 5 m radius, ends exact, direction kept', () => {
    const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5000, noNaN: true }),
        angle,
        fc.double({ min: 0.001, max: 6.2, noNaN: true }),
        fc.boolean(),
        (radius, start, sweep, ccw) => {
          const end = ccw ? start + sweep : start - sweep;
          const at = (a: number) => ({ x: 3 + radius * Math.cos(a), y: -7 + radius * Math.sin(a) });
          const whole = arc(at(start), at(end), { x: 3, y: -7 }, ccw);
          const pieces = bezierPieces(whole);
          let from = whole.from;
          for (const [one, two, to] of pieces) {
            for (let t = 0; t <= 1; t += 1 / 16) {
              const mix = (k: 'x' | 'y'): number =>
                (1 - t) ** 3 * from[k] +
                3 * (1 - t) ** 2 * t * one[k] +
                3 * (1 - t) * t * t * two[k] +
                t ** 3 * to[k];
              expect(Math.abs(Math.hypot(mix('x') - 3, mix('y') + 7) - radius)).toBeLessThan(0.0005);
            }
            const turn = (from.x - 3) * (to.y + 7) - (from.y + 7) * (to.x - 3);
            expect(turn > 0).toBe(ccw);
            from = to;
          }
          expect(from).toEqual(whole.to);
        },
      ),
    );
  });
});

describe('numbers in files', () => {
  test.each([
    [0, '0'],
    [-0, '0'],
    [-1e-9, '0'],
    [1e-7, '0'],
    [1.5, '1.5'],
    [100, '100'],
    [-20, '-20'],
    [0.1 + 0.2, '0.3'],
    [1234567.891, '1234567.891'],
    [1e20, '100000000000000000000'],
  ])('%d is written %s', (value, text) => expect(decimal(value, 6)).toBe(text));

  test('have no exponent, no comma, no −0, and read back within half of the last digit', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        const text = decimal(value, 6);
        expect(text).toMatch(/^(?!-0$)-?(0|[1-9]\d*)(\.\d*[1-9])?$/);
        expect(Math.abs(Number(text) - value)).toBeLessThan(0.51e-6);
      }),
    );
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e21])('%d is no number for a drawing', (value) => {
    expect(() => decimal(value, 6)).toThrow('not a number');
  });
});
