import { minus, plus, times, turn, turnedLeft } from '../../geometry/point.js';
import type { Polygon, Spot } from '../cut/polygons.js';

/**
 * A ring in runs of edges that bend gently, each of which makes one wall; between runs stand corners. Offsets are
 * given as so many of the bit's radii: a wall is what lies between `outer` and `back` of each spot.
 */
export interface Run {
  readonly spots: readonly { readonly at: Spot; readonly outer: Spot; readonly back: Spot }[];
  /** Square to the run's first and last edge, away from the region. */
  readonly from: Spot;
  readonly to: Spot;
}

/** Corners sharper than this are corners, radians. */
const GENTLE = 0.15;

/** A run turns by no more than this, radians, so that its wall cannot come back upon itself. */
const WHOLE_TURN = 1.5;

/** Edges of a wall keep at least this share of the length that they have on the ring. */
const MIN_LEFT = 0.05;

/** Walls reach behind the ring by this share of the bit's radius, where the sum is in any case. */
export const BEHIND = 0.02;

/** Walls reach past their ends by this share of the bit's radius: 2e-6 of it too far where a corner stands out. */
const LONGER = 2e-3;

/**
 * The runs of a ring whose region lies on its left, for a bit of the given greatest radius; edge by edge where
 * `single`. Pieces reach behind the ring and past their ends: if they only touched, skins would be left between them.
 */
export function runsOf(ring: Polygon, radius: number, single: boolean): readonly Run[] {
  const edges = ring.map((from, i) => edgeOf(from, ring[(i + 1) % ring.length] ?? from));
  const runs: Edge[][] = [];
  let run: Edge[] = [];
  let turned = 0;
  for (const [i, edge] of edges.entries()) {
    const before = run.at(-1);
    const bend = before ? turn(before.out, edge.out) : 0;
    // A bend at either end of an edge takes from its length, on the one side or on the other.
    const next = edges[(i + 1) % edges.length] ?? edge;
    const taken =
      radius *
      (Math.tan(Math.abs(bend) / 2) + Math.tan(Math.min(Math.abs(turn(edge.out, next.out)), GENTLE) / 2));
    const joins =
      !single &&
      before !== undefined &&
      Math.abs(bend) < GENTLE &&
      turned + Math.abs(bend) < WHOLE_TURN &&
      taken < (1 - MIN_LEFT) * edge.length &&
      radius * Math.tan(Math.abs(bend) / 2) < ((1 - MIN_LEFT) / 2) * before.length;
    if (joins) {
      run.push(edge);
      turned += Math.abs(bend);
    } else {
      run = [edge];
      turned = 0;
      runs.push(run);
    }
  }
  return runs.map(wallOf);
}

interface Edge {
  readonly from: Spot;
  readonly to: Spot;
  readonly out: Spot;
  readonly length: number;
}

function edgeOf(from: Spot, to: Spot): Edge {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return { from, to, out: { x: (to.y - from.y) / length, y: (from.x - to.x) / length }, length };
}

function wallOf(edges: readonly Edge[]): Run {
  const [first, last] = [edges[0], edges.at(-1)];
  if (!first || !last) throw new Error('a run has edges');
  const inner = edges
    .slice(1)
    .map((edge, i) => spotAt(edge.from, mitred(edges[i]?.out ?? edge.out, edge.out)));
  return {
    from: first.out,
    to: last.out,
    spots: [
      spotAt(first.from, first.out, minus(ZERO, along(first))),
      ...inner,
      spotAt(last.to, last.out, along(last)),
    ],
  };
}

const ZERO: Spot = { x: 0, y: 0 };

function spotAt(at: Spot, outward: Spot, further: Spot = ZERO): Run['spots'][number] {
  return { at, outer: minus(further, times(outward, -1)), back: minus(further, times(outward, BEHIND)) };
}

/** Where two walls of thickness 1 meet outside of their corner. */
function mitred(one: Spot, two: Spot): Spot {
  const share = 1 / (1 + one.x * two.x + one.y * two.y);
  return times(plus(one, two), share);
}

const along = ({ out }: Edge): Spot => times(turnedLeft(out), LONGER);
