import { distance, minus, plus, point, times, turn, turnedLeft, unit } from '../../geometry/point.js';
import { arc, line } from '../../geometry/segment.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Arc, Path, Point, Segment } from '../../geometry/types.js';

interface StrokeCorner {
  readonly at: Point;
  /** 0 for a sharp corner. */
  readonly radius: number;
}

/**
 * The strokes of a glyph written as in glyphs.ts, in grid units: chains of lines and true arcs, each arc
 * tangent to its neighbours. Throws on a text that is not in that notation, which is a mistake in the table.
 */
export function parseStrokes(strokes: string): readonly Path[] {
  if (strokes === '') return [];
  return strokes.split('|').map((stroke) => roundedChain(stroke.trim().split(/\s+/).map(parseCorner)));
}

function parseCorner(text: string): StrokeCorner {
  const [, x, y, radius = '0'] = /^(-?[\d.]+),(-?[\d.]+)(?:~([\d.]+))?$/.exec(text) ?? [];
  if (x === undefined || y === undefined) throw new Error(`not a point of a stroke: ${text}`);
  return { at: point(Number(x), Number(y)), radius: Number(radius) };
}

/** Straight lines from corner to corner, each rounded corner replaced by the arc that touches both sides. */
function roundedChain(corners: readonly StrokeCorner[]): Path {
  const segments: Segment[] = [];
  let pen: Point | undefined;
  corners.forEach((corner, i) => {
    const rounding = roundingOf(corner, corners[i - 1], corners[i + 1]);
    if (pen) segments.push(line(pen, rounding?.from ?? corner.at));
    if (rounding) segments.push(rounding);
    pen = rounding?.to ?? corner.at;
  });
  return { closed: false, segments: segments.filter((one) => distance(one.from, one.to) > SAME_POINT) };
}

/**
 * The arc of the corner's radius that touches the lines to its neighbours. It begins r·tan(φ/2) before the
 * corner, φ being the turn, and its center lies r to the side that the stroke turns to.
 */
function roundingOf(
  corner: StrokeCorner,
  before: StrokeCorner | undefined,
  after: StrokeCorner | undefined,
): Arc | undefined {
  if (!before || !after || corner.radius === 0) return undefined;
  const arriving = unit(minus(corner.at, before.at));
  const leaving = unit(minus(after.at, corner.at));
  const angle = turn(arriving, leaving);
  const reach = corner.radius * Math.tan(Math.abs(angle) / 2);
  const from = minus(corner.at, times(arriving, reach));
  const center = plus(from, times(turnedLeft(arriving), Math.sign(angle) * corner.radius));
  return arc(from, plus(corner.at, times(leaving, reach)), center, angle > 0);
}
