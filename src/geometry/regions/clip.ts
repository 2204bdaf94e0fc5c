import { intersect } from '../intersect.js';
import { containsPoint } from '../outline.js';
import { lengthOf, line, parameterOf, pointAt } from '../segment.js';
import { SAME_POINT } from '../tolerance.js';
import type { Line, Path, Point, Region } from '../types.js';

/**
 * The parts of a straight line from `from` to `to` that lie inside a region, in their order along it.
 * Parts shorter than SAME_POINT are left out; a part along the boundary may go either way.
 */
export function clipLine(from: Point, to: Point, region: Region): readonly Path[] {
  const whole = line(from, to);
  const cuts = [0, ...crossings(whole, region), 1].sort((a, b) => a - b);
  const parts: Path[] = [];
  let start: number | undefined;
  for (const [i, t] of cuts.entries()) {
    const next = cuts[i + 1];
    const inside = next !== undefined && next > t && containsPoint(region, pointAt(whole, (t + next) / 2));
    if (inside && start === undefined) start = t;
    if (!inside && start !== undefined && next !== t) {
      const part = line(pointAt(whole, start), pointAt(whole, t));
      if (lengthOf(part) > SAME_POINT) parts.push({ closed: false, segments: [part] });
      start = undefined;
    }
  }
  return parts;
}

function crossings(whole: Line, region: Region): readonly number[] {
  return region.flatMap((one) =>
    one.segments.flatMap((segment) => {
      const met = intersect(whole, segment);
      if (met.kind === 'none') return [];
      const points = met.kind === 'overlapping' ? met.ends : met.kind === 'tangent' ? [met.at] : met.at;
      return points.map((p) => parameterOf(whole, p)).filter((t) => t > 0 && t < 1);
    }),
  );
}
