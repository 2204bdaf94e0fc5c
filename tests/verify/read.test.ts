import { expect, test } from 'vitest';
import type { Result } from '../../src/diagnostics/diagnostic.js';
import { area, evenOdd, extents } from '../../src/verify/cut/polygons.js';
import { FILE_ARC_TOLERANCE } from '../../src/verify/files/flatten.js';
import { readDxf, readSvg, type WrittenDrawing } from '../../src/verify/files/read.js';
import { dxfText, type HandTemplate, svgText } from '../support/hand-templates.js';
import { settled } from '../support/hand-testcut.js';

const stock: HandTemplate['stock'] = [
  [
    { x: 0, y: -10 },
    { x: 80, y: -10 },
    { x: 80, y: 0 },
    { x: 0, y: 0 },
  ],
];

/** A stadium 40 by 20 with semicircles of radius 10, and a square hole of 4 in it; nothing alike in x and y. */
const stadium: HandTemplate = {
  cut: [
    [
      { x: 10, y: 0 },
      { x: 50, y: 0, bulge: 1 },
      { x: 50, y: 20 },
      { x: 10, y: 20, bulge: 1 },
    ],
    [
      { x: 12, y: 3 },
      { x: 12, y: 7 },
      { x: 16, y: 7 },
      { x: 16, y: 3 },
    ],
  ],
  stock,
};

const stadiumArea = 40 * 20 + Math.PI * 100 - 16;

function plate(drawing: WrittenDrawing) {
  return evenOdd(drawing.layers.CUT ?? []);
}

/** Chords inside a curve of this length leave out at most 2/3 of their tolerance times the length. */
function leftOut(length: number): number {
  return (2 / 3) * FILE_ARC_TOLERANCE * length + 1e-4;
}

function codes(result: Result<WrittenDrawing>) {
  return result.diagnostics.map(({ code }) => code);
}

test.each([
  ['DXF in mm', () => readDxf('a.dxf', dxfText(stadium))],
  ['DXF in inches', () => readDxf('a.dxf', dxfText(stadium, { units: 1 }))],
  ['SVG', () => readSvg('a.svg', svgText(stadium))],
])('a plate of lines and arcs has its area and its place: %s', (_, read) => {
  const drawing = settled(read());
  const rings = plate(drawing);
  expect(stadiumArea - area(rings)).toBeGreaterThan(-1e-4);
  expect(stadiumArea - area(rings)).toBeLessThan(leftOut(20 * Math.PI));
  const box = extents(rings);
  expect(box.minX).toBeCloseTo(0, 3);
  expect(box.maxX).toBeCloseTo(60, 3);
  expect(box.minY).toBeCloseTo(0, 5);
  expect(box.maxY).toBeCloseTo(20, 5);
  expect(extents(drawing.layers.STOCK ?? []).maxX).toBeCloseTo(80, 5);
});

