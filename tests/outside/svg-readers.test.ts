/// <reference path="../../src/verify/files/libraries.d.ts" />

import { makeAbsolute, type PathCommand, parseSVG } from 'svg-path-parser';
import { describe, expect, test } from 'vitest';
import { closed, extentsOf } from '../../src/drawing/drawing.js';
import { type Drawing, layers } from '../../src/drawing/model.js';
import { circle, outlineFromBulges } from '../../src/geometry/outline.js';
import type { Outline, Segment } from '../../src/geometry/types.js';
import { svgWriter } from '../../src/writers/svg.js';
import { firstAtHand, output, testWith } from '../drawing/at-hand.js';
import { colours, comb, plate, screwHole, slots } from '../drawing/fixture.js';

/**
 * SVG read back by the svg-path-parser package, by Python's XML reader (expat) and by arithmetic of this file:
 * arcs to centers as SVG 1.1, appendix F.6.5 and F.6.6, has it.
 */

const written = (drawing: Drawing): string => String(svgWriter.write(drawing, { colours }));

/** Every path of a layer in the drawing's own axes: y up. */
function readBack(svg: string, layer: string): readonly (readonly Piece[])[] {
  const group = new RegExp(`<g id="${layer}">([\\s\\S]*?)</g>`).exec(svg)?.[1] ?? '';
  return [...group.matchAll(/ d="([^"]*)"/g)].map(([, d = '']) => piecesOf(makeAbsolute(parseSVG(d))));
}

interface Piece {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly arc?: {
    readonly center: readonly [number, number];
    readonly radius: number;
    readonly ccw: boolean;
  };
}

function piecesOf(commands: readonly PathCommand[]): readonly Piece[] {
  return (
    commands
      // A Z after an arc goes nowhere: the arc came back to the start.
      .filter(({ code, x0, y0, x, y }) => code !== 'M' && !(code === 'Z' && x === x0 && y === y0))
      .map((one): Piece => {
        const from = [one.x0, -one.y0] as const;
        const to = [one.x, -one.y] as const;
        return one.code === 'A' ? { from, to, arc: centerOf(one) } : { from, to };
      })
  );
}

/** SVG 1.1, F.6.5 for circles: the center stands off the middle of the chord, to the side that the flags say. */
function centerOf({ x0, y0, x, y, rx = 0, largeArc, sweep }: PathCommand): NonNullable<Piece['arc']> {
  const [halfX, halfY] = [(x0 - x) / 2, (y0 - y) / 2];
  const half = Math.hypot(halfX, halfY);
  // F.6.6: a radius too small for the chord is scaled up to it.
  const radius = Math.max(rx, half);
  const off = Math.sqrt(Math.max(0, radius * radius - half * half)) / half;
  const side = largeArc === sweep ? -1 : 1;
  const center = [(x0 + x) / 2 + side * off * halfY, (y0 + y) / 2 - side * off * halfX] as const;
  // sweep 1 is clockwise to the eye, whose y runs down: counter-clockwise is 0.
  return { center: [center[0], -center[1]], radius, ccw: !sweep };
}

function expectSame(read: readonly Piece[] | undefined, outline: Outline): void {
  // Files may start elsewhere on an outline: turn the read one round to the same start.
  const start = outline.segments[0]?.from ?? { x: Number.NaN, y: Number.NaN };
  const at = (read ?? []).findIndex(({ from }) => Math.hypot(from[0] - start.x, from[1] - start.y) < 1e-5);
  const pieces = [...(read ?? []).slice(at), ...(read ?? []).slice(0, at)];
  expect(at).toBeGreaterThanOrEqual(0);
  expect(pieces).toHaveLength(outline.segments.length);
  pieces.forEach((one, i) => {
    expectSamePiece(one, outline.segments[i]);
  });
}

function expectSamePiece(read: Piece, drawn: Segment | undefined): void {
  expect(
    Math.hypot(read.from[0] - (drawn?.from.x ?? Number.NaN), read.from[1] - (drawn?.from.y ?? 0)),
  ).toBeLessThan(1e-6);
  expect(Math.hypot(read.to[0] - (drawn?.to.x ?? Number.NaN), read.to[1] - (drawn?.to.y ?? 0))).toBeLessThan(
    1e-6,
  );
  if (drawn?.kind !== 'arc') {
    expect(read.arc).toBeUndefined();
    return;
  }
  expect(read.arc?.ccw).toBe(drawn.ccw);
  expect(Math.abs((read.arc?.radius ?? 0) - drawn.radius)).toBeLessThan(2e-6);
  const [x, y] = read.arc?.center ?? [Number.NaN, 0];
  // Far under the 0.001 mm that a template's slots are looked for with.
  expect(Math.hypot(x - drawn.center.x, y - drawn.center.y)).toBeLessThan(1e-4);
}

