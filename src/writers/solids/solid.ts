/// <reference path="./libtess.d.ts" />
import libtess from 'libtess';
import type { Drawing } from '../../drawing/model.js';
import { flatten } from '../../geometry/flatten.js';
import { offsetRegion } from '../../geometry/offset.js';
import { cross, dot, minus, plus, times, turnedLeft, unit } from '../../geometry/point.js';
import { nested, regionOf } from '../../geometry/regions/nesting.js';
import type { Solid, Vertex } from '../../geometry/solid.js';
import type { Point, Region } from '../../geometry/types.js';
import { type GrooveSize, groovesIn } from './grooves.js';

export interface SolidOptions {
  /** Thickness of the sheet, mm. */
  readonly thickness: number;
  /** How far the arris at the print bed is taken off at 45°, mm: a first layer spreads; 0 when left out. */
  readonly ease?: number;
  /** How much wider holes are made, in diameter, mm: printed ones come out narrow; 0 when left out. */
  readonly holeGrowth?: number;
  /** Set where scored lines are grooves in the upper face: how wide and how deep, mm; left out they are not there. */
  readonly grooves?: GrooveSize;
}

/** No chord leaves its arc by more than half of what is promised (0.01), mm; rounding takes a little of the rest. */
const CHORD = 0.005;

/** Vertices stand on a grid of 1e-4 mm, so that formats with few digits still hold each vertex once. */
const GRID = 1e4;

/**
 * What is cut out of the sheet (the drawing's CUT outlines) as a solid, as thick as the sheet. Undefined when
 * nothing is cut, or when the eased arris would meet another: the parts are narrower than twice the ease.
 */
export function solidOf(drawing: Drawing, options: SolidOptions): Solid | undefined {
  const outlines = drawing.items.flatMap((item) =>
    item.kind === 'closed' && item.layer === 'CUT' ? [item.outline] : [],
  );
  if (outlines.length === 0) return undefined;
  const region = withWiderHoles(regionOf(outlines), options.holeGrowth ?? 0);
  const { grooves } = options;
  return extruded(region, options, grooves && { region: groovesIn(drawing, region, grooves), ...grooves });
}

/** Pockets in the upper face, clear of every edge of what they are in. */
interface Pockets extends GrooveSize {
  readonly region: Region;
}

/** Only outlines right inside a part are holes; what lies in a hole keeps its size. */
function withWiderHoles(region: Region, growth: number): Region {
  if (growth === 0) return region;
  return nested(region).flatMap(({ outline, depth }) =>
    depth % 2 === 1 ? offsetRegion([outline], -growth / 2) : [outline],
  );
}

/** A region raised from z = 0 to the thickness, pockets left out of its top; undefined when its eased foot crosses itself. */
export function extruded(
  region: Region,
  { thickness, ease = 0 }: SolidOptions,
  pockets?: Pockets,
): Solid | undefined {
  const rings = ringsOf(region);
  const feet = ease > 0 ? rings.map((ring) => movedIn(ring, ease)) : rings;
  const levels = [{ rings: feet, z: 0 }, ...(ease > 0 ? [{ rings, z: ease }] : []), { rings, z: thickness }];
  const sunk = ringsOf(pockets?.region ?? []);
  const bottom = triangulated(feet);
  const top = triangulated([...rings, ...sunk]);
  const floor = triangulated(sunk);
  if (!bottom || !top || !floor || feet.some((foot, i) => turnsRound(foot, rings[i] ?? []))) return undefined;
  const count = rings.flat().length;
  const [above, under] = [(levels.length - 1) * count, levels.length * count];
  const deep = sunk.flat().length;
  // The vertices of pockets come after all others, at the top and then at the floor; those of the top's face follow its rings.
  const onTop = (index: number): number => above + index;
  return {
    vertices: [
      ...levels.flatMap(({ rings: level, z }) => level.flat().map((at) => vertex(at, z))),
      ...[thickness, thickness - (pockets?.depth ?? 0)].flatMap((z) =>
        sunk.flat().map((at) => vertex(at, z)),
      ),
    ],
    triangles: [
      ...bottom.map(([a, b, c]) => [a, c, b] as const),
      ...levels.slice(1).flatMap((_, level) => walls(rings, level * count, count)),
      ...top.map(([a, b, c]) => [onTop(a), onTop(b), onTop(c)] as const),
      // Walls go down from the top here, and so face the pocket.
      ...walls(sunk, under, deep),
      ...floor.map(([a, b, c]) => [under + deep + a, under + deep + b, under + deep + c] as const),
    ],
  };
}

