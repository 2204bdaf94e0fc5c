import type { Arc, Line, Point, Segment } from '../../src/geometry/types.js';

/**
 * Pairs of pieces that run over each other for more than `longest` mm: a laser would burn there twice.
 * Own arithmetic: lines by their distance from each other, arcs by center, radius and angles.
 */
export function overlaps(
  pieces: readonly Segment[],
  longest = 1e-6,
): readonly (readonly [Segment, Segment])[] {
  return pieces.flatMap((one, i) =>
    pieces
      .slice(i + 1)
      .filter((other) => sharedLength(one, other) > longest)
      .map((other) => [one, other] as const),
  );
}

function sharedLength(a: Segment, b: Segment): number {
  if (a.kind === 'line' && b.kind === 'line') return sharedOfLines(a, b);
  if (a.kind === 'arc' && b.kind === 'arc') return sharedOfArcs(a, b);
  return 0;
}

const NEAR = 1e-6;

function sharedOfLines(a: Line, b: Line): number {
  const length = apart(a.from, a.to);
  const along = { x: (a.to.x - a.from.x) / length, y: (a.to.y - a.from.y) / length };
  const off = (p: Point): number => Math.abs((p.x - a.from.x) * along.y - (p.y - a.from.y) * along.x);
  if (off(b.from) > NEAR || off(b.to) > NEAR) return 0;
  const at = (p: Point): number => (p.x - a.from.x) * along.x + (p.y - a.from.y) * along.y;
  return Math.min(length, Math.max(at(b.from), at(b.to))) - Math.max(0, Math.min(at(b.from), at(b.to)));
}

function sharedOfArcs(a: Arc, b: Arc): number {
  if (apart(a.center, b.center) > NEAR || Math.abs(a.radius - b.radius) > NEAR) return 0;
  // Sampled: which share of a's points lies within b's angles.
  const samples = 720;
  const [start, sweep] = anglesOf(b);
  const [first, extent] = anglesOf(a);
  const inside = Array.from({ length: samples }, (_, i) => first + (extent * (i + 0.5)) / samples).filter(
    (angle) => turned(angle - start) < sweep,
  );
  return (inside.length / samples) * extent * a.radius;
}

function anglesOf({ from, to, center, ccw }: Arc): readonly [start: number, sweep: number] {
  const bearing = (p: Point): number => Math.atan2(p.y - center.y, p.x - center.x);
  const [a, b] = ccw ? [bearing(from), bearing(to)] : [bearing(to), bearing(from)];
  return [a, turned(b - a)];
}

const turned = (angle: number): number => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
