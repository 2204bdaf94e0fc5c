import {
  type Box,
  difference,
  intersection,
  type Polygons,
  perimeter,
  rectangle,
  runsAt,
  union,
  type Width,
  widest,
} from './polygons.js';

/** The closed joint at one level: both boards' material in its plane, x along the joint and y across the first board. */
export interface ClosedLevel {
  /** Distance from the first board's end, of flat boards from their upper faces, mm. */
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

/** Both boards together, level by level, and what is glued. */
export interface ClosedJoint {
  readonly levels: readonly ClosedLevel[];
  /** Sides of pins, tails and fingers where long grain meets long grain, mm². */
  readonly sideArea: number;
  /** Shoulders: socket bottoms against the other board's inside face, mm². */
  readonly shoulderArea: number;
  /** y of the lines in a level's plane on which pins, tails and fingers show how thin they are. */
  readonly woodLines: readonly number[];
  /** Of a board let down into sockets: how far its tails reach past the sockets' ends, at worst. */
  readonly pastEnds?: number;
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
  before?: ClosedLevel,
  { leftOut = [], wallAt = (window.minY + window.maxY) / 2 }: LevelOptions = {},
): ClosedLevel {
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
