import {
  areaPathsD,
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathsD,
  unionD,
} from 'clipper2-ts';
import { segmentOf } from '../../src/cam/program/backplot.js';
import type { Motion } from '../../src/cam/program/interpreter.js';
import { flatten } from '../../src/geometry/flatten.js';
import type { Region } from '../../src/geometry/types.js';

/** What a round tool takes along the motions of a program, as polygons of Clipper2: other code than draws the paths. */

const DECIMALS = 6;
const ARC = 5e-4;

/** All places that the tool reaches in cutting motions picked out, seen from above. */
export function swept(
  motions: readonly Motion[],
  cutter: number,
  picked: (motion: Motion) => boolean,
): PathsD {
  const paths: PathsD = motions
    .filter((motion) => !motion.rapid && picked(motion))
    .flatMap((motion) => {
      const along = segmentOf(motion);
      if (!along) return [];
      const points = flatten({ closed: false, segments: [along] }, ARC).map(({ x, y }) => ({ x, y }));
      const [first] = points;
      // A tool that goes straight down sweeps its own round: a way of no length is drawn as a hair.
      const still = first && points.every(({ x, y }) => x === first.x && y === first.y);
      return [still ? [first, { x: first.x + 1e-5, y: first.y }] : points];
    });
  const inflated = paths.flatMap((one) =>
    inflatePathsD([one], cutter / 2, JoinType.Round, EndType.Round, 2, DECIMALS, ARC),
  );
  return unionD(inflated, [], FillRule.NonZero, DECIMALS);
}

export const polygonsOf = (region: Region): PathsD =>
  region.map((one) => flatten(one, ARC).map(({ x, y }) => ({ x, y })));

export const grown = (paths: PathsD, by: number): PathsD =>
  inflatePathsD(paths, by, JoinType.Round, EndType.Polygon, 2, DECIMALS, ARC);

export const minus = (a: PathsD, b: PathsD): PathsD => differenceD(a, b, FillRule.NonZero, DECIMALS);

export const both = (a: PathsD, b: PathsD): PathsD => intersectD(a, b, FillRule.NonZero, DECIMALS);

export const sizeOf = (paths: PathsD): number => areaPathsD(paths);

/** Pieces of their own, holes not counted. */
export const piecesOf = (paths: PathsD): PathsD => paths.filter((one) => areaPathsD([one]) > 0);
