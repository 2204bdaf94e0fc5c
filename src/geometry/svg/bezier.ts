import { pointAt, sweepOf } from '../segment.js';
import type { Arc, Point } from '../types.js';

export type BezierPiece = readonly [control: Point, control: Point, to: Point];

/**
 * An arc as cubic béziers, each after the first starting where the one before ends. A piece over an angle α
 * has its controls (4/3) tan(α/4) r along the tangents of its ends. At α = π/8 it leaves the circle by
 * less than 1e-7 r: under 0.0005 mm for any arc up to 5 m. `widest`, radians, is the most that one piece turns.
 */
export function bezierPieces(one: Arc, widest = Math.PI / 8): readonly BezierPiece[] {
  const sweep = sweepOf(one);
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / widest - 1e-9));
  const reach = (4 / 3) * Math.tan(sweep / count / 4);
  const onArc = (i: number): Point => pointAt(one, i / count);
  const ahead = (p: Point, share: number): Point => ({
    x: p.x - (p.y - one.center.y) * share,
    y: p.y + (p.x - one.center.x) * share,
  });
  return Array.from({ length: count }, (_, i) => {
    const from = onArc(i);
    const to = onArc(i + 1);
    return [ahead(from, reach), ahead(to, -reach), to];
  });
}
