import type { Item } from '../../drawing/model.js';
import { extents, rectangle } from '../../geometry/outline.js';
import { clipLine } from '../../geometry/regions/clip.js';
import { translate } from '../../geometry/transform.js';
import type { Outline, Path, Point } from '../../geometry/types.js';

/** The marks of the trade that are drawn on patterns: crossed waste, face mark, edge mark. Common practice, no source. */

/** How far the ends of a waste cross keep from its corners, as a share of the diagonal. */
const CROSS_INSET = 0.12;

/** The two diagonals of a piece of waste, kept a little off its corners. */
export function wasteCross(outline: Outline): readonly Item[] {
  const [a, b, c, d] = crossCorners(outline);
  return [
    [a, c],
    [b, d],
  ].flatMap(([from, to]) =>
    from && to
      ? inWaste(pointBetween(from, to, CROSS_INSET), pointBetween(from, to, 1 - CROSS_INSET), outline)
      : [],
  );
}

/** Crosses in a strip of waste stand apart by so many of its greatest heights, and by no less than this, mm. */
const CROSS_STEP = 1.2;
const MIN_STEP = 15;

/** Beside the bays, where the strip is lower than this share of its height, so many steps apart will do. */
const LOW_SHARE = 0.6;
const LOW_STEPS = 2.5;

/** Places at which the height of a strip is looked at, to one step between crosses. */
const LOOKS = 12;

/** A cross is so much narrower than high that it lies in a bay. */
const CROSS_WIDTH = 0.7;

/** Crosses in a strip of waste along x whose other side runs as it likes: the highest places first. */
export function wasteCrosses(outline: Outline): readonly Item[] {
  const { minX, minY, maxX, maxY } = extents(outline);
  const step = Math.max(CROSS_STEP * (maxY - minY), MIN_STEP);
  const count = Math.ceil(((maxX - minX) / step) * LOOKS);
  const places = Array.from({ length: count }, (_, i) => {
    const x = minX + ((i + 0.5) * (maxX - minX)) / count;
    const [low, high] = heightAt(outline, x, minY, maxY);
    return { x, low, high, height: high - low };
  });
  const inside = places.filter(({ x, height }) => x - minX > height / 3 && maxX - x > height / 3);
  const chosen: typeof places = [];
  for (const one of inside.toSorted((a, b) => b.height - a.height)) {
    const apart = one.height < LOW_SHARE * (maxY - minY) ? LOW_STEPS * step : step;
    if (chosen.every(({ x }) => Math.abs(x - one.x) >= apart)) chosen.push(one);
  }
  return chosen
    .toSorted((a, b) => a.x - b.x)
    .flatMap(({ x, low, high, height }) => {
      const half = (CROSS_WIDTH * height) / 2;
      const [foot, top] = [low + CROSS_INSET * height, high - CROSS_INSET * height];
      return [half, -half].flatMap((side) =>
        inWaste({ x: x - side, y: foot }, { x: x + side, y: top }, outline),
      );
    });
}

/** From and to along y of the longest piece of the upright line at x. */
function heightAt(outline: Outline, x: number, minY: number, maxY: number): readonly [number, number] {
  const pieces = clipLine({ x, y: minY - 1 }, { x, y: maxY + 1 }, [outline]).flatMap(({ segments }) =>
    segments.map(({ from, to }) => [from.y, to.y] as const),
  );
  return pieces.reduce((best, one) => (one[1] - one[0] > best[1] - best[0] ? one : best), [minY, minY]);
}

function inWaste(from: Point, to: Point, outline: Outline): readonly Item[] {
  return clipLine(from, to, [outline]).map((path): Item => ({ kind: 'open', layer: 'ENGRAVE', path }));
}

/** The corners of a four-sided outline, or of the box around any other. */
function crossCorners(outline: Outline): readonly Point[] {
  if (outline.segments.length === 4) return outline.segments.map((segment) => segment.from);
  const { minX, minY, maxX, maxY } = extents(outline);
  return rectangle(minX, minY, maxX, maxY).segments.map((segment) => segment.from);
}

function pointBetween(from: Point, to: Point, share: number): Point {
  return { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
}

/** Width and height of the face mark, mm; it begins on the reference edge at `at` and stands to the right of it. */
export const FACE_MARK = { width: 4.5, height: 6 } as const;

/** The face mark: a loop whose tail runs out to the reference edge, `at` being where it meets it. */
export function faceMark(at: Point): Item {
  // A line from the edge touches a circle and goes on round it by 300°, ccw; the tangent from (0, 0) to the
  // circle about c with radius r touches it at a distance of √(|c|² − r²), turned by asin(r / |c|) from c.
  const center = { x: 2.9, y: 4.3 };
  const radius = 1.4;
  const far = Math.hypot(center.x, center.y);
  const direction = Math.atan2(center.y, center.x) - Math.asin(radius / far);
  const reach = Math.sqrt(far * far - radius * radius);
  const touch = { x: reach * Math.cos(direction), y: reach * Math.sin(direction) };
  const start = Math.atan2(touch.y - center.y, touch.x - center.x);
  const on = (turn: number): Point => ({
    x: center.x + radius * Math.cos(start + turn),
    y: center.y + radius * Math.sin(start + turn),
  });
  const [half, end] = [on((150 * Math.PI) / 180), on((300 * Math.PI) / 180)];
  const path: Path = {
    closed: false,
    segments: [
      { kind: 'line', from: { x: 0, y: 0 }, to: touch },
      { kind: 'arc', from: touch, to: half, center, radius, ccw: true },
      { kind: 'arc', from: half, to: end, center, radius, ccw: true },
    ],
  };
  return { kind: 'open', layer: 'ENGRAVE', path: translate(path, at.x, at.y) };
}

/** Width and height of the edge mark, mm. */
export const EDGE_MARK = { width: 3.5, height: 4 } as const;

/** The edge mark: a V that points at the reference edge, its point at `at`. */
export function edgeMark(at: Point): readonly Item[] {
  const { width, height } = EDGE_MARK;
  return [1, -1].map((side) => ({
    kind: 'open',
    layer: 'ENGRAVE',
    path: {
      closed: false,
      segments: [{ kind: 'line', from: at, to: { x: at.x + width, y: at.y + (side * height) / 2 } }],
    },
  }));
}
