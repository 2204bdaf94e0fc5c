import { linesOf } from '../drawing/drawing.js';
import type { Item } from '../drawing/model.js';
import { type Finding, finding } from '../findings/finding.js';
import { extents } from '../geometry/outline.js';
import { extentsOfSegment } from '../geometry/segment.js';
import type { Extents, Point } from '../geometry/types.js';
import type { Shop } from '../job/types.js';
import { boardsUnder, type HalfTurn, type Plate, type PlateSide, SCREW_HOLE, type Screw } from './plate.js';

/**
 * Where a plate that is longer than the bed is parted. A seam runs across the plate through the middle of a
 * finger, or of an opening whose far end guides nothing, and steps out into a key in the spine.
 */
export interface Seam {
  /** Where it runs straight. */
  readonly x: number;
  /** From and to, along y, of the key by which the part at its left reaches into the part at its right. */
  readonly key: readonly [number, number];
  readonly keyDepth: number;
  /** Radius of the key's corners, inside and outside. */
  readonly keyRound: number;
  /** One left and one right of the seam, for pins in the fence. */
  readonly indexHoles: readonly [Screw, Screw];
}

/** What a machine has room for, less what its tool needs around a plate. */
export interface Bed {
  readonly width: number;
  readonly height: number;
  /** Key of the shop that the bed stands under. */
  readonly at: string;
  /** Width of the tool. */
  readonly tool: number;
}

/** No seam nearer than this to an edge that guides the bushing, nor to a screw; common practice, no source, mm. */
export const SEAM_CLEAR = 5;

/** The key's depth and height over what its round corners take, mm. */
const KEY_STRAIGHT = 4;
const KEY_HEIGHT = 10;

/** The key's corners have this radius, mm, or that of a wider end mill, which has to get into them. */
const KEY_ROUND = 3;

/** From the key to the middle of an index hole, mm. */
const HOLE_AWAY = 12;

/** No part shorter than this, mm: it has both its index holes and some length to lie against the fence. */
const SHORTEST_PART = 80;

/** Places for a seam in one wide clear stretch are this far apart, mm. */
const STEP = 25;

/** The bed that plates have to fit: that of the machine they are cut for, else the larger one of those known. */
export function bedOf({ plate, laser, cnc }: Shop): Bed | undefined {
  const beds = [
    ...(plate.cutFor !== 'laser' && cnc?.bed ? [bedFor(cnc.bed, cnc.cutter ?? 0, 'shop.cnc.bed')] : []),
    ...(plate.cutFor !== 'cnc' && laser?.bed ? [bedFor(laser.bed, laser.kerf ?? 0, 'shop.laser.bed')] : []),
  ];
  return beds.reduce<Bed | undefined>(
    (large, one) => (large && large.width * large.height >= one.width * one.height ? large : one),
    undefined,
  );
}

/** A tool takes its own width all round. */
const bedFor = ([width, height]: readonly [number, number], tool: number, at: string): Bed => ({
  width: width - 2 * tool,
  height: height - 2 * tool,
  at,
  tool,
});

/**
 * The seams of a plate, none where it fits the bed; or why there can be none. `words` is the lettering that a
 * seam must not run through. As few parts as will do, the longest of them as short as may be.
 */
