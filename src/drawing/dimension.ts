import { between, distance, minus, plus, times, turnedLeft, unit } from '../geometry/point.js';
import { line } from '../geometry/segment.js';
import type { Path, Point } from '../geometry/types.js';
import { open, text } from './drawing.js';
import { textWidth } from './lettering/lettering.js';
import type { Item, Layer } from './model.js';

/** Arrows and dimension lines, mm. They are for reading, so they stand on REF unless another layer is asked for. */

export interface ArrowOptions {
  readonly layer?: Layer;
  /** Length of the head; cut to 40 % of the arrow where that is shorter. */
  readonly head?: number;
}

/** A straight arrow whose point touches `to`. `from` and `to` must differ. */
export function arrow(
  from: Point,
  to: Point,
  { layer = 'REF', head = 3 }: ArrowOptions = {},
): readonly Item[] {
  const size = Math.min(head, 0.4 * distance(from, to));
  return [chain(from, to), arrowHead(from, to, size)].map((path) => open(layer, path));
}

export interface DimensionOptions extends ArrowOptions {
  /** Distance of the dimension line to the left of `from` → `to`; to the right when negative. */
  readonly offset?: number;
  /** Height of a capital. */
  readonly height?: number;
}

/**
 * A dimension between two points: extension lines, a line with arrow heads at both ends and a label at its
 * middle, on the far side of the points, readable from below or from the right. Where the heads and the
 * label do not fit between the points the arrows point inward from outside.
 */
export function dimension(
  from: Point,
  to: Point,
  label: string,
  { layer = 'REF', head = 2.5, offset = 8, height = 3 }: DimensionOptions = {},
): readonly Item[] {
  const along = unit(minus(to, from));
  const across = times(turnedLeft(along), Math.sign(offset) || 1);
  const at = (end: Point, distanceOut: number): Point => plus(end, times(across, distanceOut));
  const reach = Math.abs(offset);
  const [a, b] = [at(from, reach), at(to, reach)];
  const inside = distance(from, to) >= Math.max(3 * head, textWidth(label, height));
  const extensions =
    reach > clearance ? [from, to].map((end) => chain(at(end, clearance), at(end, reach + overrun))) : [];
  const lines = inside
    ? [chain(a, b), arrowHead(b, a, head), arrowHead(a, b, head)]
    : [
        chain(plus(a, times(along, -2.5 * head)), plus(b, times(along, 2.5 * head))),
        arrowHead(plus(a, times(along, -1)), a, head),
        arrowHead(plus(b, along), b, head),
      ];
  return [
    ...[...extensions, ...lines].map((path) => open(layer, path)),
    labelBeside(between(a, b, 0.5), along, across, label, height, layer),
  ];
}

/** Extension lines begin this far from what they measure, so that they are not taken for a part of it. */
const clearance = 1;

/** How far extension lines run past the dimension line. */
const overrun = 1.5;

/** Two short lines from the point `to` backward, 15° to either side. */
function arrowHead(from: Point, to: Point, size: number): Path {
  const back = times(unit(minus(from, to)), size);
  const aside = times(turnedLeft(back), Math.tan(Math.PI / 12));
  return chain(plus(plus(to, back), aside), to, minus(plus(to, back), aside));
}

function labelBeside(
  middle: Point,
  along: Point,
  across: Point,
  label: string,
  height: number,
  layer: Layer,
): Item {
  // Lettering runs to the right, or upward where the line is upright: never upside down.
  const backward = along.x < -1e-9 || (Math.abs(along.x) <= 1e-9 && along.y < 0);
  const reading = backward ? times(along, -1) : along;
  const outward = turnedLeft(reading).x * across.x + turnedLeft(reading).y * across.y > 0;
  const gap = height / 2;
  const baseline = outward ? gap : gap + height;
  return text(layer, label, plus(middle, times(across, baseline)), height, {
    angle: Math.atan2(reading.y, reading.x),
    align: 'middle',
  });
}

function chain(...points: readonly Point[]): Path {
  const segments = points.slice(1).map((to, i) => line(points[i] ?? to, to));
  return { closed: false, segments };
}
