import { intersect } from '../intersect.js';
import { distance } from '../point.js';
import { distanceToSegment, extentsOfSegment, lengthOf, line, parameterOf, pointAt } from '../segment.js';
import type { Point, Segment } from '../types.js';
import { boxTree } from './box-tree.js';

/**
 * All segments cut at all the places where they meet. Pieces meet only at nodes; points closer than the
 * tolerance are one node, and pieces end exactly on their nodes, so chains close exactly.
 */
export interface Arrangement {
  readonly pieces: readonly Fragment[];
  readonly nodes: readonly Point[];
}

export interface Fragment {
  readonly segment: Segment;
  /** Numbers of the nodes at its ends. */
  readonly from: number;
  readonly to: number;
  /** Number of the segment that it is a piece of. */
  readonly source: number;
}

/**
 * Cuts segments at their mutual intersections, and where the end of one touches another. Near linear in
 * the number of segments where each meets only a few others. Tolerance in mm.
 */
export function arrange(segments: readonly Segment[], tolerance: number): Arrangement {
  const nodes = nodeBook(tolerance);
  const cuts: Crossing[][] = segments.map((segment) => [
    { t: 0, node: nodes.numberOf(segment.from) },
    { t: 1, node: nodes.numberOf(segment.to) },
  ]);
  const boxes = segments.map(extentsOfSegment);
  const tree = boxTree(boxes);
  segments.forEach((a, i) => {
    const box = boxes[i];
    if (box === undefined) return;
    const { minX, minY, maxX, maxY } = box;
    tree.search(minX - tolerance, minY - tolerance, maxX + tolerance, maxY + tolerance, (j) => {
      const b = segments[j];
      if (j <= i || b === undefined) return false;
      for (const p of meetingPoints(a, b, tolerance)) {
        const node = nodes.numberOf(p);
        cuts[i]?.push({ t: parameterOf(a, p), node });
        cuts[j]?.push({ t: parameterOf(b, p), node });
      }
      return false;
    });
  });
  return {
    pieces: segments.flatMap((segment, i) => fragmentsOf(segment, i, cuts[i] ?? [], nodes.points, tolerance)),
    nodes: nodes.points,
  };
}

/**
 * Pieces that lie on one another, gathered: same end nodes (either way round) and middles within a few
 * tolerances. `forward` run like the first one, `backward` against it.
 */
export interface Coincident {
  readonly forward: readonly Fragment[];
  readonly backward: readonly Fragment[];
}

export function coincident(pieces: readonly Fragment[], tolerance: number): readonly Coincident[] {
  const groups: { forward: Fragment[]; backward: Fragment[]; middle: Point }[] = [];
  const byEnds = new Map<number, number[]>();
  const nodes = pieces.reduce((most, { from, to }) => Math.max(most, from, to), 0) + 1;
  for (const piece of pieces) {
    const key = Math.min(piece.from, piece.to) * nodes + Math.max(piece.from, piece.to);
    const middle = pointAt(piece.segment, 0.5);
    const known = byEnds.get(key);
    const match = known
      ?.map((i) => groups[i])
      .find((group) => group !== undefined && distance(group.middle, middle) <= 4 * tolerance);
    if (match !== undefined) {
      const first = match.forward[0];
      (first === undefined || first.from === piece.from ? match.forward : match.backward).push(piece);
      continue;
    }
    if (known === undefined) byEnds.set(key, [groups.length]);
    else known.push(groups.length);
    groups.push({ forward: [piece], backward: [], middle });
  }
  return groups;
}

interface Crossing {
  readonly t: number;
  readonly node: number;
}

/**
 * Intersections, and ends that lie on the other segment: at a shallow angle an end may touch a segment
 * although the carriers cross elsewhere, beyond it.
 */
function meetingPoints(a: Segment, b: Segment, tolerance: number): readonly Point[] {
  const found = intersect(a, b, tolerance);
  if (found.kind === 'overlapping') return found.ends;
  const at: Point[] = [];
  for (const [p, other] of [
    [a.from, b],
    [a.to, b],
    [b.from, a],
    [b.to, a],
  ] as const) {
    if (distanceToSegment(p, other) <= tolerance) at.push(p);
  }
  if (found.kind === 'tangent') at.push(found.at);
  if (found.kind === 'points') at.push(...found.at);
  return at;
}

function fragmentsOf(
  segment: Segment,
  source: number,
  cuts: readonly Crossing[],
  nodes: readonly Point[],
  tolerance: number,
): Fragment[] {
  const length = lengthOf(segment);
  const sorted = cuts.length > 2 ? [...cuts].sort((a, b) => a.t - b.t) : cuts;
  const pieces: Fragment[] = [];
  let before = sorted[0];
  for (const cut of sorted.slice(1)) {
    if (before === undefined) break;
    if (cut.node === before.node && (cut.t - before.t) * length <= 10 * tolerance) continue;
    const from = nodes[before.node];
    const to = nodes[cut.node];
    if (from === undefined || to === undefined || cut.node === before.node) continue;
    const part = piece(segment, from, to, (cut.t - before.t) * length, tolerance);
    pieces.push({ segment: part, from: before.node, to: cut.node, source });
    before = cut;
  }
  return pieces;
}

/** A piece so short that moving its ends to the nodes might turn an arc round is a line. */
function piece(segment: Segment, from: Point, to: Point, length: number, tolerance: number): Segment {
  if (segment.kind === 'line' || length <= 10 * tolerance) return line(from, to);
  return { ...segment, from, to };
}

interface NodeBook {
  readonly points: readonly Point[];
  numberOf(p: Point): number;
}

/** Numbers points, giving those within the tolerance of an earlier one its number. Hashed by square cells. */
function nodeBook(tolerance: number): NodeBook {
  const points: Point[] = [];
  const cells = new Map<number, number[]>();
  const size = 4 * tolerance;
  const key = (column: number, row: number): number => Math.imul(column, 73856093) ^ Math.imul(row, 19349663);
  const find = (p: Point): number | undefined => {
    const right = Math.floor((p.x + tolerance) / size);
    const top = Math.floor((p.y + tolerance) / size);
    for (let column = Math.floor((p.x - tolerance) / size); column <= right; column++) {
      for (let row = Math.floor((p.y - tolerance) / size); row <= top; row++) {
        for (const i of cells.get(key(column, row)) ?? []) {
          const other = points[i];
          if (other !== undefined && distance(other, p) <= tolerance) return i;
        }
      }
    }
    return undefined;
  };
  const add = (p: Point): number => {
    const cell = key(Math.floor(p.x / size), Math.floor(p.y / size));
    const known = cells.get(cell);
    if (known === undefined) cells.set(cell, [points.length]);
    else known.push(points.length);
    points.push(p);
    return points.length - 1;
  };
  return { points, numberOf: (p) => find(p) ?? add(p) };
}
