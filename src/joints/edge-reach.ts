import { type Finding, finding } from '../findings/finding.js';
import type { Bend } from '../geometry/biarc.js';
import { difference, intersection } from '../geometry/boolean.js';
import { bushingOpening, cutBy } from '../geometry/compensate.js';
import { openedRegion } from '../geometry/opening.js';
import { area, extents, rectangle } from '../geometry/outline.js';
import { distanceToSegment, pointAt } from '../geometry/segment.js';
import { tidyRegion } from '../geometry/tidy.js';
import { SLIVER } from '../geometry/tolerance.js';
import type { Outline, Point, Region } from '../geometry/types.js';
import type { Bit, Bushing, Shop } from '../job/types.js';
import { alongLine, type EdgeSide } from './edge-side.js';
import { bitsThat, bushingsThat, judgeTools } from './tools.js';

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

export interface Reach {
  /** What the bit clears of the waste: R with its bays rounded to the bit. */
  readonly cleared: Region;
  readonly findings: readonly Finding[];
}

/** Wood left standing, or lost, no thicker than this does not keep the joint from closing, mm: the project's promise. */
const MATTERS = 0.005;

/** A radius is not smaller than another one by less than this, mm. */
const SAME_RADIUS = 1e-6;

/** A bend tighter than this is a corner, mm. */
const CORNER = 1e-3;

export function judgeReach(request: ReachRequest): Reach {
  const { waste, bit } = request;
  const cleared = openedRegion(waste, bit.diameter / 2);
  return {
    cleared,
    findings: [...bayFindings(request, cleared), ...bumpFindings(request), ...plateFindings(request)],
  };
}

// Bays: where the bit must enter

function bayFindings(request: ReachRequest, cleared: Region): readonly Finding[] {
  const { side, bit, waste, stock, ease, bitAt, lineAt } = request;
  const r = bit.diameter / 2;
  const bays = bendsOnBoard(request).filter(({ curvature }) => curvature < 0);
  const tight = bays.filter((one) => radiusOf(one) + ease < r - SAME_RADIUS);
  const left = lossesOf(tidyRegion(intersection(difference(waste, cleared), [stock]), SLIVER), cleared);
  const worst = Math.max(0, ...left.map(({ depth }) => depth));
  const place = (at: Point) => placeOf(side, at);
  const corners = tight.filter(isCorner);
  const [corner] = corners;
  const bends = tight.filter((one) => !isCorner(one));
  const bend = tightest(bends);
  if (worst <= MATTERS) {
    const least = tightest(tight);
    if (least === undefined) return [];
    const radius = radiusOf(least);
    const data = { ...place(least.at), radius, bit: bit.name, largest: 2 * (radius + ease), left: worst };
    return [finding('bend-nearly-tight', 'caution', bitAt, data)];
  }
  const found: Finding[] = [];
  if (corner !== undefined) {
    const data = { ...place(corner.at), bit: bit.name, radius: r, more: corners.length - 1 };
    found.push(finding('corner-sharp', 'refused', lineAt, data));
  }
  if (bend !== undefined) {
    const radius = radiusOf(bend);
    const largest = 2 * (radius + ease);
    const others = bitsFor(request, largest);
    const data = { ...place(bend.at), radius, bit: bit.name, largest, more: bends.length - 1, others };
    found.push(finding('bend-tight', 'refused', bitAt, data));
  }
  const narrow = left.find(
    (one) => one.depth > MATTERS && !tight.some(({ at }) => isNear(at, one.outline, r)),
  );
  if (narrow !== undefined) {
    const largest = largestThrough(request);
    const others = bitsFor(request, largest);
    const data = { ...place(narrow.at), bit: bit.name, area: area(narrow.outline), largest, others };
    found.push(finding('gap-narrow', 'refused', bitAt, data));
  }
  return found;
}

