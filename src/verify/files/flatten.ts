import type { Spot } from '../cut/polygons.js';

/** Curves of written files as chords. Spots follow the start, which is left out; the end is exact. */

/**
 * How far a chord may stray from its curve, mm, to either side: far under the 0.005 mm that is judged, and so far under
 * the ease that a bushing is given (route.ts) that one as wide as its opening follows the chords of the opening's round
 * end although written coordinates are rounded, by up to 0.00005 mm. With 0.00045 it stopped 0.008 mm short of the end.
 */
export const FILE_ARC_TOLERANCE = 3e-4;

/** A bulged step of a DXF polyline: bulge = tan(included angle ÷ 4), counter-clockwise positive, 0 a line. */
export function flattenBulge(from: Spot, to: Spot, bulge: number): readonly Spot[] {
  if (bulge === 0) return [to];
  const sweep = 4 * Math.atan(bulge);
  const chordX = to.x - from.x;
  const chordY = to.y - from.y;
  // From the chord's middle to the centre: to the left of the chord for a small counter-clockwise arc.
  const reach = (1 - bulge * bulge) / (4 * bulge);
  const center = {
    x: (from.x + to.x) / 2 - chordY * reach,
    y: (from.y + to.y) / 2 + chordX * reach,
  };
  return [...turn(from, center, sweep), to];
}

/** A whole circle, counter-clockwise. */
export function flattenCircle(center: Spot, radius: number): readonly Spot[] {
  const start = { x: center.x + radius, y: center.y };
  return [start, ...turn(start, center, 2 * Math.PI)];
}

/** A circular arc by centre and angles, radians, counter-clockwise from `start` to `end`, both ends given. */
export function flattenArc(center: Spot, radius: number, start: number, end: number): readonly Spot[] {
  const sweep = positiveTurn(end - start);
  const at = (angle: number): Spot => ({
    x: center.x + radius * Math.cos(angle),
    y: center.y + radius * Math.sin(angle),
  });
  const from = at(start);
  return [from, ...turn(from, center, sweep), at(end)];
}

export interface EllipticalArc {
  readonly rx: number;
  readonly ry: number;
  /** Radians. */
  readonly rotation: number;
  readonly largeArc: boolean;
  readonly sweep: boolean;
}

/**
 * SVG's arc by its ends, turned into centre form as SVG 2, appendix "Implementation Notes", B.2.4 and
 * B.2.5 (radii that are too small are scaled up), in the axes it was read in.
 */
export function flattenSvgArc(from: Spot, to: Spot, arc: EllipticalArc): readonly Spot[] {
  let rx = Math.abs(arc.rx);
  let ry = Math.abs(arc.ry);
  if (rx === 0 || ry === 0 || (from.x === to.x && from.y === to.y)) return [to];
  const cos = Math.cos(arc.rotation);
  const sin = Math.sin(arc.rotation);
  const halfX = (from.x - to.x) / 2;
  const halfY = (from.y - to.y) / 2;
  const x = cos * halfX + sin * halfY;
  const y = -sin * halfX + cos * halfY;
  const stretch = (x * x) / (rx * rx) + (y * y) / (ry * ry);
  if (stretch > 1) {
    rx *= Math.sqrt(stretch);
    ry *= Math.sqrt(stretch);
  }
  const spare = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2;
  const root = Math.sqrt(Math.max(0, spare) / ((rx * y) ** 2 + (ry * x) ** 2));
  const side = arc.largeArc === arc.sweep ? -root : root;
  const cx = (side * rx * y) / ry;
  const cy = (-side * ry * x) / rx;
  const start = Math.atan2((y - cy) / ry, (x - cx) / rx);
  const end = Math.atan2((-y - cy) / ry, (-x - cx) / rx);
  const whole = arc.sweep ? positiveTurn(end - start) : -positiveTurn(start - end);
  const middleX = (from.x + to.x) / 2 + cos * cx - sin * cy;
  const middleY = (from.y + to.y) / 2 + sin * cx + cos * cy;
  const steps = stepsOf(Math.max(rx, ry), whole);
  const spots: Spot[] = [];
  for (let i = 1; i < steps; i++) {
    const angle = start + (whole * i) / steps;
    const px = (rx + FILE_ARC_TOLERANCE) * Math.cos(angle);
    const py = (ry + FILE_ARC_TOLERANCE) * Math.sin(angle);
    spots.push({ x: middleX + cos * px - sin * py, y: middleY + sin * px + cos * py });
  }
  return [...spots, to];
}

/**
 * A cubic bézier in equal steps of its parameter. A chord of a curve strays at most (step²/8)·max|B″|,
 * and |B″| ≤ 6·max of the control polygon's second differences.
 */
export function flattenCubic(from: Spot, one: Spot, two: Spot, to: Spot): readonly Spot[] {
  const bend = Math.max(
    Math.hypot(from.x - 2 * one.x + two.x, from.y - 2 * one.y + two.y),
    Math.hypot(one.x - 2 * two.x + to.x, one.y - 2 * two.y + to.y),
  );
  const steps = Math.max(1, Math.ceil(Math.sqrt((6 * bend) / (8 * FILE_ARC_TOLERANCE))));
  const spots: Spot[] = [];
  for (let i = 1; i < steps; i++) {
    const t = i / steps;
    const s = 1 - t;
    const mix = (a: number, b: number, c: number, d: number): number =>
      s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * c + t * t * t * d;
    spots.push({ x: mix(from.x, one.x, two.x, to.x), y: mix(from.y, one.y, two.y, to.y) });
  }
  return [...spots, to];
}

/** A quadratic bézier, raised to the cubic that is the same curve. */
export function flattenQuadratic(from: Spot, control: Spot, to: Spot): readonly Spot[] {
  const towards = (end: Spot): Spot => ({
    x: end.x + (2 / 3) * (control.x - end.x),
    y: end.y + (2 / 3) * (control.y - end.y),
  });
  return flattenCubic(from, towards(from), towards(to), to);
}

/** Spots strictly between the ends of an arc about `center` that starts at `from`: a hair outside, as far as chords go inside. */
function turn(from: Spot, center: Spot, sweep: number): readonly Spot[] {
  const radius = Math.hypot(from.x - center.x, from.y - center.y);
  const outside = 1 + FILE_ARC_TOLERANCE / radius;
  const dx = outside * (from.x - center.x);
  const dy = outside * (from.y - center.y);
  const steps = stepsOf(radius, sweep);
  const spots: Spot[] = [];
  for (let i = 1; i < steps; i++) {
    const cos = Math.cos((sweep * i) / steps);
    const sin = Math.sin((sweep * i) / steps);
    spots.push({ x: center.x + cos * dx - sin * dy, y: center.y + sin * dx + cos * dy });
  }
  return spots;
}

/** A chord over the angle a strays r(1 − cos(a/2)) from its arc; with its ends outside by half of that, half as far. */
function stepsOf(radius: number, sweep: number): number {
  const greatest = 2 * Math.acos(Math.max(0, 1 - (2 * FILE_ARC_TOLERANCE) / radius));
  return Math.max(2, Math.ceil(Math.abs(sweep) / greatest));
}

function positiveTurn(angle: number): number {
  const turn = angle % (2 * Math.PI);
  return turn <= 0 ? turn + 2 * Math.PI : turn;
}