const ringsOf = (region: Region): readonly (readonly Point[])[] =>
  region.map((one) => onGrid(flatten(one, CHORD))).filter((ring) => ring.length >= 3);

const vertex = ({ x, y }: Point, z: number): Vertex => [gridded(x), gridded(y), gridded(z)];

/** Two triangles for each edge of each ring, between one level and the next. */
function walls(
  rings: readonly (readonly Point[])[],
  base: number,
  up: number,
): readonly (readonly [number, number, number])[] {
  let first = base;
  return rings.flatMap((ring) => {
    const start = first;
    first += ring.length;
    return ring.flatMap((_, i) => {
      const here = start + i;
      const next = start + ((i + 1) % ring.length);
      return [[here, next, next + up] as const, [here, next + up, here + up] as const];
    });
  });
}

/** Every vertex of the ring moved inward so that its edges move by `ease`, square to themselves. */
function movedIn(ring: readonly Point[], ease: number): readonly Point[] {
  return ring.map((at, i) => {
    const before = turnedLeft(unit(minus(at, ring.at(i - 1) ?? at)));
    const after = turnedLeft(unit(minus(ring[(i + 1) % ring.length] ?? at, at)));
    return plus(at, times(plus(before, after), ease / (1 + dot(before, after))));
  });
}

/** An edge that is used up by the ease comes out turned round. */
function turnsRound(foot: readonly Point[], ring: readonly Point[]): boolean {
  return ring.some((from, i) => {
    const next = (i + 1) % ring.length;
    const along = minus(ring[next] ?? from, from);
    const moved = minus(foot[next] ?? from, foot[i] ?? from);
    return !(dot(along, moved) > 0) || Math.abs(cross(along, moved)) > dot(along, moved);
  });
}

function onGrid(points: readonly Point[]): readonly Point[] {
  const rounded = points.map(({ x, y }) => ({ x: gridded(x), y: gridded(y) }));
  return rounded.filter((one, i) => {
    const before = rounded.at(i - 1) ?? one;
    return one.x !== before.x || one.y !== before.y;
  });
}

/** Without −0, which is another text and another bit pattern than 0. */
const gridded = (value: number): number => Math.round(value * GRID) / GRID + 0;

/**
 * Triangles over all points of the rings, counter-clockwise outside and clockwise holes, that use every edge of
 * every ring; undefined when rings cross. By the sweep of OpenGL's utility library: the smaller triangulators
 * that were tried leave out points which lie in line with others, so that faces and walls would not meet.
 */
function triangulated(
  rings: readonly (readonly Point[])[],
): readonly (readonly [number, number, number])[] | undefined {
  const indices: number[] = [];
  let crossing = false;
  const sweep = new libtess.GluTesselator();
  const { gluEnum } = libtess;
  sweep.gluTessCallback(gluEnum.GLU_TESS_VERTEX, (index: number) => indices.push(index));
  // Asked for edges, it gives plain triangles.
  sweep.gluTessCallback(gluEnum.GLU_TESS_EDGE_FLAG, () => undefined);
  sweep.gluTessCallback(gluEnum.GLU_TESS_COMBINE, () => {
    crossing = true;
    return 0;
  });
  sweep.gluTessNormal(0, 0, 1);
  sweep.gluTessBeginPolygon();
  let index = 0;
  for (const ring of rings) {
    sweep.gluTessBeginContour();
    for (const { x, y } of ring) sweep.gluTessVertex([x, y, 0], index++);
    sweep.gluTessEndContour();
  }
  sweep.gluTessEndPolygon();
  return crossing ? undefined : inThrees(indices);
}

function inThrees(indices: readonly number[]): readonly (readonly [number, number, number])[] {
  return Array.from({ length: indices.length / 3 }, (_, i) => {
    const [a = 0, b = 0, c = 0] = indices.slice(3 * i, 3 * i + 3);
    return [a, b, c] as const;
  });
}
