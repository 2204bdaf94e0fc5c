import type { Bit, Bushing } from '../input/types.js';

/** Whether a bit clears the bushing that it turns in and the plate that guides it; a matter of these alone. */

/** A cutter turning with less room than this all round is too near to call free, mm. Common practice, no source. */
const FREE_SPACE = 0.2;

/** Where a bushing's bore is not given, its wall is taken to be no thinner than this, mm. Common practice, no source. */
const MIN_WALL = 0.5;

/** How high a bit stands: `depth` is that of its tip below the plate, and `plate` how thick that is, mm. */
export interface Stand {
  readonly bit: Bit;
  readonly bushing: Bushing;
  readonly depth: number;
  readonly plate: number;
}

/** A cutting edge where it is widest in the barrel, or in the plate before the barrel, and what it has to turn in, mm. */
export interface CutterSpace {
  readonly where: 'barrel' | 'plate';
  /** Diameter of the edge; 0 where none of it rises so far. */
  readonly cutter: number;
  /** Diameter of what it turns in: the bore, or the bushing's outside, which keeps the plate that far away. */
  readonly room: number;
  readonly fits: 'free' | 'near' | 'no';
}

/** Diameter of the bore as given, or at most, mm. */
export function boreOf({ bore, outside }: Bushing): number {
  return bore ?? outside - 2 * MIN_WALL;
}

/**
 * The edge in the barrel and in the plate. A barrel of unknown length is taken to reach right through the plate, so
 * that the bore is what counts in all of it.
 */
export function cutterRooms({ bit, bushing, depth, plate }: Stand): readonly CutterSpace[] {
  const inPlate = edgeAbove(bit, depth);
  const bore = boreOf(bushing);
  const { barrel, outside } = bushing;
  if (barrel === undefined) return [judged('barrel', inPlate, bore)];
  return [
    judged('barrel', edgeAbove(bit, depth + Math.max(0, plate - barrel)), bore),
    judged('plate', inPlate, outside),
  ];
}

/**
 * The thinnest plate that keeps what is too wide of a bit out of the barrel, mm; undefined where none does: in a barrel
 * as long as that, or where the edge would cut the plate itself.
 */
export function plateToClear({ bit, bushing, depth, plate }: Stand): number | undefined {
  const { barrel } = bushing;
  if (barrel === undefined) return undefined;
  const slim =
    bit.angle > 0 ? (bit.diameter - boreOf(bushing) + 2 * FREE_SPACE) / (2 * Math.tan(bit.angle)) : Infinity;
  const clear = Math.max(plate, barrel + Math.min(bit.height, slim) - depth);
  return clearsAll({ bit, bushing, depth, plate: clear }) ? clear : undefined;
}

/** true where the edge cuts neither the bushing nor the plate. */
export function clearsAll(stand: Stand): boolean {
  return cutterRooms(stand).every(({ fits }) => fits !== 'no');
}

/** Largest diameter of the cutting edge at this height above the tip and over it, mm. */
function edgeAbove(bit: Bit, height: number): number {
  return height < bit.height - 1e-9 ? bit.diameter - 2 * height * Math.tan(bit.angle) : 0;
}

function judged(where: CutterSpace['where'], cutter: number, room: number): CutterSpace {
  // The plate is as near as the bushing lets it: an edge as wide as that grazes it.
  const touches = where === 'plate' ? cutter > room - 1e-9 : cutter > room + 1e-9;
  return { where, cutter, room, fits: touches ? 'no' : cutter > room - 2 * FREE_SPACE ? 'near' : 'free' };
}
