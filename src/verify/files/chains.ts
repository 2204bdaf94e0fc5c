import type { Polygon, Spot } from '../cut/polygons.js';

/** Pieces of contours as files hold them, and how loose ones are joined end to end. */

/** A run of spots on one layer; a closed one does not repeat its first spot. */
export interface Chain {
  readonly layer: string;
  readonly closed: boolean;
  readonly spots: readonly Spot[];
}

/** Ends closer than this are one, mm: loose lines and arcs are written with rounded ends. */
const SAME_END = 1e-3;

export interface Contours {
  readonly closed: readonly Polygon[];
  /** Chains that nothing closes, each with the way its two ends stand apart. */
  readonly open: readonly { readonly at: Spot; readonly apart: number }[];
}

/** Closed chains as they are, loose ones joined where their ends meet, each used once. */
export function contoursOf(chains: readonly Chain[]): Contours {
  const closed: Polygon[] = [];
  const open: { at: Spot; apart: number }[] = [];
  let loose: (readonly Spot[])[] = [];
  for (const chain of chains) {
    if (chain.closed) closed.push(chain.spots);
    else if (chain.spots.length > 1) loose.push(chain.spots);
  }
  while (loose.length > 0) {
    const [first = [], ...others] = loose;
    let run: readonly Spot[] = first;
    loose = others;
    for (let grown = true; grown && !meets(run); ) {
      grown = false;
      for (const [index, other] of loose.entries()) {
        const joined = joinRuns(run, other);
        if (!joined) continue;
        run = joined;
        loose = loose.filter((_, i) => i !== index);
        grown = true;
        break;
      }
    }
    if (meets(run)) closed.push(run.slice(0, -1));
    else {
      const at = run[run.length - 1] as Spot;
      open.push({ at, apart: distance(at, run[0] as Spot) });
    }
  }
  return { closed, open };
}

function meets(run: readonly Spot[]): boolean {
  const first = run[0];
  const last = run[run.length - 1];
  return run.length > 2 && first !== undefined && last !== undefined && distance(first, last) < SAME_END;
}

/** `other` added to the end of `run`, turned about where that is how they meet. */
function joinRuns(run: readonly Spot[], other: readonly Spot[]): readonly Spot[] | undefined {
  const end = run[run.length - 1];
  const from = other[0];
  const to = other[other.length - 1];
  if (!end || !from || !to) return undefined;
  if (distance(end, from) < SAME_END) return [...run, ...other.slice(1)];
  if (distance(end, to) < SAME_END) return [...run, ...[...other].reverse().slice(1)];
  return undefined;
}

function distance(one: Spot, two: Spot): number {
  return Math.hypot(one.x - two.x, one.y - two.y);
}
