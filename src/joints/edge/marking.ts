import { intersect } from '../../geometry/intersect.js';
import { line, parameterOf, pointAt } from '../../geometry/segment.js';
import type { Path, Segment } from '../../geometry/types.js';

/** The parts of a path that lie on a board, 0 ≤ x ≤ width. */
export function lineOnBoard(path: Path, width: number): readonly Path[] {
  const parts: Segment[][] = [];
  let open: Segment[] | undefined;
  for (const segment of path.segments.flatMap((one) => cutAtEdges(one, width))) {
    const { x } = pointAt(segment, 0.5);
    if (x < 0 || x > width) open = undefined;
    else if (open === undefined) {
      open = [segment];
      parts.push(open);
    } else open.push(segment);
  }
  return parts.map((segments) => ({ closed: false, segments }));
}

/** A segment cut where it crosses the board's edges. */
function cutAtEdges(segment: Segment, width: number): readonly Segment[] {
  const far = 1e4;
  const cuts = [0, width].flatMap((x) => {
    const met = intersect(segment, line({ x, y: -far }, { x, y: far }));
    return met.kind === 'points' ? met.at.map((p) => parameterOf(segment, p)) : [];
  });
  const ends = [0, ...cuts.filter((t) => t > 0 && t < 1).sort((a, b) => a - b), 1];
  return ends.slice(1).map((end, i) => ({
    ...segment,
    from: pointAt(segment, ends[i] ?? 0),
    to: pointAt(segment, end),
  }));
}
