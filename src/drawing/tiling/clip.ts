import { extents } from '../../geometry/outline.js';
import { extentsOfSegment, facesArc, lengthOf, parameterOf, pointAt } from '../../geometry/segment.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Extents, Outline, Path, Point, Segment } from '../../geometry/types.js';

/** A part of a line and how far from the line's start it begins, mm. */
export interface LinePart {
  readonly line: Outline | Path;
  readonly start: number;
}

/**
 * The parts of a line inside an upright window, its edges included, in their order along it. A line wholly
 * inside stays as it is; an outline that is cut becomes open paths, and the one across its start stays in one.
 */
export function clipToWindow(line: Outline | Path, window: Extents): readonly LinePart[] {
  const around = extents(line);
  if (!meets(around, window)) return [];
  if (within(around, window)) return [{ line, start: 0 }];
  const pieces: { start: number; segments: Segment[] }[] = [];
  let reach = 0;
  let arriving = false;
  for (const segment of line.segments) {
    const length = lengthOf(segment);
    let leaving = false;
    for (const { from, to } of stretchesInside(segment, window)) {
      const part = stretch(segment, from, to);
      const last = pieces.at(-1);
      if (arriving && from === 0 && last) last.segments.push(part);
      else pieces.push({ start: reach + from * length, segments: [part] });
      leaving = to === 1;
    }
    arriving = leaving;
    reach += length;
  }
  const kept = pieces.filter(({ segments }) => segments.some((one) => lengthOf(one) > SAME_POINT));
  return joinedAtStart(line, kept).map(({ start, segments }) => ({
    line: { closed: false, segments },
    start,
  }));
}

export const meets = (a: Extents, b: Extents): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY;

export const within = (a: Extents, b: Extents): boolean =>
  a.minX >= b.minX && a.maxX <= b.maxX && a.minY >= b.minY && a.maxY <= b.maxY;

/** Stretches of a segment's parameter, 0 to 1, that lie inside; neighbours that touch are one. */
function stretchesInside(segment: Segment, window: Extents): { from: number; to: number }[] {
  const around = extentsOfSegment(segment);
  if (!meets(around, window)) return [];
  if (within(around, window)) return [{ from: 0, to: 1 }];
  const cuts = [0, ...crossings(segment, window), 1].sort((a, b) => a - b);
  const stretches: { from: number; to: number }[] = [];
  cuts.forEach((to, i) => {
    const from = cuts[i - 1];
    if (from === undefined || to <= from || !windowHolds(window, pointAt(segment, (from + to) / 2))) return;
    const last = stretches.at(-1);
    if (last && last.to === from) last.to = to;
    else stretches.push({ from, to });
  });
  return stretches;
}

const windowHolds = (window: Extents, p: Point): boolean =>
  p.x >= window.minX && p.x <= window.maxX && p.y >= window.minY && p.y <= window.maxY;

function crossings(segment: Segment, window: Extents): readonly number[] {
  const { minX, minY, maxX, maxY } = window;
  const found =
    segment.kind === 'line'
      ? [
          ...[minX, maxX].map((x) => (x - segment.from.x) / (segment.to.x - segment.from.x)),
          ...[minY, maxY].map((y) => (y - segment.from.y) / (segment.to.y - segment.from.y)),
        ]
      : [
          ...[minX, maxX].flatMap((x) =>
            legs(x - segment.center.x, segment.radius).map((leg) => ({ x, y: segment.center.y + leg })),
          ),
          ...[minY, maxY].flatMap((y) =>
            legs(y - segment.center.y, segment.radius).map((leg) => ({ x: segment.center.x + leg, y })),
          ),
        ]
          .filter((p) => facesArc(segment, p))
          .map((p) => parameterOf(segment, p));
  return found.filter((t) => t > 0 && t < 1);
}

/** The other leg of a right triangle, both ways: x² + y² = r². */
function legs(one: number, radius: number): readonly number[] {
  const square = radius * radius - one * one;
  return square > 0 ? [Math.sqrt(square), -Math.sqrt(square)] : [];
}

function stretch(segment: Segment, from: number, to: number): Segment {
  return {
    ...segment,
    from: from === 0 ? segment.from : pointAt(segment, from),
    to: to === 1 ? segment.to : pointAt(segment, to),
  };
}

interface Chain {
  readonly start: number;
  readonly segments: readonly Segment[];
}

/** A piece that runs into an outline's start goes on in the piece that leaves it. */
function joinedAtStart(line: Outline | Path, chains: readonly Chain[]): readonly Chain[] {
  const [first, ...rest] = chains;
  const last = rest.at(-1);
  if (!line.closed || !first || !last) return chains;
  const meet = first.segments[0]?.from;
  const arrives = last.segments.at(-1)?.to;
  if (first.start !== 0 || !meet || !arrives) return chains;
  if (Math.hypot(meet.x - arrives.x, meet.y - arrives.y) > SAME_POINT) return chains;
  return [...rest.slice(0, -1), { start: last.start, segments: [...last.segments, ...first.segments] }];
}
