import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import { offsetRegion } from '../../geometry/offset.js';
import { openedRegion } from '../../geometry/opening.js';
import { extents, rectangle } from '../../geometry/outline.js';
import { distance } from '../../geometry/point.js';
import { difference } from '../../geometry/regions/boolean.js';
import { boxTree } from '../../geometry/regions/box-tree.js';
import { distanceToSegment, extentsOfSegment, lengthOf, pointAt } from '../../geometry/segment.js';
import type { Bend } from '../../geometry/svg/biarc.js';
import type { Extents, Outline, Point, Region } from '../../geometry/types.js';
import type { Bit, Bushing, Shop } from '../../input/types.js';
import { bitsThat, bushingsThat, judgeTools } from '../tools.js';
import { alongLine, type EdgeSide } from './side.js';

/**
 * Whether a bit in its bushing can follow the line on one board. The curve's own bends say where and how much
 * too tight; what is left standing, or cut away too much, says whether that matters.
 */
export interface ReachRequest {
  readonly side: EdgeSide;
  readonly bit: Bit;
  readonly bushing: Bushing;
  /** R, the waste with its ease. */
  readonly waste: Region;
  readonly stock: Outline;
  readonly ease: number;
  readonly depth: number;
  readonly shop: Shop;
  readonly width: number;
  readonly bitAt: string;
  readonly bushingAt: string;
  readonly lineAt: string;
}

/** Wood left standing, or lost, no thicker than this does not keep the joint from closing, mm: the project's promise. */
const MATTERS = 0.005;

/** A radius is not smaller than another one by less than this, mm. */
const SAME_RADIUS = 1e-6;

/** A bend tighter than this is a corner, mm. */
const CORNER = 1e-3;

export function judgeReach(request: ReachRequest): readonly Diagnostic[] {
  return [...bayDiagnostics(request), ...bumpDiagnostics(request), ...plateDiagnostics(request)];
}

// Bays: where the bit must enter

function bayDiagnostics(request: ReachRequest): readonly Diagnostic[] {
  const { side, bit, waste, stock, ease, bitAt, lineAt } = request;
  const r = bit.diameter / 2;
  const bays = bendsOnBoard(request).filter(({ curvature }) => curvature < 0);
  const tight = bays.filter((one) => radiusOf(one) + ease < r - SAME_RADIUS);
  const left = lossesOf(waste, openedRegion(waste, r), extents(stock));
  const worst = Math.max(0, ...left.map(({ depth }) => depth));
  const place = (at: Point) => placeOnSide(side, at);
  const corners = tight.filter(isCorner);
  const [corner] = corners;
  const bends = tight.filter((one) => !isCorner(one));
  const bend = tightest(bends);
  if (worst <= MATTERS) {
    const least = tightest(tight);
    if (least === undefined) return [];
    const radius = radiusOf(least);
    const data = { ...place(least.at), radius, bit: bit.name, largest: 2 * (radius + ease), left: worst };
    return [diagnostic('bend-nearly-tight', 'caution', bitAt, data)];
  }
  const found: Diagnostic[] = [];
  if (corner !== undefined) {
    const data = { ...place(corner.at), bit: bit.name, radius: r, more: corners.length - 1 };
    found.push(diagnostic('corner-sharp', 'refused', lineAt, data));
  }
  if (bend !== undefined) {
    const radius = radiusOf(bend);
    const largest = 2 * (radius + ease);
    const others = bitsFor(request, largest);
    const data = { ...place(bend.at), radius, bit: bit.name, largest, more: bends.length - 1, others };
    found.push(diagnostic('bend-tight', 'refused', bitAt, data));
  }
  const narrow = left.find((one) => one.depth > MATTERS && !tight.some(({ at }) => isNear(at, one, r)));
  if (narrow !== undefined) {
    const largest = largestThrough(request);
    const others = bitsFor(request, largest);
    const data = { ...place(narrow.at), bit: bit.name, largest, others };
    found.push(diagnostic('gap-narrow', 'refused', bitAt, data));
  }
  return found;
}

