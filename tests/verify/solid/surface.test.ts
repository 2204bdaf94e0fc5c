import { describe, expect, test } from 'vitest';
import type { Solid, Vertex } from '../../../src/geometry/solid.js';
import { families } from '../../../src/joints/list.js';
import type { TestCutBoard } from '../../../src/verify/assemble.js';
import { evenOdd, extents, type Polygons, union } from '../../../src/verify/cut/polygons.js';
import { boardLeft, centresAtStops, radiusAt } from '../../../src/verify/cut/route.js';
import { type SolidJoint, solidOrThrow } from '../../support/solid-joint.js';

/**
 * Every triangle of a board has wood behind it and air before it, by a slice through the board at that height. So
 * there are no skins left standing, no walls in the wrong place and no face turned inside out.
 */

const starter = (kind: string): string => families.find((one) => one.kind === kind)?.starter ?? '';
/** Narrow: a few tails show what a whole drawer shows. */
const halfBlind = starter('half-blind-dovetail').replace('width: 4-1/2', 'width: 2-1/2');

/** How far from a triangle wood and air are looked for, mm: past what facets and rounding may stray. */
const ASIDE = 0.01;

/**
 * Triangles that hold no circle of this radius, mm, are not asked: strips along an edge so narrow that a step of
 * `ASIDE` behind a face of theirs comes out at the wall beside it, which leans by the bit's angle.
 */
const NARROW = 0.01;

/** What is asked of each board's surface at least, as a share of its area. */
const ASKED = 0.99;

describe.each([
  ['through-dovetail', starter('through-dovetail')],
  ['box', starter('box')],
  ['edge', starter('edge')],
  ['half-blind, together', halfBlind],
  ['half-blind, apart', halfBlind.replace('method: together', 'method: apart')],
])('boards as cut: %s', (_, text) => {
  test('each triangle has wood behind it and air before it', async () => {
    const joint = await solidOrThrow(text);
    for (const { board, laid } of joint.solid.boards) {
      const cut = joint.request.boards.find((one) => one.board === board);
      if (!cut) throw new Error(`no cut of ${board}`);
      const isFlat = cut.drawing.layers.STOCK !== undefined && extents(cut.drawing.layers.STOCK).minY > -1e-6;
      const wood = woodOf(cut, joint, isFlat);
      const all = facesOf(laid, (spot) => inTemplate(spot, cut, joint, isFlat));
      const faces = all.filter(({ inside }) => inside > NARROW);
      expect(faces.length).toBeGreaterThan(20);
      expect(areaOf(faces) / areaOf(all)).toBeGreaterThan(ASKED);
      for (const { middle, normal } of faces) {
        expect({ middle, wood: wood(along(middle, normal, -ASIDE)) }).toEqual({ middle, wood: true });
        expect({ middle, wood: wood(along(middle, normal, ASIDE)) }).toEqual({ middle, wood: false });
      }
    }
  });
});

const thicknessOf = ({ board }: TestCutBoard, { written }: SolidJoint): number =>
  written.outcome.made?.solved.markings.find((one) => one.board === board)?.material.thickness ?? Number.NaN;

/** A laid board's spot in the coordinates of its template: x, y and the height above the bit's tip. */
function inTemplate([x, y, z]: Vertex, cut: TestCutBoard, joint: SolidJoint, isFlat: boolean): Vertex {
  return isFlat ? [x, y, z - thicknessOf(cut, joint) + cut.depth] : [x, -z, y];
}

/** Whether there is wood at a spot, by the slice at its height. */
function woodOf(cut: TestCutBoard, joint: SolidJoint, isFlat: boolean): (spot: Vertex) => boolean {
  const stock = union(evenOdd(cut.drawing.layers.STOCK ?? []));
  const plate = evenOdd(cut.drawing.layers.CUT ?? []);
  const centres = centresAtStops(
    plate,
    stock,
    cut.bushing,
    cut.cutter.diameter / 2,
    cut.stops ?? { at: [0] },
  );
  const slices = new Map<string, Polygons>();
  const sliceAt = (height: number): Polygons => {
    const key = height.toFixed(4);
    const known = slices.get(key) ?? (height <= 0 ? stock : boardLeft(centres, radiusAt(cut.cutter, height)));
    slices.set(key, known);
    return known;
  };
  const bottom = isFlat ? cut.depth - thicknessOf(cut, joint) : cut.depth - 50 - cut.depth;
  // A board that lies flat is drawn as far as the template reaches, and goes on behind it.
  const far = isFlat ? extents(stock).maxY - 1e-6 : Number.POSITIVE_INFINITY;
  return ([x, y, height]) =>
    height > bottom &&
    height < cut.depth &&
    (y > far ? isWithin(stock, x, far) && y < 50 : isWithin(sliceAt(height), x, y));
}

function isWithin(polygons: Polygons, x: number, y: number): boolean {
  let inside = false;
  for (const ring of polygons) {
    let from = ring.at(-1);
    for (const to of ring) {
      if (
        from &&
        from.y > y !== to.y > y &&
        x < from.x + ((y - from.y) / (to.y - from.y)) * (to.x - from.x)
      ) {
        inside = !inside;
      }
      from = to;
    }
  }
  return inside;
}

/** A triangle's middle is that of the largest circle in it, whose radius is `inside`. */
interface Face {
  readonly middle: Vertex;
  readonly normal: Vertex;
  readonly area: number;
  readonly inside: number;
}

function facesOf({ vertices, triangles }: Solid, placed: (spot: Vertex) => Vertex): readonly Face[] {
  return triangles.flatMap((corners) => {
    const [a, b, c] = corners.map((i) => placed(vertices[i] ?? [Number.NaN, Number.NaN, Number.NaN]));
    if (!a || !b || !c) return [];
    const [u, v] = [minus(b, a), minus(c, a)];
    const cross: Vertex = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const twice = Math.hypot(...cross);
    const sides = [minus(c, b), v, u].map((side) => Math.hypot(...side));
    const around = sides.reduce((sum, side) => sum + side, 0);
    const weighted = [a, b, c].map((corner, i) => along([0, 0, 0], corner, (sides[i] ?? 0) / around));
    const middle = weighted.reduce((sum, one) => along(sum, one, 1), [0, 0, 0] as Vertex);
    const normal: Vertex = [cross[0] / twice, cross[1] / twice, cross[2] / twice];
    return [{ middle, normal, area: twice / 2, inside: twice / around }];
  });
}

const areaOf = (faces: readonly Face[]): number => faces.reduce((sum, { area }) => sum + area, 0);

const minus = (one: Vertex, two: Vertex): Vertex => [one[0] - two[0], one[1] - two[1], one[2] - two[2]];

const along = (at: Vertex, way: Vertex, by: number): Vertex => [
  at[0] + way[0] * by,
  at[1] + way[1] * by,
  at[2] + way[2] * by,
];
