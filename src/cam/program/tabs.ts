import { cross, minus, unit } from '../../geometry/point.js';
import { lengthOf, pointAt } from '../../geometry/segment.js';
import type { Point, Segment } from '../../geometry/types.js';
import type { Contour } from './contour.js';

/** A piece of a tool's path over a holding tab, by lengths along the path, mm. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

/** Straight path that must be left beside a gap, mm, so that the tab does not touch a corner. */
const TAB_CLEARANCE = 1;

/**
 * Where a path leaves tabs standing: on its sides, evenly along them, on arcs only where nothing else will do. The tool is round, so over a tab of
 * width w it must stay up for w and its own diameter. Long sides on the rim of the path are taken before short ones,
 * and these before sides within, where fingers and openings are. Fewer come back where no more fit.
 */
export function gapsFor(path: Contour, count: number, width: number, cutter: number): readonly Gap[] {
  const gap = width + cutter;
  const any = sidesOf(path).filter(({ length }) => length >= gap + 2 * TAB_CLEARANCE);
  const sides = any.filter(({ segment }) => segment.kind === 'line');
  const around = path.outline.segments.flatMap((one) => [
    one.from,
    ...[0.25, 0.5, 0.75].map((t) => pointAt(one, t)),
  ]);
  const onRim = sides.filter(({ segment }) => isOnRim(segment, around));
  const choices = [onRim.filter(({ length }) => length >= 4 * gap), onRim, sides, any];
  const placed = choices.map((some) => spread(some, count, gap));
  const enough = placed.find((gaps) => gaps.length === count);
  return enough ?? placed.reduce((most, one) => (one.length > most.length ? one : most), []);
}

interface PathSide {
  readonly segment: Segment;
  readonly from: number;
  readonly length: number;
}

function sidesOf({ outline }: Contour): readonly PathSide[] {
  let from = 0;
  return outline.segments.map((segment) => {
    const length = lengthOf(segment);
    const side = { segment, from, length };
    from += length;
    return side;
  });
}

/** On the hull of the path: all of it lies on one side of the line, so no finger or opening is near. */
function isOnRim({ from, to }: Segment, around: readonly Point[]): boolean {
  const along = unit(minus(to, from));
  const aside = (at: Point): number => cross(along, minus(at, from));
  return !(around.some((at) => aside(at) >= 1e-6) && around.some((at) => aside(at) <= -1e-6));
}

/** The middles of gaps may lie anywhere on a side but its ends; these stretches, put together, are shared evenly. */
function spread(sides: readonly PathSide[], count: number, gap: number): readonly Gap[] {
  const usable = sides.map(({ from, length }) => ({
    from: from + gap / 2 + TAB_CLEARANCE,
    length: length - gap - 2 * TAB_CLEARANCE,
  }));
  const total = usable.reduce((sum, { length }) => sum + length, 0);
  const gaps: Gap[] = [];
  for (let i = 0; i < count && usable.length > 0; i++) {
    let left = (total * (i + 0.5)) / count;
    const side = usable.find(({ length }) => {
      if (left <= length) return true;
      left -= length;
      return false;
    });
    const middle = side ? side.from + left : 0;
    const last = gaps.at(-1);
    if (side && (!last || middle - gap / 2 > last.to + TAB_CLEARANCE)) {
      gaps.push({ from: middle - gap / 2, to: middle + gap / 2 });
    }
  }
  return gaps;
}