/** The largest bit that leaves nothing that matters, by halving, to a hundredth of a mm and not over; 0 for none. */
function largestThrough({ waste, stock, bit }: ReachRequest): number {
  const passes = (radius: number): boolean => {
    const left = lossesOf(waste, openedRegion(waste, radius), extents(stock));
    return left.every(({ depth }) => depth <= MATTERS);
  };
  let [good, bad] = [0, bit.diameter / 2];
  while (bad - good > 0.005) {
    const middle = (good + bad) / 2;
    if (passes(middle)) good = middle;
    else bad = middle;
  }
  return Math.floor(200 * good) / 100;
}

/** Bits of the shop that the line's bends let through and that the bushing can guide round its bumps. */
function bitsFor(request: ReachRequest, largest: number): readonly string[] {
  const { bushing, depth, shop, bitAt, bushingAt } = request;
  const bump = Math.min(Infinity, ...bumpsOf(request).map(radiusOf));
  return bitsThat(
    shop,
    (bit) =>
      bit.kind === 'straight' &&
      bit.diameter <= largest + SAME_RADIUS &&
      bushing.outside / 2 - bit.diameter / 2 <= bump - request.ease + SAME_RADIUS &&
      judgeTools({ bit, bushing, depth, bitAt, bushingAt }, shop).every(({ level }) => level !== 'refused'),
  );
}

// Bumps: what the bushing is guided round

/**
 * The template's edge lies δ = B/2 − r inside the wood. What is left of the wood is therefore, but for its bays,
 * the wood opened by δ: round a bump with less radius than that nothing is left of the template, and the bushing
 * goes straight on.
 */
function bumpDiagnostics(request: ReachRequest): readonly Diagnostic[] {
  const { side, bit, bushing, stock, ease, depth, shop, bitAt, bushingAt } = request;
  const r = bit.diameter / 2;
  const inside = bushing.outside / 2 - r;
  if (inside <= 0) return [];
  const wood = woodOf(request);
  const guided = openedRegion(wood, inside);
  const lost = lossesOf(wood, guided, extents(stock)).filter((one) => one.depth > MATTERS);
  if (lost.length === 0) return [];
  const bumps = bumpsOf(request).filter((one) => radiusOf(one) - ease < inside - SAME_RADIUS);
  const reach = bushing.outside / 2;
  const found: Diagnostic[] = [];
  // Where the line has a corner, the board that it cuts into says so.
  const bump = tightest(bumps.filter((one) => !isCorner(one)));
  if (bump !== undefined) {
    const radius = radiusOf(bump);
    const largest = 2 * (radius - ease + r);
    const others = bushingsThat(
      shop,
      (other) =>
        other.outside <= largest + SAME_RADIUS &&
        judgeTools({ bit, bushing: other, depth, bitAt, bushingAt }, shop).every(
          (one) => one.level !== 'refused',
        ),
    );
    const data = {
      ...placeOnSide(side, bump.at),
      radius,
      bit: bit.name,
      bushing: bushing.name,
      largest,
      others,
    };
    found.push(diagnostic('bump-tight', 'refused', bushingAt, data));
  }
  const neck = lost.find((one) => !bumps.some(({ at }) => isNear(at, one, reach)));
  if (neck !== undefined) {
    const data = { ...placeOnSide(side, neck.at), bit: bit.name, bushing: bushing.name };
    found.push(diagnostic('neck-thin', 'refused', bushingAt, data));
  }
  return found;
}

/** The wood behind the line, with some more behind it and beside it. */
function woodOf({ side, waste, bushing, shop, width }: ReachRequest): Region {
  const more = bushing.outside + 2 * shop.plate.leastFinger;
  const { minX, maxX } = extents(...waste);
  const frame = rectangle(Math.min(minX, -more), 0, Math.max(maxX, width + more), side.high + 3 * more);
  return difference([frame], waste);
}