/** DXF text with the entities given, in mm, a board on STOCK. */
function dxfOf(...entities: readonly (string | number)[]): string {
  const board = ['0', 'POLYLINE', 8, 'STOCK', 66, 1, 70, 1];
  for (const [x, y] of [
    [0, -10],
    [80, -10],
    [80, 0],
    [0, 0],
  ] as const) {
    board.push(0, 'VERTEX', 8, 'STOCK', 10, x, 20, y);
  }
  board.push(0, 'SEQEND');
  return [
    ...[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, 4, 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
    ...board,
    ...entities,
    ...[0, 'ENDSEC', 0, 'EOF', ''],
  ].join('\n');
}

const line = (x1: number, y1: number, x2: number, y2: number) =>
  [0, 'LINE', 8, 'CUT', 10, x1, 20, y1, 11, x2, 21, y2] as const;
const arc = (x: number, y: number, radius: number, from: number, to: number) =>
  [0, 'ARC', 8, 'CUT', 10, x, 20, y, 40, radius, 50, from, 51, to] as const;

test('loose lines and arcs are joined, whichever way they run', () => {
  const text = dxfOf(
    ...line(10, 0, 50, 0),
    ...line(10, 20, 50, 20),
    ...arc(50, 10, 10, 270, 90),
    ...arc(10, 10, 10, 90, 270),
  );
  const rings = plate(settled(readDxf('loose.dxf', text)));
  expect(rings).toHaveLength(1);
  expect(Math.abs(area(rings) - (800 + Math.PI * 100))).toBeLessThan(leftOut(20 * Math.PI));
});

test('a circle is a contour of its own', () => {
  const rings = plate(settled(readDxf('c.dxf', dxfOf(0, 'CIRCLE', 8, 'CUT', 10, 5, 20, 6, 40, 3))));
  expect(Math.abs(area(rings) - 9 * Math.PI)).toBeLessThan(leftOut(6 * Math.PI));
});

test('R12 polylines carry bulges on their vertices', () => {
  const vertex = (x: number, y: number, bulge: number) =>
    [0, 'VERTEX', 8, 'CUT', 10, x, 20, y, 42, bulge] as const;
  const text = dxfOf(
    ...[0, 'POLYLINE', 8, 'CUT', 66, 1, 70, 1],
    ...vertex(0, 0, 1),
    ...vertex(10, 0, 1),
    ...[0, 'SEQEND'],
  );
  const rings = plate(settled(readDxf('r12.dxf', text)));
  expect(Math.abs(area(rings) - 25 * Math.PI)).toBeLessThan(leftOut(10 * Math.PI));
});

test('an open contour is refused with the way its ends stand apart', () => {
  const result = readDxf('open.dxf', dxfOf(...line(0, 0, 30, 0), ...line(30, 0, 30, 40)));
  expect(result.ok).toBe(false);
  expect(result.diagnostics).toMatchObject([{ code: 'contour-open', at: 'open.dxf', data: { apart: 50 } }]);
});

test.each([
  ['no $INSUNITS', () => readDxf('a.dxf', dxfText(stadium, { units: undefined })), 'drawing-units'],
  [
    'a polyline not closed',
    () => readDxf('a.dxf', dxfText(stadium, { units: 4, closed: false })),
    'contour-open',
  ],
  ['nothing on CUT', () => readDxf('a.dxf', dxfText({ ...stadium, cut: [] })), 'layer-empty'],
  ['empty text', () => readDxf('a.dxf', ''), 'drawing-unreadable'],
  ['not DXF', () => readDxf('a.dxf', 'hello\nthere\n'), 'drawing-unreadable'],
  ['no SVG', () => readSvg('a.svg', 'hello'), 'drawing-unreadable'],
  [
    'a transform that can’t be worked out',
    () => readSvg('a.svg', svgText(stadium).replace('<path', '<path transform="turn(2)"')),
    'drawing-unread',
  ],
  [
    'a width without a number',
    () => readSvg('a.svg', svgText(stadium).replace('400mm', 'auto')),
    'drawing-units',
  ],
  ['scales that differ', () => readSvg('a.svg', svgText(stadium).replace('400mm', '410mm')), 'drawing-units'],
  [
    'a broken path',
    () => readSvg('a.svg', svgText(stadium).replace(' d="M', ' d="MM')),
    'drawing-unreadable',
  ],
  ['a path left open', () => readSvg('a.svg', svgText(stadium).replaceAll('Z"', '"')), 'contour-open'],
])('a drawing that cannot be trusted is refused: %s', (_, read, code) => {
  const result = read();
  expect(result.ok).toBe(false);
  expect(codes(result)).toContain(code);
});

test('every command of an SVG path is followed, absolute and relative', () => {
  const d =
    'M0 0h10v10H0zM20 0q5 5 10 0t10 0l0 20h-20zM50 0C50 5 60 5 60 0s10-5 10 0V20H50zM80,0a5 5 0 1 110 0z';
  const text = `<svg width="200mm" height="100mm" viewBox="0 0 200 100"><g id="STOCK"><path d="M0 0H9V9Z"/></g><g id="CUT"><path d="${d}"/></g></svg>`;
  const rings = settled(readSvg('path.svg', text)).layers.CUT ?? [];
  const areas = rings.map((ring) => Math.abs(area([ring])));
  // By Green's theorem: a quadratic arch of height h over a base c has 2/3·c·h, here ± 2/3·10·2.5; the cubic ones too cancel.
  expect(areas[0]).toBeCloseTo(100, 4);
  expect(areas[1]).toBeCloseTo(400, 2);
  expect(areas[2]).toBeCloseTo(400, 2);
  expect(Math.abs((areas[3] ?? 0) - (25 * Math.PI) / 2)).toBeLessThan(leftOut(5 * Math.PI));
});