export function seamsOf(
  plate: Plate,
  words: readonly Item[],
  bed: Bed,
): { readonly seams: readonly Seam[]; readonly findings: readonly Finding[] } {
  const frame = extents(plate.outline);
  const width = frame.maxX - frame.minX;
  const height = frame.maxY - frame.minY;
  const longest = longestPart(height, bed);
  if (width <= longest) return { seams: [], findings: [] };
  const size = { name: plate.name, width, height, bedWidth: bed.width, bedHeight: bed.height };
  if (longest < SHORTEST_PART) {
    return { seams: [], findings: [finding('plate-deep-for-bed', 'caution', bed.at, size)] };
  }
  const key = keyOf(plate, bed);
  const spine = spineOf(plate);
  if (key.key[1] > spine[1] - SEAM_CLEAR + 1e-9) {
    const data = { ...size, spine: spine[1] - spine[0], least: key.key[1] - key.key[0] + 2 * SEAM_CLEAR };
    return { seams: [], findings: [finding('spine-under-key', 'caution', bed.at, data)] };
  }
  const places = placesFor(plate, words, key, frame);
  const chosen = fewest(places, frame, longest, key.keyDepth);
  if (!chosen) {
    const ends = [frame.minX, ...places, frame.maxX];
    const stretch = Math.max(...ends.slice(1).map((x, i) => x - (ends[i] ?? x)));
    const data = { ...size, clear: SEAM_CLEAR, stretch };
    return { seams: [], findings: [finding('plate-no-seam', 'caution', bed.at, data)] };
  }
  const seams = chosen.map((x) => seamAt(x, key));
  const apart = 2 * HOLE_AWAY + key.keyDepth;
  const data = { ...size, parts: seams.length + 1, seams: chosen, apart, hole: 2 * key.holeRadius };
  return { seams, findings: [finding('plate-in-bed-parts', 'ok', bed.at, data)] };
}

/** How long a plate of this depth may be on the bed: along it or, where it is too deep for that, across; 0 if neither. */
function longestPart(height: number, bed: Bed): number {
  if (height <= bed.height) return Math.max(bed.width, height <= bed.width ? bed.height : 0);
  return height <= bed.width ? bed.height : 0;
}

// The key

interface Key extends Omit<Seam, 'x' | 'indexHoles'> {
  readonly holeRadius: number;
}

/** y from and to of the plate that no opening reaches. */
function spineOf({ sides, spineFrom, box }: Plate): readonly [number, number] {
  const [, second] = sides;
  return [spineFrom, second?.turned ? second.turned.y - second.spineFrom : box.maxY];
}

function keyOf(plate: Plate, { tool }: Bed): Key {
  const [from, to] = spineOf(plate);
  const keyRound = Math.max(KEY_ROUND, tool / 2 + 0.1);
  const height = 2 * keyRound + KEY_HEIGHT;
  const low = Math.max(from + SEAM_CLEAR, (from + to - height) / 2);
  return {
    key: [low, low + height],
    keyRound,
    keyDepth: 2 * keyRound + KEY_STRAIGHT,
    // As wide as the screw holes, so that what makes those makes these.
    holeRadius: plate.screws[0]?.radius ?? SCREW_HOLE / 2,
  };
}

function seamAt(x: number, { holeRadius: radius, ...key }: Key): Seam {
  const y = (key.key[0] + key.key[1]) / 2;
  return {
    ...key,
    x,
    indexHoles: [
      { x: x - HOLE_AWAY, y, radius },
      { x: x + key.keyDepth + HOLE_AWAY, y, radius },
    ],
  };
}

/** How far left and right of the middle of a seam its index holes reach, with some sheet around them. */
export const reachOf = ({ x, indexHoles: [left, right] }: Seam): readonly [number, number] => [
  x - left.x + left.radius + SEAM_CLEAR,
  right.x - x + right.radius + SEAM_CLEAR,
];

// Where a seam may run

type Stretch = readonly [number, number];

/** Over the board only, so that every part has some of it. */
function placesFor(plate: Plate, words: readonly Item[], key: Key, frame: Extents): readonly number[] {
  const seam = seamAt(0, key);
  const [left, right] = reachOf(seam);
  const beside = ([from, to]: Stretch, by: number, more = by): Stretch => [from - more, to + by];
  const closed: readonly Stretch[] = [
    ...guidingStretches(plate).map((one) => beside(one, SEAM_CLEAR)),
    ...words
      .filter((item) => item.kind === 'text')
      .map((item) => extents(...linesOf(item)))
      .map(({ minX, maxX }) => beside([minX, maxX], SEAM_CLEAR / 2)),
    ...plate.screws.map((screw): Stretch => {
      const level =
        screw.y + screw.radius > key.key[0] - SEAM_CLEAR && screw.y - screw.radius < key.key[1] + SEAM_CLEAR;
      const at: Stretch = [screw.x - screw.radius, screw.x + screw.radius];
      return level ? beside(at, left, right) : beside(at, SEAM_CLEAR);
    }),
  ];
  const boards = boardsUnder(plate.cut);
  const open = between(closed, [
    Math.max(frame.minX + SHORTEST_PART, boards.minX + SEAM_CLEAR),
    Math.min(frame.maxX - SHORTEST_PART, boards.maxX - SEAM_CLEAR),
  ]);
  return open.flatMap(([from, to]) => {
    const count = Math.max(1, Math.floor((to - from) / STEP));
    return Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);
  });
}

