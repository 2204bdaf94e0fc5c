import { areaOfRegion, extents, rectangle } from '../../geometry/outline.js';
import { intersection } from '../../geometry/regions/boolean.js';
import { clipLine } from '../../geometry/regions/clip.js';
import type { Extents } from '../../geometry/types.js';
import { type PlateSide, type Screw, TIP_CORNER } from '../plate.js';
import { sweptUnder } from './geometry.js';
import { HOLE_WALL } from './register.js';
import type { SideRequest } from './stops.js';
import type { CarrierPart, LackingPart } from './types.js';

/** What boards lie against: the fence behind those on end, a gauge before those that lie flat. */

/** Fence below the deepest cut, for boards to be clamped against, mm: 1 in; common practice, no source. */
const BELOW_CUT = 25.4;

/** Of thin sheet no more layers than these below the cut: they are stiff enough in a vice. */
const WHOLE_LAYERS = 2;

/** The backing is at least this much thicker than the work, mm: 1/4 in; common practice, no source. */
const BACKING_MORE = 25.4 / 4;

/** From a row of screws to the edge of a fence behind it, mm. */
const BEHIND_SCREWS = 12;

export interface FenceRequest extends SideRequest {
  /** Of another side with boards on end that has the same fence: the line of their back faces, and how deep they are cut. */
  readonly other?: { readonly line: number; readonly depth: number };
  /** The longest part that a machine has room for; absent where there is no limit. */
  readonly longest?: number;
}

/**
 * The fence, in as many lengths as the machine wants, each held by screws of the plate's own. Its face stands on the line of the boards' back faces,
 * and it is their backing, too: at the first cut the bit makes its slots in the upper layers, and it comes that way again at every other one.
 */
export function fenceParts(request: FenceRequest): readonly (CarrierPart | LackingPart)[] {
  const { side, index, thickness, under, other, longest, radius } = request;
  const { box, screws, cut } = side;
  const work = Math.max(0, ...under.map(({ at }) => -at.minY));
  const row = Math.max(...screws.map(({ y }) => y));
  const to = other?.line ?? Math.max(box.maxY, row + BEHIND_SCREWS, work + BACKING_MORE);
  const whole = { minX: box.minX, maxX: box.maxX, minY: 0, maxY: to };
  const away = radius + HOLE_WALL;
  const held = screws.filter(({ y }) => y > away - 1e-6 && y < to - away + 1e-6);
  const lengths = lengthsOf(whole, held, longest ?? Number.POSITIVE_INFINITY);
  if (!lengths) return [{ name: 'fence', role: 'fence', side: index }];
  const depth = Math.max(cut.depth, other?.depth ?? 0);
  const reached = Math.ceil(depth / thickness - 1e-9);
  const copies = Math.min(Math.ceil((depth + BELOW_CUT) / thickness - 1e-9), reached + WHOLE_LAYERS);
  const swept = intersection(sweptUnder(side), [rectangle(box.minX, 0, box.maxX, to)]);
  const scrap = areaOfRegion(swept) > 1e-3 && {
    depth,
    layers: Math.min(copies, reached),
    to: extents(...swept).maxY,
  };
  return lengths.map(
    ({ minX, maxX }, i): CarrierPart => ({
      name: lengths.length > 1 ? `fence, part ${i + 1}` : 'fence',
      role: 'fence',
      side: index,
      edges: [{ axis: 'y', at: 0 }, ...(other ? [{ axis: 'y' as const, at: other.line }] : [])],
      layers: [{ outline: rectangle(minX, 0, maxX, to), copies, from: 0 }],
      holes: held.filter(({ x }) => x > minX && x < maxX),
      ...(scrap && { scrap }),
    }),
  );
}

/** The fence cut in as few lengths as may be, halfway between screws, so that two or more hold each; undefined where that can't be. */
function lengthsOf(
  { minX, maxX }: Extents,
  screws: readonly Screw[],
  longest: number,
): readonly { readonly minX: number; readonly maxX: number }[] | undefined {
  const xs = screws.map(({ x }) => x).toSorted((a, b) => a - b);
  const between = xs.slice(1).map((x, i) => (x + (xs[i] ?? x)) / 2);
  const found: { minX: number; maxX: number }[] = [];
  for (let from = minX; from < maxX; ) {
    const held = (to: number): boolean => xs.filter((x) => x > from && x < to).length >= 2;
    // The last length must have its two screws, too.
    const to = [maxX, ...between.toReversed()].find(
      (one) =>
        one > from &&
        one - from <= longest &&
        held(one) &&
        (one === maxX || xs.filter((x) => x > one).length >= 2),
    );
    if (to === undefined) return undefined;
    found.push({ minX: from, maxX: to });
    from = to;
  }
  return found;
}

/** The gauge's grip before the plate's near edge, mm. */
const GRIP = 30;

/** The gauge's lower layers reach this far below where a rabbet begins, mm. */
const PAST_RABBET = 3;

/** A gauge bears on finger tips at least this wide in all, mm. */
const MIN_BEARING = 10;

/** Before flat boards: pushed against the tips of the plate's fingers it shows where their end goes. */
export function gaugePart({
  side,
  index,
  thickness,
  under,
  radius,
  longest,
  shared,
}: FenceRequest): CarrierPart | LackingPart {
  const board = under.find(({ posture }) => posture === 'flat')?.board ?? '';
  const about = { name: shared ? `gauge, ${board}` : 'gauge', role: 'gauge' as const, side: index };
  const flat = under.filter(({ posture }) => posture === 'flat');
  const { box, cut } = side;
  const y = Math.min(...flat.map(({ at }) => at.minY));
  const from = Math.min(cut.nearEdge, y) - GRIP;
  const middle = (box.minX + box.maxX) / 2;
  const half = Math.min(box.maxX - box.minX, longest ?? Number.POSITIVE_INFINITY) / 2;
  const [minX, maxX] = [middle - half, middle + half];
  if (!bears(side, minX, maxX)) return about;
  const rabbet = Math.max(0, ...flat.map(({ lip }) => (lip && lip.end > 0 ? lip.rabbet + PAST_RABBET : 0)));
  const away = radius + HOLE_WALL;
  const holeY = (from + Math.min(cut.nearEdge, y)) / 2;
  return {
    ...about,
    edges: [{ axis: 'y', at: y }],
    layers: [
      { outline: rectangle(minX, from, maxX, cut.nearEdge), copies: 1, from: -thickness },
      {
        outline: rectangle(minX, from, maxX, y),
        copies: Math.max(1, Math.ceil(rabbet / thickness - 1e-9)),
        from: 0,
      },
    ],
    holes: [minX + 2 * away, maxX - 2 * away].map((x) => ({ x, y: holeY, radius })),
  };
}

/** Whether the plate's near edge bears on the gauge on either side of its middle. */
function bears({ outline, cut }: PlateSide, minX: number, maxX: number): boolean {
  const y = cut.nearEdge + TIP_CORNER;
  const tips = clipLine({ x: minX, y }, { x: maxX, y }, [outline]).map((one) => extents(one));
  const middle = (minX + maxX) / 2;
  const width = (from: number, to: number): number =>
    tips.reduce((sum, tip) => sum + Math.max(0, Math.min(to, tip.maxX) - Math.max(from, tip.minX)), 0);
  return Math.min(width(minX, middle), width(middle, maxX)) >= MIN_BEARING / 2;
}
