import { bushingOpening, cutBy } from '../../src/geometry/compensate.js';
import { offsetRegion } from '../../src/geometry/offset.js';
import { extents } from '../../src/geometry/outline.js';
import { clipLine } from '../../src/geometry/regions/clip.js';
import type { Region } from '../../src/geometry/types.js';
import type { Cut, SolvedJoint } from '../../src/joints/family.js';
import type { Factors } from '../../src/joints/fit-model.js';

/**
 * The play of one mating pair in the middle of the joint, cut with tools and settings that are a little off, mm
 * and radians: plates as they are compensated for the nominal tools, their openings widened by the
 * kerf's error, the bushing that there is moved in them and the waste of the bit that there is read off along
 * two lines. undefined where the bushing does not go into an opening.
 */
export function playByCutting(solved: SolvedJoint, errors: Factors): number | undefined {
  return solved.kind === 'half-blind-dovetail' ? sunkPlay(solved, errors) : crossedPlay(solved, errors);
}

/** Socket or slot of the first board, pin or finger of the second, both at the same place along x. */
function crossedPlay(solved: SolvedJoint, errors: Factors): number | undefined {
  const through = solved.kind === 'through-dovetail';
  const x = middleOf(solved, through ? 'pin' : 'slot');
  const [first, second] = solved.cuts;
  if (!first || !second || x === undefined) return undefined;
  const [own, other] = [first.stock[0]?.board ?? '', second.stock[0]?.board ?? ''];
  const thickness = thicknessOf(second, other);
  const half = (thickness + (errors.thickness ?? 0)) / 2;
  const socket = runAround(cutAt(first, through ? half : 0, errors), x, -thicknessOf(first, own) / 2);
  const pin = gapAround(cutAt(second, 0, errors), x, through ? -half : -thickness / 2);
  return socket === undefined || pin === undefined ? undefined : socket - pin;
}

/** A tail's end in the bottom of its socket. */
function sunkPlay(solved: SolvedJoint, errors: Factors): number | undefined {
  const x = middleOf(solved, 'tail');
  const side = cutOfBoard(solved, 'tails');
  const front = cutOfBoard(solved, 'pins');
  if (x === undefined || !side || !front) return undefined;
  const box = boxOf(side, 'tails');
  const depth = side.depth + (errors.depth ?? 0);
  const socket = runAround(cutAt(front, 0, errors), x, A_LITTLE);
  const tail = gapAround(cutAt(side, depth, errors), box.minX + x, -A_LITTLE);
  return socket === undefined || tail === undefined ? undefined : socket - tail;
}

/** Beside the plane in which the front's end and the side's outside face lie: walls are straight there, mm. */
const A_LITTLE = 0.5;

/** What the bit clears at a height above its tip. */
function cutAt(cut: Cut, height: number, errors: Factors): Region {
  const { bit, bushing, waste, cutterRadius } = cut;
  const plate = bushingOpening(waste, cutterRadius, bushing.outside / 2);
  const kerf = errors.kerf ?? 0;
  const opening = kerf === 0 ? plate : offsetRegion(plate, kerf / 2);
  const angle = bit.kind === 'dovetail' ? bit.angle + (errors.angle ?? 0) : 0;
  const radius = (bit.diameter + (errors[bit.kind] ?? 0)) / 2 - height * Math.tan(angle);
  return cutBy(opening, (bushing.outside + (errors.bushing ?? 0)) / 2, radius);
}

/** The middle of an inner span of the layout, as near to the middle of the board as there is one. */
function middleOf({ layout, width }: SolvedJoint, part: string): number | undefined {
  const inner = layout.spans.slice(1, -1).filter((span) => span.part === part);
  const middles = inner.map(({ from, to }) => (from + to) / 2);
  return middles.sort((one, other) => Math.abs(one - width / 2) - Math.abs(other - width / 2))[0];
}

function cutOfBoard({ cuts }: SolvedJoint, board: string): Cut | undefined {
  return cuts.find(({ stock }) => stock.some((one) => one.board === board));
}

function boxOf({ stock }: Cut, board: string) {
  return extents(...stock.filter((one) => one.board === board).map(({ outline }) => outline));
}

function thicknessOf(cut: Cut, board: string): number {
  const { minY, maxY } = boxOf(cut, board);
  return maxY - minY;
}

function runsAlong(region: Region, y: number): readonly (readonly [number, number])[] {
  const { minX, maxX } = extents(...region);
  return clipLine({ x: minX - 1, y }, { x: maxX + 1, y }, region).map((part) => {
    const box = extents(part);
    return [box.minX, box.maxX] as const;
  });
}

function runAround(region: Region, x: number, y: number): number | undefined {
  const run = region.length > 0 && runsAlong(region, y).find(([from, to]) => from < x && x < to);
  return run ? run[1] - run[0] : undefined;
}

function gapAround(region: Region, x: number, y: number): number | undefined {
  const runs = region.length > 0 ? runsAlong(region, y) : [];
  const before = runs.filter(([, to]) => to <= x).at(-1);
  const after = runs.find(([from]) => from >= x);
  return before && after ? after[0] - before[1] : undefined;
}
