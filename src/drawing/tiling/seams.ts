import { joinedIntervals } from '../drawing.js';
import type { Interval } from '../model.js';

/** The cells that a length is cut into and how much of it each page shows: neighbours share the overlap. */
export interface Cell {
  /** From seam to seam; the first and the last end where the drawing ends. */
  readonly from: number;
  readonly to: number;
  /** What the page shows: half the overlap more on each side that has a neighbour. */
  readonly shownFrom: number;
  readonly shownTo: number;
}

export interface Space {
  /** The longest stretch that one page can show, mm; over `overlap`. */
  readonly longest: number;
  readonly overlap: number;
  /** Stretches where a seam would be in the way, such as fingers. */
  readonly keepClear: readonly Interval[];
}

/** Rounding at 2 m is 1e-13; a length may be this much over the room and still fit, mm. */
const FITS = 1e-9;

/**
 * Cuts the length from `from` to `to` into the fewest cells, as even as they can be with every seam outside
 * `keepClear`. Where no place is free for a seam, it stands as near the even place as it may.
 */
export function cellsAlong(
  from: number,
  to: number,
  { longest, overlap, keepClear }: Space,
): readonly Cell[] {
  const length = to - from;
  const count = length <= longest + FITS ? 1 : Math.ceil((length - overlap - FITS) / (longest - overlap));
  const seams = placeSeams(from, to, count, { longest, overlap, keepClear });
  const ends = [from, ...seams, to];
  return Array.from({ length: count }, (_, i) => {
    const low = ends[i] ?? from;
    const high = ends[i + 1] ?? to;
    return {
      from: low,
      to: high,
      shownFrom: i === 0 ? low : low - overlap / 2,
      shownTo: i === count - 1 ? high : high + overlap / 2,
    };
  });
}

/**
 * Going forward, the places that each seam can have with all those before it placed; going back, the even
 * place, or the nearest to it that the seam after it allows. The first and the last cell need no overlap at
 * their outer ends, so the chain runs as if seams stood half an overlap inside the ends.
 */
function placeSeams(from: number, to: number, count: number, room: Space): readonly number[] {
  const step = room.longest - room.overlap;
  const gap = Math.min(step, room.overlap);
  const first = from + room.overlap / 2;
  const last = to - room.overlap / 2;
  const reachable: (readonly Interval[])[] = [];
  for (let k = 1; k < count; k++) {
    const before = reachable.at(-1) ?? [{ from: first, to: first }];
    const within = before.map((one) => ({
      from: Math.max(one.from + gap, last - (count - k) * step),
      to: Math.min(one.to + step, last - (count - k) * gap),
    }));
    // Places that are free before several seams overlap after one more: unless they are joined, they multiply.
    const joined = joinedIntervals(within.filter(({ from: low, to: high }) => high >= low));
    const free = joined.flatMap((one) => without(one, room.keepClear));
    reachable.push(free.length > 0 ? free : within);
  }
  const seams: number[] = [];
  let after = last;
  for (const [i, places] of [...reachable.entries()].reverse()) {
    const limit = after;
    const allowed = places.map((one) => ({
      from: Math.max(one.from, limit - step),
      to: Math.min(one.to, limit - gap),
    }));
    after = nearestSeam(first + ((i + 1) * (last - first)) / count, allowed);
    seams.push(after);
  }
  return seams.reverse();
}

/** The parts of a stretch that are in none of the others. */
function without(one: Interval, others: readonly Interval[]): readonly Interval[] {
  return others.reduce<readonly Interval[]>(
    (left, other) =>
      left.flatMap((part) => {
        if (other.to <= part.from || other.from >= part.to) return [part];
        const before = { from: part.from, to: other.from };
        const after = { from: other.to, to: part.to };
        return [before, after].filter((rest) => rest.to >= rest.from);
      }),
    [one],
  );
}

function nearestSeam(wanted: number, places: readonly Interval[]): number {
  const choices = places
    .filter((one) => one.to >= one.from - FITS)
    .map((one) => Math.min(Math.max(wanted, one.from), Math.max(one.from, one.to)));
  const [first = wanted, ...rest] = choices;
  return rest.reduce((best, one) => (Math.abs(one - wanted) < Math.abs(best - wanted) ? one : best), first);
}
