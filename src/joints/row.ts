import { polygon, rectangle } from '../geometry/outline.js';
import type { Outline, Point, Region } from '../geometry/types.js';
import type { Layout, Span } from '../layout/types.js';

/**
 * A row of parts along the board's end, as the families that stand a board on end see it: which stretches
 * are waste, and how an opening runs on past the board on every side where the bit must come clear.
 */

/** One stretch of waste: at an outer edge of the board it runs off the board. */
export interface WasteRun {
  readonly from: number;
  readonly to: number;
  /** true where the stretch begins at the reference edge, so it has no wall there. */
  readonly offNear: boolean;
  /** true where the stretch ends at the far edge. */
  readonly offFar: boolean;
}

/** The stretches of a layout that belong to one part. */
export function runsOf(layout: Layout, part: Span['part']): readonly WasteRun[] {
  const last = layout.spans.length - 1;
  return layout.spans.flatMap((span, i) =>
    span.part === part ? [{ from: span.from, to: span.to, offNear: i === 0, offFar: i === last }] : [],
  );
}

/** Half of a row of waste, for a template that cuts the other half one pitch further along the board. */
export interface EverySecond {
  /** The runs that the template carries; none of them runs off the board. */
  readonly carried: readonly WasteRun[];
  /** x of the board's reference edge at the second stop, in template coordinates. */
  readonly stop: number;
  /** A carried run that must not be used at the second stop, since it would touch the board's edge. */
  readonly leaveOut?: WasteRun;
}

/**
 * Every second run of a row, from the first one on, and the move that brings them onto the others; undefined
 * where the runs are not of one width at one pitch. A run at an edge may be narrower, as a half-pin is: the
 * template carries it at full width, since it cuts a whole one after the move. `spread` is how far, at most,
 * the waste on the board reaches past its run on either side, and `bit` the bit's diameter: two runs at the
 * edges with none between them are carried as wide as that, mm.
 *
 * With N runs, 0, 2, 4 … are carried. Moved by one pitch they fall on 1, 3, 5 …: where N is odd one of them
 * falls outside the row, beyond the far edge or, moved the other way, beyond the reference edge.
 */
export function everySecond(
  runs: readonly WasteRun[],
  width: number,
  { spread, bit }: { readonly spread: number; readonly bit: number },
): EverySecond | undefined {
  const inner = runs.filter(({ offNear, offFar }) => !offNear && !offFar);
  const size = Math.max(...runs.map(({ from, to }) => to - from), inner.length > 0 ? 0 : bit);
  const whole = runs.map(({ from, to, offNear }): WasteRun => {
    const at = offNear ? { from: to - size, to } : { from, to: from + size };
    return { ...at, offNear: false, offFar: false };
  });
  const [first, second] = whole;
  if (!first || !second) return undefined;
  const pitch = second.from - first.from;
  const isEven = whole.every(
    (run, i) =>
      Math.abs(run.from - first.from - i * pitch) < SAME_SPAN &&
      (runs[i]?.offNear || runs[i]?.offFar || Math.abs((runs[i]?.to ?? 0) - run.to) < SAME_SPAN),
  );
  if (!isEven) return undefined;
  const carried = whole.filter((_, i) => i % 2 === 0);
  const last = carried.at(-1) ?? first;
  if (runs.length % 2 === 0 || last.from + pitch - spread >= width) return { carried, stop: -pitch };
  if (first.to - pitch + spread <= 0) return { carried, stop: pitch };
  return { carried, stop: -pitch, leaveOut: last };
}

/** Widths that differ by less than this are one: a thousandth of what a laser places to, mm. */
const SAME_SPAN = 1e-4;

/** How an opening is drawn in the plane of the template, mm. All of it in template coordinates. */
export interface OpeningShape {
  /** Lean of the walls: k = tan θ as the wall goes away from the operator toward the waste; 0 for straight walls. */
  readonly lean: number;
  /** How much wider than its run the waste is, at each wall. */
  readonly ease: number;
  /** How far the waste runs past the board's outer edges. */
  readonly runOff: number;
  /** y of the closed end, away from the operator. */
  readonly far: number;
  /** y below which the walls run on straight, past the finger tips. */
  readonly straightBelow: number;
  /** y of the open end, well past the finger tips, toward the operator. */
  readonly openTo: number;
}

/** R of a row of openings: one outline for each run of waste. */
export function wasteRegion(runs: readonly WasteRun[], width: number, shape: OpeningShape): Region {
  return runs.map((run) => wasteOutline(run, width, shape));
}

function wasteOutline(run: WasteRun, width: number, shape: OpeningShape): Outline {
  const { lean, ease, runOff, straightBelow, openTo } = shape;
  const nearWall = (y: number) => (run.offNear ? -runOff : run.from - ease + lean * y);
  const farWall = (y: number) => (run.offFar ? width + runOff : run.to + ease - lean * y);
  const far = closedEnd(run, shape);
  const corners: Point[] = [
    { x: nearWall(straightBelow), y: openTo },
    { x: farWall(straightBelow), y: openTo },
    { x: farWall(straightBelow), y: straightBelow },
    { x: farWall(far), y: far },
    { x: nearWall(far), y: far },
    { x: nearWall(straightBelow), y: straightBelow },
  ];
  return polygon(corners);
}

/** Leaning walls would meet behind a narrow tail: the opening then ends just short of that point. */
function closedEnd(run: WasteRun, { lean, ease, far }: OpeningShape): number {
  const walls = (run.offNear ? 0 : 1) + (run.offFar ? 0 : 1);
  const mouth = run.to - run.from + ease * walls;
  const meeting = mouth / (walls * lean);
  return lean > 0 && walls > 0 ? Math.min(far, 0.98 * meeting) : far;
}

/** The end grain of a board that stands on end: back face at y = 0, against the fence. */
export function endStock(width: number, thickness: number): Outline {
  return rectangle(0, -thickness, width, 0);
}