/** What is left of a stretch beside closed ones. */
function between(closed: readonly Stretch[], [from, to]: Stretch): readonly Stretch[] {
  const sorted = [...closed].sort(([a], [b]) => a - b);
  const open: Stretch[] = [];
  let at = from;
  for (const [start, end] of sorted) {
    if (start > at) open.push([at, Math.min(start, to)]);
    at = Math.max(at, end);
  }
  if (at < to) open.push([at, to]);
  return open.filter(([a, b]) => b > a);
}

/** From and to, along x on the plate, of every edge that guides the bushing while the bit is in a board. */
export function guidingStretches(plate: Plate): readonly Stretch[] {
  const inner = plate.holes.slice(0, plate.holes.length - plate.screws.length);
  return [
    ...plate.sides.flatMap(guidingOfSide),
    ...inner.map((one) => extents(one)).map(({ minX, maxX }): Stretch => [minX, maxX]),
  ];
}

function guidingOfSide({ cut, outline, box, turned }: PlateSide): readonly Stretch[] {
  const board = extents(...cut.stock.map((one) => one.outline));
  // With the bushing against an edge the middle of the bit is half the bushing away from it.
  const reach = cut.bushing.outside / 2 + cut.bit.diameter / 2 - 1e-6;
  const whole = extents(outline);
  return outline.segments.flatMap((segment) => {
    const at = extentsOfSegment(segment);
    const far = at.minY - reach >= board.maxY || at.minY > box.maxY - 1e-6;
    const near = at.maxY + reach <= board.minY;
    return far || near || onFrame(segment.from, segment.to, whole)
      ? []
      : [turnedBack([at.minX, at.maxX], turned)];
  });
}

/** The plate's own sides and their rounded corners. */
function onFrame(from: Point, to: Point, { minX, maxX, minY, maxY }: Extents): boolean {
  const beside = ({ x }: Point) => x < minX + 1e-6 || x > maxX - 1e-6;
  const along = ({ y }: Point) => y < minY + 1e-6 || y > maxY - 1e-6;
  return beside(from) || beside(to) || (along(from) && along(to));
}

const turnedBack = ([from, to]: Stretch, turn: HalfTurn | undefined): Stretch =>
  turn ? [turn.x - to, turn.x - from] : [from, to];

// Which of the places

/** The fewest seams that leave no part too long, and of those the ones whose longest part is shortest. */
function fewest(
  places: readonly number[],
  { minX, maxX }: Extents,
  longest: number,
  keyDepth: number,
): readonly number[] | undefined {
  interface Way {
    readonly seams: readonly number[];
    readonly longest: number;
  }
  // For each place, the best way to part what lies left of it, by how many parts that makes.
  let ways = new Map<number, Way>([[minX, { seams: [], longest: 0 }]]);
  const extended = (to: number, overhang: number): Way | undefined =>
    [...ways].reduce<Way | undefined>((best, [from, way]) => {
      const part = to + overhang - from;
      if (to - from < SHORTEST_PART - 1e-9 || part > longest) return best;
      const longer = Math.max(way.longest, part);
      return best && best.longest <= longer ? best : { seams: [...way.seams, to], longest: longer };
    }, undefined);
  for (let count = 0; count <= places.length && ways.size > 0; count += 1) {
    const whole = extended(maxX, 0);
    if (whole) return whole.seams.slice(0, -1);
    ways = new Map(
      places.flatMap((place): [number, Way][] => {
        const way = extended(place, keyDepth);
        return way ? [[place, way]] : [];
      }),
    );
  }
  return undefined;
}
