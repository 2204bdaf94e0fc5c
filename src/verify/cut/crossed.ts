import { type ClosedJoint, type ClosedLevel, levelOf } from './level.js';
import {
  area,
  type Box,
  extents,
  type Polygon,
  type Polygons,
  rectangle,
  runsAt,
  union,
} from './polygons.js';
import { boardLeft, type RoutedBoard, radiusAt } from './route.js';

/** Sections are taken this far inside a board's faces, mm: on the face itself a line runs along the edge. */
const INSIDE_FACE = 1e-4;

/** A bit that tapers changes the second board with v; so many bands follow it. A straight bit wants one. */
const TAPER_BANDS = 16;

/**
 * Joints whose two boards both stand on end and cross at the corner: through dovetail and box.
 *
 * A point of the closed joint has three coordinates: x along the joint from the reference edge, u outward
 * from the second board's inside face, v outward from the first board's inside face. Driven home, the
 * shoulders touch: the bottom of the first board's sockets lies on the second's inside face (u = 0), the
 * bottom of the second's on the first's inside face (v = 0). Up is the end that is being cut, so
 *
 *   first board (tails, one):  height above its bit's tip = u, template y = v − t₁  (inside face toward the operator)
 *   second board (pins, two):  height above its bit's tip = v, template y = −u      (outside face toward the operator)
 *
 * Both frames are right-handed with x from the same edge: of the second board (x, −outward, up = first's
 * outward) and of the first (x, outward, up = second's outward). So at the height u the first board shows a
 * plain slice with the bit's radius there, r(u) = D/2 − u·tan θ, and the second board the line y = −u of
 * its plan, at the radius that its own bit has at each v.
 *
 * Cuts both boards, closes the joint and compares at `count` levels from the first board's end to its baseline.
 */
export function assembleCrossed(
  width: number,
  first: RoutedBoard,
  second: RoutedBoard,
  count: number,
): ClosedJoint {
  const bands = bandsOf(second, first.thickness);
  const reach = Math.min(first.depth, second.thickness);
  const window: Box = {
    minX: 0,
    maxX: width,
    minY: -first.thickness,
    maxY: -first.thickness + Math.min(first.thickness, second.depth),
  };
  const levels: ClosedLevel[] = [];
  for (let i = 0; i < count; i++) {
    const u = count === 1 ? reach : reach * (1 - i / (count - 1));
    const slice = boardLeft(first.centres, radiusAt(first.cutter, u));
    const section = sectionAt(bands, u, first.thickness);
    levels.push(levelOf(first.depth - u, slice, section, window, levels.at(-1)));
  }
  const woodLines = [window.minY + INSIDE_FACE, window.maxY - INSIDE_FACE];
  return { levels, ...glueOf(levels, width, first, window), woodLines };
}

interface Band {
  readonly from: number;
  readonly to: number;
  readonly plan: Polygons;
}

/** The second board's plan in bands of v up to the first board's thickness. */
function bandsOf(second: RoutedBoard, thickness: number): readonly Band[] {
  const top = Math.min(second.depth, thickness);
  const count = second.cutter.angle === 0 ? 1 : TAPER_BANDS;
  return Array.from({ length: count }, (_, i) => {
    const from = (top * i) / count;
    const to = (top * (i + 1)) / count;
    return { from, to, plan: boardLeft(second.centres, radiusAt(second.cutter, (from + to) / 2)) };
  });
}

/** Where the second board's material stands at u, in the plane of x and the first board's template y. */
function sectionAt(bands: readonly Band[], u: number, thickness: number): Polygons {
  const pieces: Polygon[] = [];
  for (const { from, to, plan } of bands) {
    const { minY, maxY } = extents(plan);
    const y = Math.min(Math.max(-u, minY + INSIDE_FACE), maxY - INSIDE_FACE);
    for (const [minX, maxX] of runsAt(plan, y)) {
      pieces.push(rectangle({ minX, maxX, minY: from - thickness, maxY: to - thickness }));
    }
  }
  return pieces.length > 1 ? union(pieces) : pieces;
}

function glueOf(levels: readonly ClosedLevel[], width: number, first: RoutedBoard, window: Box) {
  const slope = 1 / Math.cos(first.cutter.angle);
  let sideArea = 0;
  let insideTails = 0;
  for (const [i, level] of levels.entries()) {
    const next = levels[i + 1];
    if (!next) break;
    const step = next.z - level.z;
    sideArea += (slope * step * (level.glueLength + next.glueLength)) / 2;
    insideTails += (step * (solidAt(level, window) + solidAt(next, window))) / 2;
  }
  const baseline = levels[levels.length - 1];
  const pinsOnBaseline = baseline ? area(baseline.second) : 0;
  return { sideArea, shoulderArea: pinsOnBaseline + Math.min(insideTails, width * first.depth) };
}

/** Length of the first board's material along x at its inside face. */
function solidAt(level: ClosedLevel, window: Box): number {
  return runsAt(level.first, window.minY + INSIDE_FACE).reduce((sum, [from, to]) => sum + to - from, 0);
}