describe('svg-path-parser reads', () => {
  const svg = written(plate);
  const cut = readBack(svg, 'CUT');

  test('the outline and the hole, pieces, centers, directions', () => {
    expect(cut).toHaveLength(2);
    expectSame(cut[1], comb);
    expectSame(cut[0], screwHole);
  });

  test('the roots of the slots where they were put, to 0.00001 mm', () => {
    const roots = (cut[1] ?? []).flatMap(({ arc }) => (arc && !arc.ccw ? [arc] : []));
    expect(roots).toHaveLength(slots.length);
    slots.forEach(({ from, to, depth }, i) => {
      const root = roots[i];
      expect(Math.abs((root?.center[0] ?? 0) - (from + to) / 2)).toBeLessThan(1e-5);
      expect(Math.abs((root?.center[1] ?? 0) + (root?.radius ?? 0) - (-20 + depth))).toBeLessThan(1e-5);
    });
  });

  test('closed paths that end where they began, on CUT and STOCK', () => {
    for (const pieces of [...cut, ...readBack(svg, 'STOCK')]) {
      expect(pieces.length).toBeGreaterThan(1);
      expect(pieces.at(-1)?.to).toEqual(pieces[0]?.from);
    }
  });

  test('on every layer, nothing outside the extents of the layer', () => {
    for (const layer of layers) {
      const box = extentsOf(plate, [layer]);
      const points = readBack(svg, layer)
        .flat()
        .flatMap(({ from, to }) => [from, to]);
      expect(points.length).toBeGreaterThan(0);
      for (const [x, y] of points) {
        expect(x).toBeGreaterThan((box?.minX ?? 0) - 1e-6);
        expect(x).toBeLessThan((box?.maxX ?? 0) + 1e-6);
        expect(y).toBeGreaterThan((box?.minY ?? 0) - 1e-6);
        expect(y).toBeLessThan((box?.maxY ?? 0) + 1e-6);
      }
    }
  });

  test('half circles with odd radii and places: their centers are not lost to rounding', () => {
    // A center hangs on √(radius² − half chord²); written carelessly it moves by some 0.003 mm.
    for (let i = 1; i < 200; i++) {
      const ring = circle({ x: i / 7, y: -i / 3 }, i / 9);
      const [half, other] =
        readBack(written({ title: '', notes: [], items: [closed('CUT', ring)] }), 'CUT')[0] ?? [];
      for (const one of [half, other]) {
        const [x, y] = one?.arc?.center ?? [Number.NaN, 0];
        expect(Math.hypot(x - i / 7, y + i / 3)).toBeLessThan(2e-6);
        expect(Math.abs((one?.arc?.radius ?? 0) - i / 9)).toBeLessThan(2e-6);
      }
    }
  });

  test.each([0.9, 0.99, 0.999, 0.99999, 1.00001, 1.001, 1.01, 1.1])(
    'an arc of bulge %d, whose center is nearly on its chord',
    (bulge) => {
      const sector = outlineFromBulges([
        { x: 1 / 3, y: 0, bulge },
        { x: 17 / 3, y: 22 / 7 },
        { x: -5, y: 9 },
      ]);
      const arcs = readBack(
        written({ title: '', notes: [], items: [closed('CUT', sector)] }),
        'CUT',
      )[0]?.filter(({ arc }) => arc);
      const drawn = sector.segments[0];
      expect(arcs?.length).toBeGreaterThan(0);
      for (const one of arcs ?? []) {
        const [x, y] = one.arc?.center ?? [Number.NaN, 0];
        if (drawn?.kind === 'arc')
          expect(Math.hypot(x - drawn.center.x, y - drawn.center.y)).toBeLessThan(2e-4);
      }
    },
  );
});

describe('an XML reader', () => {
  const python = firstAtHand(['python3', '/usr/bin/python3'], '-c', 'import xml.etree.ElementTree');
  const script = [
    'import sys, json, xml.etree.ElementTree as E',
    'root = E.fromstring(sys.stdin.buffer.read())',
    'name = lambda e: e.tag.split("}")[1]',
    'print(json.dumps({"root": root.tag, "title": root.find("{*}title").text, "desc": root.find("{*}desc").text,',
    '  "groups": [[g.get("id"), len(g)] for g in root if name(g) == "g"]}))',
  ].join('\n');

  testWith('python3', python, 'finds the files well formed, with the words as they were given', (program) => {
    const title = 'a < b & "c" \' > ]]> 漢';
    const read = JSON.parse(
      output(program, ['-c', script], written({ ...plate, title })).toString(),
    ) as Record<string, unknown>;
    expect(read.root).toBe('{http://www.w3.org/2000/svg}svg');
    expect(read.title).toBe(title);
    expect(read.desc).toBe(plate.notes.join('\n'));
    expect(read.groups).toContainEqual(['CUT', 2]);
  });
});