/** The largest bit that leaves nothing that matters, by halving, to a hundredth of a mm and not over; 0 for none. */
function largestThrough({ waste, stock, bit }: ReachRequest): number {
  const passes = (radius: number): boolean => {
    const cleared = openedRegion(waste, radius);
    const left = tidyRegion(intersection(difference(waste, cleared), [stock]), SLIVER);
    return lossesOf(left, cleared).every(({ depth }) => depth <= MATTERS);
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
 * The template's edge lies δ = B/2 − r inside the wood. Round a bump of the wood with less radius than that
 * nothing is left of the template, and the bushing goes straight on.
 */
function bumpFindings(request: ReachRequest): readonly Finding[] {
  const { side, bit, bushing, waste, stock, ease, depth, shop, bitAt, bushingAt } = request;
  const r = bit.diameter / 2;
  const inside = bushing.outside / 2 - r;
  if (inside <= 0) return [];
  const opening = bushingOpening(waste, r, bushing.outside / 2);
  const cut = cutBy(opening, bushing.outside / 2, r);
  const over = tidyRegion(intersection(difference(cut, waste), [stock]), SLIVER);
  const lost = lossesOf(over, waste).filter((one) => one.depth > MATTERS);
  if (lost.length === 0) return [];
  const bumps = bumpsOf(request).filter((one) => radiusOf(one) - ease < inside - SAME_RADIUS);
  const reach = bushing.outside / 2;
  const found: Finding[] = [];
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
    const data = { ...placeOf(side, bump.at), radius, bit: bit.name, bushing: bushing.name, largest, others };
    found.push(finding('bump-tight', 'refused', bushingAt, data));
  }
  const neck = lost.find((one) => !bumps.some(({ at }) => isNear(at, one.outline, reach)));
  if (neck !== undefined) {
    const data = { ...placeOf(side, neck.at), bit: bit.name, bushing: bushing.name };
    found.push(finding('neck-thin', 'refused', bushingAt, data));
  }
  return found;
}

/** Parts of the plate beside the line that its sheet cannot hold: what a disc of the least finger does not fill. */
function plateFindings(request: ReachRequest): readonly Finding[] {
  const { side, bit, bushing, waste, stock, shop, bushingAt } = request;
  const least = shop.plate.leastFinger;
  const opening = bushingOpening(waste, bit.diameter / 2, bushing.outside / 2);
  const { minX, minY, maxX, maxY } = extents(...opening);
  const plate = difference([rectangle(minX - least, minY + 1, maxX + least, maxY + 4 * least)], opening);
  const strong = openedRegion(plate, least / 2);
  const board = extents(stock);
  const thin = lossesOf(tidyRegion(difference(plate, strong), SLIVER), strong).filter(
    ({ depth, at }) => depth > least / 2 && at.x > board.minX - least && at.x < board.maxX + least,
  );
  const [worst] = thin.sort((a, b) => b.depth - a.depth);
  if (worst === undefined) return [];
  return [finding('plate-thin', 'refused', bushingAt, { ...placeOf(side, worst.at), least })];
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

/** One piece that two regions differ by, and how far it reaches from the boundary of the one that is meant. */
interface Loss {
  readonly outline: Outline;
  readonly depth: number;
  readonly at: Point;
}

function lossesOf(pieces: Region, meant: Region): readonly Loss[] {
  const edges = meant.flatMap(({ segments }) => segments);
  return pieces
    .filter((one) => area(one) > 0)
    .map((piece) => {
      const points = piece.segments.flatMap((one) => [one.from, pointAt(one, 0.5)]);
      return points.reduce<Loss>(
        (deepest, at) => {
          const depth = edges.reduce((least, edge) => Math.min(least, distanceToSegment(at, edge)), Infinity);
          return depth > deepest.depth ? { outline: piece, depth, at } : deepest;
        },
        { outline: piece, depth: 0, at: piece.segments[0]?.from ?? { x: 0, y: 0 } },
      );
    });
}

function isNear({ x, y }: Point, piece: Outline, within: number): boolean {
  const { minX, minY, maxX, maxY } = extents(piece);
  return x > minX - within && x < maxX + within && y > minY - within && y < maxY + within;
}

function placeOf(side: EdgeSide, at: Point) {
  return { board: side.board, x: at.x, y: at.y, along: alongLine(side, at) };
}
