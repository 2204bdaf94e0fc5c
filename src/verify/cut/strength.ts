import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { ClosedLevel } from './level.js';
import { extents, type Polygons, runsAt, signedArea } from './polygons.js';

/** How thin the template's fingers and the joint's pins and tails come out, as they were written and cut. */

/** The thinnest of several, mm. */
export interface Thinnest {
  readonly board: string;
  readonly width: number;
  /** Its middle, from the reference edge. */
  readonly x: number;
}

export interface Strength {
  /** The thinnest finger of any template, measured where its sides begin, behind the rounding of its tip. */
  readonly finger?: Thinnest;
  /** No finger may be thinner than this; absent where the report does not say. */
  readonly leastFinger?: number;
  /** The thinnest pin, tail or finger of wood, at its narrow end. */
  readonly wood?: Thinnest;
}

export interface FingersOf {
  readonly board: string;
  readonly plate: Polygons;
  readonly stock: Polygons;
  /** Fingers may taper by this on both sides together, per mm of their length; steeper is the rounding of a tip. */
  readonly taper: number;
}

/** Wood thinner than this at the narrow end of a pin or tail is likely to break, mm. Common practice, no source. */
export const MIN_WOOD = 3;

/** How far a written width may lie under its limit: coordinates are rounded and round sides chopped, mm. */
const SAME_THICKNESS = 0.02;

/** Fingers are measured at so many heights from their tips to the far side of the work. */
const HEIGHTS = 60;

/** Between the two heights that tell how steeply a width changes, mm. */
const STRENGTH_STEP = 0.05;

/** More than a taper's own change, and less than a rounding's. */
const STRENGTH_ROUNDING = 0.05;

/** Runs shorter than this are what chords leave, mm. */
const CRUMB = 0.02;

export function strengthOf(
  fingers: readonly FingersOf[],
  wood: Thinnest | undefined,
  leastFinger: number | undefined,
): Strength {
  const finger = thinnestOf(fingers.flatMap(fingerWidths));
  return {
    ...(finger && { finger }),
    ...(leastFinger !== undefined && { leastFinger }),
    ...(wood && { wood }),
  };
}

/** The narrowest run of either board's wood on lines through every level. */
export function thinnestWood(
  levels: readonly ClosedLevel[],
  [first, second]: readonly [string, string],
  lines: readonly number[],
): Thinnest | undefined {
  return thinnestOf(
    levels.flatMap((level) =>
      lines.flatMap((y) => [...woodRuns(first, level.first, y), ...woodRuns(second, level.second, y)]),
    ),
  );
}

function woodRuns(board: string, wood: Polygons, y: number): readonly Thinnest[] {
  return runsAt(wood, y)
    .map(([from, to]) => ({ board, width: to - from, x: (from + to) / 2 }))
    .filter(({ width }) => width > CRUMB);
}

/**
 * Fingers lie between two openings: what reaches past the board on both sides are the plate's arms, with the holes of
 * screws in them. A hole in a finger makes two thin ones of it.
 */
function fingerWidths({ board, plate, stock, taper }: FingersOf): readonly Thinnest[] {
  const near = extents(plate).minY;
  const work = extents(stock);
  const far = Math.max(work.minY, Math.min(work.maxY, 0));
  const solid = plate.filter((ring) => signedArea(ring) > 0);
  const found: Thinnest[] = [];
  for (let i = 0; i < HEIGHTS; i++) {
    const y = near + ((i + 0.5) * (far - near)) / HEIGHTS;
    const further = runsAt(plate, y + STRENGTH_STEP);
    const fingers = runsAt(solid, y).slice(1, -1);
    for (const [from, to] of runsAt(plate, y).filter((run) => fingers.some(holds(run)))) {
      const x = (from + to) / 2;
      const [a, b] = further.find((run) => run[0] < x && run[1] > x) ?? [from, to];
      const change = (b - a - (to - from)) / STRENGTH_STEP;
      if (change <= taper + STRENGTH_ROUNDING) found.push({ board, width: to - from, x: x - work.minX });
    }
  }
  return found;
}

type Run = readonly [number, number];

const holds =
  ([from, to]: Run) =>
  (finger: Run): boolean =>
    finger[0] <= from + CRUMB && finger[1] >= to - CRUMB;

function thinnestOf(all: readonly Thinnest[]): Thinnest | undefined {
  return all.reduce<Thinnest | undefined>(
    (thin, one) => (thin && thin.width <= one.width ? thin : one),
    undefined,
  );
}

/** Fingers and pins below what they need to hold. Wood may be thinner by the slack, as the layout counts it. */
export function strengthDiagnostics(
  { finger, leastFinger, wood }: Strength,
  slack: number,
  at: string,
): readonly Diagnostic[] {
  const thinFinger =
    finger && leastFinger !== undefined && finger.width < leastFinger - SAME_THICKNESS
      ? [diagnostic('cut-finger-thin', 'refused', at, { ...finger, least: leastFinger })]
      : [];
  const thinWood =
    wood && wood.width < MIN_WOOD - slack - SAME_THICKNESS
      ? [diagnostic('cut-wood-thin', 'caution', at, { ...wood, least: MIN_WOOD })]
      : [];
  return [...thinFinger, ...thinWood];
}
