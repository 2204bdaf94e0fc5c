import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { turn } from '../../src/geometry/point.js';
import { distanceToSegment, pointAt, tangentAt } from '../../src/geometry/segment.js';
import { readSvgPath } from '../../src/geometry/svg/path.js';
import type { Point, Segment } from '../../src/geometry/types.js';
import { readLine } from '../../src/joints/edge/path.js';
import { browserAt, launch } from '../page/browser.js';

/**
 * Joint lines as a browser has them: SVGGeometryElement's getPointAtLength and getScreenCTM (SVG 2, 4.2 and
 * section 9) in Chromium share no code with halfpin's reader, its fit of arcs or its transforms.
 */

/** What the job file's users are promised, mm; the browser's own coordinates are single precision. */
const PROMISED = 0.005;
const SINGLE = 0.0005;

/**
 * The browser draws a part of an ellipse as cubics, which stand up to 2.73e-4 of a circle's radius outside it for
 * a quarter turn (known widely, cited from memory): halfpin's true arcs are nearer than what they are held to.
 */
const AS_CUBIC = 2.73e-4;

const PX = 25.4 / 96;
const COUNT = 400;

interface Drawn {
  readonly points: readonly Point[];
}

/** Points along the element `line` of a document, in mm of the page, y down as on the page. */
async function drawnBy(browser: Browser, svg: string): Promise<Drawn> {
  const page = await browser.newPage();
  await page.setContent(`<!DOCTYPE html><body style="margin:0">${svg}</body>`);
  // Text, as the browser's own types are not those of the tests.
  const points = await page.evaluate<readonly Point[]>(`(() => {
    const element = document.getElementById('line');
    const { a, b, c, d, e, f } = element.getScreenCTM();
    const length = element.getTotalLength();
    return Array.from({ length: ${COUNT} + 1 }, (_, i) => {
      const { x, y } = element.getPointAtLength((length * i) / ${COUNT});
      return { x: a * x + c * y + e, y: b * x + d * y + f };
    });
  })()`);
  await page.close();
  return { points: points.map(({ x, y }) => ({ x: x * PX, y: y * PX })) };
}

const off = (p: Point, segments: readonly Segment[]): number =>
  Math.min(...segments.map((one) => distanceToSegment(p, one)));

/** How far the polyline of the browser's points may lie from the curve between two of them: s²κ/8. */
function between(points: readonly Point[], p: Point): number {
  return points.slice(1).reduce((least, to, i) => {
    const from = points[i] ?? to;
    return Math.min(least, distanceToSegment(p, { kind: 'line', from, to }));
  }, Infinity);
}

let browser: Browser | undefined;
beforeAll(async () => {
  browser = browserAt === undefined ? undefined : await launch({ solids: false });
});
afterAll(() => browser?.close());

const inBrowser = browserAt === undefined ? test.skip : test;
if (browserAt === undefined) console.warn('NOT CHECKED, no Chromium is at hand: joint lines in a browser');

/**
 * The examples of SVG 2, sections 9.3.3 to 9.3.9, each open; numbers as printed there, cited from memory. Last the
 * largest half diameter of their ellipses, px.
 */
const printed: readonly (readonly [string, string, number?])[] = [
  ['triangle01 without its Z', 'M 100 100 L 300 100 L 200 300'],
  ['pairs after L', 'M 100 200 L 200 100 -100 -200'],
  ['no blanks that can be left out', 'M100 100L200 200'],
  ['no blank before a sign', 'M100-200L10-20'],
  ['a second point begins a second number', 'M 0.6.5L.9.25'],
  ['cubic01', 'M100,200 C100,100 250,100 250,200 S400,300 400,200'],
  ['cubic02, first', 'M100,200 C100,100 400,100 400,200'],
  ['cubic02, second', 'M100,500 C25,400 475,400 400,500'],
  ['cubic02, third', 'M100,800 C175,700 325,700 400,800'],
  ['cubic02, fourth', 'M600,200 C675,100 975,100 900,200'],
  ['cubic02, fifth', 'M600,500 C600,350 900,650 900,500'],
  ['cubic02, sixth', 'M600,800 C625,700 725,700 750,800 S875,900 900,800'],
  ['quad01', 'M200,300 Q400,50 600,300 T1000,300'],
  ['arcs01, a pie without its Z', 'M300,200 h-150 a150,150 0 1,0 150,-150', 150],
  [
    'arcs01, ever taller ellipses',
    'M600,350 l 50,-25 a25,25 -30 0,1 50,-25 l 50,-25 a25,50 -30 0,1 50,-25 l 50,-25 a25,75 -30 0,1 50,-25 l 50,-25 a25,100 -30 0,1 50,-25 l 50,-25',
    100,
  ],
  ['arcs02, large and the other way', 'M 125,75 a100,50 0 1,1 100,50', 100],
  ['flags without separators, exponents', 'm1e1,.2e+2a25 50-30 0150-25c1e1-1e1 20-1e1 3e1 0t20 5', 50],
];

