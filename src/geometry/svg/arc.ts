import { cross, distance, norm, point, turn } from '../point.js';
import type { Point } from '../types.js';
import type { Curve } from './curve.js';

/** The arc command of an SVG path with absolute coordinates; the rotation in degrees. */
export interface EndpointArc {
  readonly from: Point;
  readonly to: Point;
  readonly rx: number;
  readonly ry: number;
  readonly rotation: number;
  readonly largeArc: boolean;
  readonly sweep: boolean;
}

/**
 * Endpoint form to center form, as SVG 2, "Path element implementation notes", B.2 (F.6 in SVG 1.1) has it:
 * signs of radii are dropped, a radius of 0 gives a line, radii too small for the ends are scaled up until
 * they just reach, equal ends draw nothing.
 */
export function centerForm(arc: EndpointArc): Curve | undefined {
  const { from, to, largeArc, sweep } = arc;
  if (from.x === to.x && from.y === to.y) return undefined;
  const [givenX, givenY] = [Math.abs(arc.rx), Math.abs(arc.ry)];
  if (givenX === 0 || givenY === 0) return { kind: 'line', from, to };
  const phi = (arc.rotation * Math.PI) / 180;
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
  // Step 1: half the chord in the ellipse's own axes. In units of the radii the ellipse is the unit circle.
  const [dx, dy] = [(from.x - to.x) / 2, (from.y - to.y) / 2];
  const half = point((cos * dx + sin * dy) / givenX, (cos * dy - sin * dx) / givenY);
  const grown = Math.max(1, norm(half));
  const [rx, ry] = [givenX * grown, givenY * grown];
  const start = point(half.x / grown, half.y / grown);
  // Step 2: the center stands square to the half chord; √(1 − λ)(1 + λ) keeps its digits near a half turn.
  const length = norm(start);
  const away = Math.sqrt(Math.max(0, (1 - length) * (1 + length))) / length;
  const side = largeArc === sweep ? -1 : 1;
  const middle = point(side * away * start.y, -side * away * start.x);
  // Step 3 and 4: back to the path's axes, and the two angles.
  const center = point(
    cos * rx * middle.x - sin * ry * middle.y + (from.x + to.x) / 2,
    sin * rx * middle.x + cos * ry * middle.y + (from.y + to.y) / 2,
  );
  const first = point(start.x - middle.x, start.y - middle.y);
  const last = point(-start.x - middle.x, -start.y - middle.y);
  return {
    kind: 'elliptic',
    center,
    u: point(rx * cos, rx * sin),
    v: point(-ry * sin, ry * cos),
    start: Math.atan2(first.y, first.x),
    sweep: swept(first, last, sweep),
    from,
    to,
  };
}

/** Angle from one direction to the other the way that the sweep flag says; opposite ones are half a turn apart. */
function swept(first: Point, last: Point, positive: boolean): number {
  const opposite = distance(first, point(-last.x, -last.y)) < 1e-9 && Math.abs(cross(first, last)) < 1e-9;
  const angle = opposite ? Math.PI : turn(first, last);
  if (positive) return angle < 0 ? angle + 2 * Math.PI : angle;
  return angle > 0 ? angle - 2 * Math.PI : angle;
}
