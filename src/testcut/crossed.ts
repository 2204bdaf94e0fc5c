import {
  area,
  type Box,
  difference,
  extents,
  intersection,
  type Polygon,
  type Polygons,
  perimeter,
  rectangle,
  runsAt,
  union,
  type Width,
  widest,
} from './polygons.js';
import { boardLeft, type Cutter, centresAtStops, radiusAt, type Stops } from './route.js';

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
 */
export interface CrossedBoard {
  readonly plate: Polygons;
  readonly stock: Polygons;
  readonly cutter: Cutter;
  readonly bushing: number;
  readonly stops: Stops;
  /** Depth of cut below the board's end. */
  readonly depth: number;
  readonly thickness: number;
}

/** The joint at one level: both boards' material in the plane of x and v. */
export interface CrossedLevel {
  /** Distance from the first board's end, mm. */
  readonly z: number;
  readonly first: Polygons;
  readonly second: Polygons;
  readonly gaps: Polygons;
  readonly overlaps: Polygons;
  /** Widest gap and overlap: thickness in the plane of the level (1/cos θ of the distance square to a slope). */
  readonly gap: Width;
  readonly overlap: Width;
  readonly glueLines: readonly GlueLine[];
  /** Length of the glue lines in the plane of the level. */
  readonly glueLength: number;
}

/** One side of a pin, tail or finger at the middle of the first board's thickness, or where its wall is straight. */
export interface GlueLine {
  readonly x: number;
  /** Along x: above 0 a gap, below 0 an overlap. */
  readonly gap: number;
  /** Which pin, tail or finger of the first board, from the reference edge: it has two sides, or one at the edge. */
  readonly piece: number;
}

export interface CrossedJoint {
  readonly levels: readonly CrossedLevel[];
  /** Sides of pins, tails and fingers where long grain meets long grain, mm². */
  readonly sideArea: number;
  /** Shoulders: socket bottoms against the other board's inside face, mm². */
  readonly shoulderArea: number;
}

/** Sections are taken this far inside a board's faces, mm: on the face itself a line runs along the edge. */
const INSIDE_FACE = 1e-4;

/** A bit that tapers changes the second board with v; so many bands follow it. A straight bit wants one. */
const TAPER_BANDS = 16;

/** Cuts both boards, closes the joint and compares at `count` levels from the first board's end to its baseline. */
export function assembleCrossed(
  width: number,
  first: CrossedBoard,
  second: CrossedBoard,
  count: number,
): CrossedJoint {
  const firstCentres = centresOf(first);
  const bands = bandsOf(second, first.thickness);
  const reach = Math.min(first.depth, second.thickness);
  const window: Box = {
    minX: 0,
    maxX: width,
    minY: -first.thickness,
    maxY: -first.thickness + Math.min(first.thickness, second.depth),
  };
  const levels: CrossedLevel[] = [];
  for (let i = 0; i < count; i++) {
    const u = count === 1 ? reach : reach * (1 - i / (count - 1));
    const slice = boardLeft(firstCentres, radiusAt(first.cutter, u));
    const section = sectionAt(bands, u, first.thickness);
    levels.push(levelOf(first.depth - u, slice, section, window, levels.at(-1)));
  }
  return { levels, ...glueOf(levels, width, first, window) };
}

function centresOf(board: CrossedBoard) {
  const { plate, stock, bushing, cutter, stops } = board;
  return centresAtStops(plate, stock, bushing, cutter.diameter / 2, stops);
}

interface Band {
  readonly from: number;
  readonly to: number;
  readonly plan: Polygons;
}

/** The second board's plan in bands of v up to the first board's thickness. */
function bandsOf(second: CrossedBoard, thickness: number): readonly Band[] {
  const centres = centresOf(second);
  const top = Math.min(second.depth, thickness);
  const count = second.cutter.angle === 0 ? 1 : TAPER_BANDS;
  return Array.from({ length: count }, (_, i) => {
    const from = (top * i) / count;
    const to = (top * (i + 1)) / count;
    return { from, to, plan: boardLeft(centres, radiusAt(second.cutter, (from + to) / 2)) };
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

export interface LevelOptions {
  /** Where neither gaps nor overlaps are judged. */
  readonly leftOut?: Polygons;
  /** y at which glue lines are read; the middle of the window unless said. */
  readonly wallAt?: number;
}

/**
 * One level of a closed joint: what the window holds of both boards, and where neither or both of them are. The
 * level before it is likely to have gaps and overlaps as wide.
 */
export function levelOf(
  z: number,
  slice: Polygons,
  section: Polygons,
  window: Box,
  before?: CrossedLevel,
  { leftOut = [], wallAt = (window.minY + window.maxY) / 2 }: LevelOptions = {},
): CrossedLevel {
  const frame = [rectangle(window)];
  const first = intersection(slice, frame);
  const second = intersection(section, frame);
  const judged = leftOut.length > 0 ? difference(frame, leftOut) : frame;
  const overlaps = intersection(intersection(first, second), judged);
  const gaps = difference(judged, union(first, second));
  return {
    z,
    first,
    second,
    gaps,
    overlaps,
    gap: widest(gaps, before?.gap.width),
    overlap: widest(overlaps, before?.overlap.width),
    glueLines: glueLinesOf(runsAt(first, wallAt), runsAt(second, wallAt)),
    // Two boards that fill the window share their inner edges: each is counted twice, the frame once.
    glueLength: Math.max(0, (perimeter(first) + perimeter(second) - perimeter(frame)) / 2),
  };
}

type Runs = readonly (readonly [number, number])[];

/** Each run of the first board against the runs of the second that stand to its left and right. */
function glueLinesOf(first: Runs, second: Runs): readonly GlueLine[] {
  const lines: GlueLine[] = [];
  for (const [piece, [from, to]] of first.entries()) {
    const middle = (from + to) / 2;
    const before = second.filter(([a, b]) => (a + b) / 2 < middle).at(-1);
    const after = second.find(([a, b]) => (a + b) / 2 > middle);
    if (before) lines.push({ x: (from + before[1]) / 2, gap: from - before[1], piece });
    if (after) lines.push({ x: (to + after[0]) / 2, gap: after[0] - to, piece });
  }
  return lines;
}

function glueOf(levels: readonly CrossedLevel[], width: number, first: CrossedBoard, window: Box) {
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
function solidAt(level: CrossedLevel, window: Box): number {
  return runsAt(level.first, window.minY + INSIDE_FACE).reduce((sum, [from, to]) => sum + to - from, 0);
}