const examples = printed.map(([name, d, radius = 0]) => [name, d, radius] as const);

describe('path data', () => {
  inBrowser.each(examples)('of SVG 2: %s', async (_, d, radius) => {
    if (!browser) throw new Error('no browser');
    const svg = `<svg width="1200" height="1000" style="overflow:visible"><path id="line" d="${d}"/></svg>`;
    const { points } = await drawnBy(browser, svg);
    const read = readSvgPath(d, [PX, 0, 0, PX, 0, 0]);
    const [path] = read.ok ? read.subpaths : [];
    const segments = path?.path.segments ?? [];
    const allowed = PROMISED + SINGLE + AS_CUBIC * radius * PX;
    for (const p of points) expect(off(p, segments)).toBeLessThan(allowed);
    // And nothing more is drawn than there is: chords of 400 pieces lie near the line, too.
    for (const one of segments) expect(between(points, pointAt(one, 0.5))).toBeLessThan(0.4);
  });

  test.each(examples.filter(([name]) => /cubic|quad/.test(name)))(
    'is as smooth as it was drawn: %s',
    (_, d) => {
      const read = readSvgPath(d, [PX, 0, 0, PX, 0, 0]);
      const segments = read.ok ? (read.subpaths[0]?.path.segments ?? []) : [];
      expect(segments.length).toBeGreaterThan(3);
      for (const [i, next] of segments.slice(1).entries()) {
        const before = segments[i];
        if (before) expect(Math.abs(turn(tangentAt(before, 1), tangentAt(next, 0)))).toBeLessThan(1e-6);
      }
    },
  );
});

/** Its ellipse has a half diameter of 10 units, and no unit is over 1.3 mm. */
const ROUND = AS_CUBIC * 13;
const wave = 'M 2 20 C 12 20 16 6 28 6 Q 38 6 48 20 T 68 20 A 10 6 15 0 0 88 20 L 95 22';
const path = (attributes = '') => `<path id="line" ${attributes} d="${wave}"/>`;
const svgOf = (attributes: string, body: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;

describe('documents', () => {
  inBrowser.each([
    ['mm', svgOf('width="100mm" height="40mm" viewBox="0 0 100 40"', path())],
    ['in', svgOf('width="4in" height="1.6in" viewBox="0 0 100 40"', path())],
    ['cm', svgOf('width="10cm" height="4cm" viewBox="0 0 100 40"', path())],
    ['pt', svgOf('width="300pt" height="120pt" viewBox="0 0 100 40"', path())],
    ['pc', svgOf('width="25pc" height="10pc" viewBox="0 0 100 40"', path())],
    ['Q', svgOf('width="400Q" height="160Q" viewBox="0 0 100 40"', path())],
    ['px', svgOf('width="500px" height="200px" viewBox="0 0 100 40"', path())],
    ['no unit', svgOf('width="500" height="200"', path())],
    ['a viewBox that begins elsewhere', svgOf('width="100mm" height="40mm" viewBox="-7 3 80 32"', path())],
    [
      'a viewBox of another shape, squeezed',
      svgOf('width="100mm" height="60mm" viewBox="0 0 100 40" preserveAspectRatio="none"', path()),
    ],
    [
      'a viewBox of another shape, whole',
      svgOf('width="100mm" height="60mm" viewBox="0 0 100 40" preserveAspectRatio="xMinYMin"', path()),
    ],
    [
      'every kind of transform, one in another',
      svgOf(
        'width="100mm" height="40mm" viewBox="0 0 100 40"',
        `<g transform="translate(3,-2) rotate(-4)"><g transform="matrix(.9 .05 -.1 1.1 2 1) skewX(6)"><g transform="skewY(-3)scale(1.1 .8)">${path('transform="rotate(3 40 20), translate(1)"')}</g></g></g>`,
      ),
    ],
    [
      'an svg in an svg',
      svgOf(
        'width="100mm" height="40mm" viewBox="0 0 100 40"',
        `<svg x="5" y="4" width="80" height="32" viewBox="0 0 100 40">${path()}</svg>`,
      ),
    ],
  ])('are read in %s', async (_, svg) => {
    if (!browser) throw new Error('no browser');
    const { points } = await drawnBy(browser, svg);
    const read = readLine({ svg: { path: 'wave.svg', text: svg }, id: 'line', lead: 0 }, 'line');
    if (!read.ok) throw new Error(JSON.stringify(read.diagnostics));
    // The page's y runs down; a joint line's runs up.
    for (const { x, y } of points) {
      expect(off({ x, y: -y }, read.value.path.segments)).toBeLessThan(PROMISED + SINGLE + ROUND);
    }
  });
});
