import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Item } from '../drawing/model.js';
import { extents } from '../geometry/outline.js';
import type { Extents } from '../geometry/types.js';
import type { Shop } from '../input/types.js';
import type { Plate, Screw } from './plate.js';
import { type Crossing, placesFor, SEAM_CLEAR } from './seam-places.js';

/**
 * Where a plate that is longer than the bed is parted. A seam runs across the plate through the middle of a
 * finger, or of an opening, and steps out into a key in the spine.
 */
export interface Seam {
  /** Where it runs straight. */
  readonly x: number;
  /** From and to, along y, of the notch that the key of the part at its left goes into. */
  readonly key: readonly [number, number];
  readonly keyDepth: number;
  /** Radius of the key's and the notch's corners, inside and outside. */
  readonly keyRound: number;
  /** By how much the key is narrower than its notch, both flanks together; it ends half as far before its end. */
  readonly clearance: number;
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

/** Lets a key of sheet slide home by hand and not rock; common practice, no source, mm. */
const KEY_CLEARANCE = 0.1;

/** The key's depth and height over what its round corners take, mm. */
const KEY_STRAIGHT = 4;
const KEY_HEIGHT = 10;

/** The key's corners have this radius, mm, or that of a wider end mill, which has to get into them. */
const KEY_ROUND = 3;

/** From the key to the middle of an index hole, mm. */
const HOLE_AWAY = 12;

/** No part shorter than this, mm: it has both its index holes and some length to lie against the fence. */
const SHORTEST_PART = 80;

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
 * The seams of a plate, none where it fits the bed; refused where there can be none. `words` is the lettering
 * that a seam must not run through, `clearance` that of its key. As few parts as will do, the longest of them
 * as short as may be. Where seams cannot keep clear of every edge that guides the bushing, they end in the
 * round or flat end of openings, as far from both fingers as that allows.
 */
export function seamsOf(
  plate: Plate,
  words: readonly Item[],
  bed: Bed,
  clearance: number = KEY_CLEARANCE,
): { readonly seams: readonly Seam[]; readonly diagnostics: readonly Diagnostic[] } {
  const frame = extents(plate.outline);
  const width = frame.maxX - frame.minX;
  const height = frame.maxY - frame.minY;
  const longest = longestPart(height, bed);
  if (width <= longest) return { seams: [], diagnostics: [] };
  const size = { name: plate.name, width, height, bedWidth: bed.width, bedHeight: bed.height };
  if (longest < SHORTEST_PART) {
    return { seams: [], diagnostics: [diagnostic('plate-deep-for-bed', 'refused', bed.at, size)] };
  }
  const key = seamKey(plate, bed, clearance);
  const spine = spineOf(plate);
  if (key.key[1] > spine[1] - SEAM_CLEAR + 1e-9) {
    const data = { ...size, spine: spine[1] - spine[0], least: key.key[1] - key.key[0] + 2 * SEAM_CLEAR };
    return { seams: [], diagnostics: [diagnostic('spine-under-key', 'refused', bed.at, data)] };
  }
  const found = chosenPlaces(plate, words, { key, frame, longest });
  if (!found.chosen) {
    const data = {
      ...size,
      clear: SEAM_CLEAR,
      least: leastSpace(found.places, frame, longest, key.keyDepth),
    };
    return { seams: [], diagnostics: [diagnostic('plate-no-seam', 'refused', bed.at, data)] };
  }
  const seams = found.chosen.map((x) => seamAt(x, key));
  const apart = 2 * HOLE_AWAY + key.keyDepth;
  const data = { ...size, parts: seams.length + 1, seams: found.chosen, apart, hole: 2 * key.holeRadius };
  const parted = diagnostic('plate-in-bed-parts', 'ok', bed.at, data);
  const roots = diagnostic('seam-in-root', 'caution', bed.at, { name: plate.name, clear: SEAM_CLEAR });
  return { seams, diagnostics: found.throughRoots ? [parted, roots] : [parted] };
}

/** Places that keep clear of all that guides, else places that end in the far ends of openings, too. */
function chosenPlaces(
  plate: Plate,
  words: readonly Item[],
  { key, frame, longest }: { readonly key: Key; readonly frame: Extents; readonly longest: number },
) {
  const within: Extents = {
    ...frame,
    minX: frame.minX + SHORTEST_PART,
    maxX: frame.maxX - SHORTEST_PART,
  };
  const [left, right] = reachOf(seamAt(0, key));
  const crossing: Crossing = { key: key.key, left, right };
  const chosenWith = (throughRoots: boolean) => {
    const places = placesFor(plate, words, crossing, within, throughRoots);
    return { throughRoots, places, chosen: fewest(places, frame, longest, key.keyDepth) };
  };
  const clear = chosenWith(false);
  return clear.chosen ? clear : chosenWith(true);
}

/** The shortest room that would do for a plate with seams at these places, to the next step, mm. */
function leastSpace(places: readonly number[], frame: Extents, longest: number, keyDepth: number): number {
  const width = frame.maxX - frame.minX;
  const steps = Math.ceil((width - longest) / SPACE_STEP);
  const tried = Array.from({ length: steps }, (_, i) => longest + (i + 1) * SPACE_STEP);
  return Math.min(width, tried.find((room) => fewest(places, frame, room, keyDepth) !== undefined) ?? width);
}

/** Steps in which a larger bed is looked for, mm. */
const SPACE_STEP = 10;

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

function seamKey(plate: Plate, { tool }: Bed, clearance: number): Key {
  const [from, to] = spineOf(plate);
  const keyRound = Math.max(KEY_ROUND, tool / 2 + 0.1);
  const height = 2 * keyRound + KEY_HEIGHT;
  const low = Math.max(from + SEAM_CLEAR, (from + to - height) / 2);
  return {
    key: [low, low + height],
    keyRound,
    clearance,
    keyDepth: 2 * keyRound + KEY_STRAIGHT,
    holeRadius: plate.pinHole / 2,
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