/** Parts of the plate beside the line that its sheet cannot hold: what a disc of the least finger does not fill. */
function plateDiagnostics(request: ReachRequest): readonly Diagnostic[] {
  const { side, bit, bushing, stock, shop, bushingAt } = request;
  const least = shop.plate.leastFinger;
  const inside = (bushing.outside - bit.diameter) / 2;
  const wood = woodOf(request);
  const plate = offsetRegion(wood, -inside);
  const strong = offsetRegion(offsetRegion(wood, -inside - least / 2), least / 2);
  const thin = lossesOf(plate, strong, extents(stock)).filter(({ depth }) => depth > least / 2);
  const [worst] = thin.sort((a, b) => b.depth - a.depth);
  if (worst === undefined) return [];
  return [diagnostic('plate-thin', 'refused', bushingAt, { ...placeOnSide(side, worst.at), least })];
}

// Bends and losses

function bendsOnBoard({ side, width, bit }: ReachRequest): readonly Bend[] {
  const r = bit.diameter / 2;
  return side.bends.filter(({ at }) => at.x > -r && at.x < width + r);
}

function bumpsOf(request: ReachRequest): readonly Bend[] {
  return bendsOnBoard(request).filter(({ curvature }) => curvature > 0);
}

const radiusOf = ({ curvature }: Bend): number => 1 / Math.abs(curvature);

const isCorner = (one: Bend): boolean => radiusOf(one) < CORNER;

function tightest(bends: readonly Bend[]): Bend | undefined {
  return bends.reduce<Bend | undefined>(
    (best, one) => (best === undefined || radiusOf(one) < radiusOf(best) ? one : best),
    undefined,
  );
}

/** One stretch of a region's boundary that an opening has left, and how far away it lies from what is left. */
interface Loss {
  readonly points: readonly Point[];
  readonly depth: number;
  readonly at: Point;
}

/** Places on a boundary that are looked at lie no farther apart than this, mm: bits are larger. */
const LOOK = 0.5;

/**
 * Where the boundary of a region lies away from that of the region opened, over a board. Taken from the
 * boundaries and not from the difference of the two regions: they lie on one another nearly all along.
 */
function lossesOf(region: Region, opened: Region, over: Extents): readonly Loss[] {
  const edges = opened.flatMap(({ segments }) => segments);
  const tree = boxTree(edges.map(extentsOfSegment));
  const off = (p: Point): number => {
    const isOn = tree.search(p.x - ON, p.y - ON, p.x + ON, p.y + ON, (i) => {
      const edge = edges[i];
      return edge !== undefined && distanceToSegment(p, edge) <= ON;
    });
    return isOn ? 0 : edges.reduce((least, edge) => Math.min(least, distanceToSegment(p, edge)), Infinity);
  };
  return region.flatMap(({ segments }) => {
    const points = segments.flatMap((one) => {
      const count = Math.max(4, Math.ceil(lengthOf(one) / LOOK));
      return Array.from({ length: count }, (_, i) => pointAt(one, i / count));
    });
    const losses: { points: Point[]; depth: number; at: Point }[] = [];
    for (const p of points.filter((one) => isOver(one, over))) {
      const depth = off(p);
      if (depth === 0) continue;
      const last = losses.at(-1);
      const before = last?.points.at(-1);
      if (last === undefined || before === undefined || distance(before, p) > 2 * LOOK) {
        losses.push({ points: [p], depth, at: p });
        continue;
      }
      last.points.push(p);
      if (depth > last.depth) Object.assign(last, { depth, at: p });
    }
    return losses;
  });
}

/** A boundary this near is the same one, mm. */
const ON = 1e-5;

function isOver({ x, y }: Point, { minX, minY, maxX, maxY }: Extents): boolean {
  return x >= minX && x <= maxX && y > minY && y < maxY;
}

function isNear(at: Point, { points }: Loss, within: number): boolean {
  return points.some((p) => distance(p, at) < within);
}

function placeOnSide(side: EdgeSide, at: Point) {
  return { board: side.board, x: at.x, y: at.y, along: alongLine(side, at) };
}
