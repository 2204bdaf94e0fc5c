import { extents, outline, windingOf } from '../outline.js';
import { extentsOfSegment, pointAt, reversedSegment } from '../segment.js';
import { LOOSE_ENDS, SAME_POINT } from '../tolerance.js';
import type { Point, Region, Segment } from '../types.js';
import { arrange, type Coincident, coincident, type Fragment } from './arrangement.js';
import { type BoxTree, boxTree } from './box-tree.js';
import { stitch } from './stitch.js';
import { tidyRegion } from './tidy.js';

/**
 * Union, intersection and difference of regions with true arcs. Operands are regions: counter-clockwise
 * outside, clockwise holes, none crossing. Results are tidy and regular: edges that both share in opposite
 * directions vanish from a union, edges shared in one direction stay once; nothing without area remains.
 */
export const union = (a: Region, b: Region): Region => combined(a, b, 'union');

export const intersection = (a: Region, b: Region): Region => combined(a, b, 'intersection');

/** a without b. */
export const difference = (a: Region, b: Region): Region => combined(a, b, 'difference');

/** The same region with edges gone that its own outlines share in opposite directions. */
export const withoutSharedEdges = (region: Region): Region => union(region, []);

/** Union of many. */
export const unionOfAll = (regions: readonly Region[]): Region =>
  regions.reduce<Region>((sum, one) => (sum.length === 0 ? tidyRegion(one) : union(sum, one)), []);

type Operation = 'union' | 'intersection' | 'difference';

function combined(givenA: Region, givenB: Region, operation: Operation): Region {
  const a = tidyRegion(givenA);
  const b = tidyRegion(givenB);
  const segmentsA = a.flatMap((one) => one.segments);
  const segmentsB = b.flatMap((one) => one.segments);
  const insideA = membership(a);
  const insideB = membership(b);
  const isA = (piece: Fragment): boolean => piece.source < segmentsA.length;
  for (const tolerance of [SAME_POINT, SAME_POINT / 8, SAME_POINT * 8]) {
    const { pieces, nodes } = arrange([...segmentsA, ...segmentsB], tolerance);
    const kept = coincident(pieces, tolerance).flatMap((group) =>
      chosen(group, operation, isA, insideA, insideB),
    );
    const { loops, loose } = stitch(kept, nodes, LOOSE_ENDS);
    if (loose <= LOOSE_ENDS) return tidyRegion(loops.map(outline));
  }
  throw new Error(`${operation} left an open chain`);
}

type Inside = (p: Point) => boolean;

/** What the result takes of one place on the boundaries: a piece with the result's inside to its left, or nothing. */
function chosen(
  { forward, backward }: Coincident,
  operation: Operation,
  isA: (piece: Fragment) => boolean,
  insideA: Inside,
  insideB: Inside,
): readonly Fragment[] {
  const first = forward[0];
  if (first === undefined) return [];
  const middle = pointAt(first.segment, 0.5);
  // Is the inside of each operand to the left and to the right of the piece, run forward?
  const [leftA, rightA] = sides(true, insideA);
  const [leftB, rightB] = sides(false, insideB);
  const left = keeps(operation, leftA, leftB);
  const right = keeps(operation, rightA, rightB);
  if (left === right) return [];
  return [left ? first : turnedRound(first)];

  function sides(ofA: boolean, inside: Inside): readonly [boolean, boolean] {
    const along = forward.some((one) => isA(one) === ofA);
    const against = backward.some((one) => isA(one) === ofA);
    if (along || against) return [along, against];
    const both = inside(middle);
    return [both, both];
  }
}

function keeps(operation: Operation, inA: boolean, inB: boolean): boolean {
  if (operation === 'union') return inA || inB;
  return operation === 'intersection' ? inA && inB : inA && !inB;
}

const turnedRound = (piece: Fragment): Fragment => ({
  ...piece,
  segment: reversedSegment(piece.segment),
  from: piece.to,
  to: piece.from,
});

/** containsPoint with an index; rays run across the region's shorter side, so a long comb is met a few times only. */
function membership(region: Region): Inside {
  const box = extents(...region);
  const wide = box.maxX - box.minX > box.maxY - box.minY;
  const segments = region.flatMap((one) => one.segments).map((one) => (wide ? transposed(one) : one));
  const tree: BoxTree = boxTree(segments.map(extentsOfSegment));
  return (at) => {
    const p = wide ? { x: at.y, y: at.x } : at;
    let winding = 0;
    tree.search(p.x, p.y, Infinity, p.y, (i) => {
      const segment = segments[i];
      if (segment !== undefined) winding += windingOf(segment, p);
      return false;
    });
    return winding !== 0;
  };
}

const swapped = (p: Point): Point => ({ x: p.y, y: p.x });

function transposed(segment: Segment): Segment {
  const from = swapped(segment.from);
  const to = swapped(segment.to);
  return segment.kind === 'line'
    ? { kind: 'line', from, to }
    : { ...segment, from, to, center: swapped(segment.center), ccw: !segment.ccw };
}
