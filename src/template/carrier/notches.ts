import { areaOfRegion, circle, extents, polygon, rectangle } from '../../geometry/outline.js';
import { difference, intersection } from '../../geometry/regions/boolean.js';
import type { Extents, Outline, Point } from '../../geometry/types.js';
import { isOuter, OUTER_CORNER } from '../plate.js';

/**
 * Small notches in a plate's outer edges show from below where the fence and the stops go, to those who make them by hand. They are
 * part of the outline's cut: a V whose point stands on the line or, where an end mill cuts the plate, a hollow that it gets into.
 */

/** Enough for a knife to drop in, and no more than a plate's edge can spare, mm: about 1/16 in; common practice, no source. */
export const NOTCH_DEPTH = 1.6;

/** A notch keeps this far from openings and holes, and this far from rounded corners, mm. */
const NOTCH_CLEAR = 5;
const CORNER_CLEAR = 1;

export interface NotchPlace {
  /** On the plate's straight outer edge. */
  readonly at: Point;
  /** Which way the sheet lies from there: along x or y, one step. */
  readonly inward: Point;
}

/** The outline with notches where there is room for them. `holes` are those of the plate, `mill` the diameter of an end mill. */
export function notched(
  outline: Outline,
  places: readonly NotchPlace[],
  holes: readonly Outline[],
  mill: number | undefined,
): Outline {
  const cuts = places.filter((place) => hasSpace(place, outline, holes)).map((place) => notchAt(place, mill));
  const [first] = difference([outline], cuts).filter(isOuter);
  return cuts.length > 0 && first ? first : outline;
}

function notchAt({ at, inward }: NotchPlace, mill: number | undefined): Outline {
  if (mill !== undefined) {
    const radius = Math.max(NOTCH_DEPTH, mill / 2 + MILL_EASE);
    const out = radius - NOTCH_DEPTH;
    return circle({ x: at.x - inward.x * out, y: at.y - inward.y * out }, radius);
  }
  const tip = { x: at.x + inward.x * NOTCH_DEPTH, y: at.y + inward.y * NOTCH_DEPTH };
  // As wide again as it is deep on either side, drawn a little past the edge.
  const wide = NOTCH_DEPTH + BEYOND;
  const foot = { x: at.x - inward.x * BEYOND, y: at.y - inward.y * BEYOND };
  const side = (by: number): Point => ({ x: foot.x - inward.y * by, y: foot.y + inward.x * by });
  return polygon([tip, side(wide), side(-wide)]);
}

/** An end mill gets into a hollow that is wider than itself by this on either side, mm. */
const MILL_EASE = 0.05;
const BEYOND = 1;

/** Room where the edge is straight under the notch and sheet alone lies around it. */
function hasSpace({ at, inward }: NotchPlace, outline: Outline, holes: readonly Outline[]): boolean {
  const box = (along: number, from: number, to: number): Extents => {
    const ends = [-1, 1].flatMap((side) =>
      [from, to].map((depth) => ({
        x: at.x + inward.x * depth + Math.abs(inward.y) * side * along,
        y: at.y + inward.y * depth + Math.abs(inward.x) * side * along,
      })),
    );
    return {
      minX: Math.min(...ends.map(({ x }) => x)),
      minY: Math.min(...ends.map(({ y }) => y)),
      maxX: Math.max(...ends.map(({ x }) => x)),
      maxY: Math.max(...ends.map(({ y }) => y)),
    };
  };
  const isWhole = ({ minX, minY, maxX, maxY }: Extents): boolean => {
    const sheet = difference(intersection([outline], [rectangle(minX, minY, maxX, maxY)]), holes);
    return areaOfRegion(sheet) > (maxX - minX) * (maxY - minY) - 1e-3;
  };
  const around = box(NOTCH_DEPTH + NOTCH_CLEAR, OUTER_CORNER, OUTER_CORNER + NOTCH_CLEAR);
  const frame = extents(outline);
  return (
    isWhole(box(NOTCH_DEPTH + CORNER_CLEAR, SKIN, NOTCH_DEPTH + NOTCH_CLEAR)) &&
    isWhole({
      minX: Math.max(around.minX, frame.minX + SKIN),
      minY: Math.max(around.minY, frame.minY + SKIN),
      maxX: Math.min(around.maxX, frame.maxX - SKIN),
      maxY: Math.min(around.maxY, frame.maxY - SKIN),
    })
  );
}

/** A hair inside the sheet, so that no line runs along another, mm. */
const SKIN = 1e-3;
