import type { ToolMove } from '../../drawing/tool-moves.js';
import { lengthOf } from '../../geometry/segment.js';
import type { MillSettings } from '../settings.js';
import { type Contour, pointAlong, stretch } from './contour.js';
import type { Gap } from './tabs.js';

/**
 * A closed path milled through the sheet: down in passes, each entered by a ramp along the path itself, which
 * lies in the waste, then once around at its depth. Over a gap the tool never goes lower than the tab's top.
 */
export function profile(path: Contour, gaps: readonly Gap[], settings: MillSettings): readonly ToolMove[] {
  const start = gaps[0] ? gaps[0].to + AFTER_TAB : 0;
  const moves: ToolMove[] = [
    { kind: 'lift', z: settings.safeHeight },
    { kind: 'travel', to: pointAlong(path, start) },
    { kind: 'plunge', z: 0, feed: settings.plunge },
  ];
  let tool: Tool = { at: start, z: 0 };
  for (const depth of depths(settings)) {
    const pass = onePass(path, gaps, settings, tool, -depth);
    moves.push(...pass.moves);
    tool = pass.tool;
  }
  return [...moves, { kind: 'lift', z: settings.safeHeight }];
}

/** The depths of equal passes, none deeper than one may be, the last below the sheet. */
export function depths({ thickness, through, pass }: MillSettings): readonly number[] {
  const whole = thickness + through;
  const count = Math.max(1, Math.ceil(whole / pass - 1e-9));
  return Array.from({ length: count }, (_, i) => (whole * (i + 1)) / count);
}

/** Where a profile starts after its first tab, mm along the path. */
const AFTER_TAB = 1;

interface Tool {
  /** Length along the path. */
  readonly at: number;
  readonly z: number;
}

function onePass(
  path: Contour,
  gaps: readonly Gap[],
  settings: MillSettings,
  from: Tool,
  bottom: number,
): { readonly moves: readonly ToolMove[]; readonly tool: Tool } {
  const tabTop = settings.tabs.height - settings.thickness;
  const steepness = Math.tan(settings.ramp);
  const moves: ToolMove[] = [];
  let { at, z } = from;
  let around = 0;
  while (around < path.length - NEARLY) {
    const { end, isGap } = spanAt(path, gaps, at);
    const isRamp = z > bottom && !isGap;
    const most = isRamp ? (z - bottom) / steepness : z > bottom ? Infinity : path.length - around;
    const length = Math.min(end - at, most);
    const pieces = stretch(path, at, at + length);
    if (isRamp) {
      const next = length < most - NEARLY ? z - length * steepness : bottom;
      moves.push(...ramp(pieces, z, next, rampFeed(settings)));
      z = next;
    } else if (isGap && z < tabTop) {
      moves.push({ kind: 'plunge', z: tabTop, feed: settings.plunge });
      moves.push(
        ...pieces.map((along): ToolMove => ({ kind: 'cut', along, z: tabTop, feed: settings.feed })),
      );
      moves.push({ kind: 'plunge', z, feed: settings.plunge });
    } else {
      const level = z;
      moves.push(...pieces.map((along): ToolMove => ({ kind: 'cut', along, z: level, feed: settings.feed })));
    }
    if (!isRamp && z === bottom) around += length;
    at += length;
  }
  return { moves, tool: { at, z } };
}

/** Lengths nearer than this are one, mm. */
const NEARLY = 1e-7;

/** The stretch of the path that a length lies in: over a tab or between two, and where it ends. */
function spanAt(
  { length }: Contour,
  gaps: readonly Gap[],
  at: number,
): { readonly end: number; readonly isGap: boolean } {
  const turns = Math.floor((at + NEARLY) / length) * length;
  const here = at - turns + NEARLY;
  const inside = gaps.find(({ from, to }) => here >= from && here < to);
  if (inside) return { end: turns + inside.to, isGap: true };
  const next = gaps.find(({ from }) => from > here);
  return { end: turns + (next?.from ?? length), isGap: false };
}

/** Down from one height to another, evenly along the pieces. */
function ramp(
  pieces: ReturnType<typeof stretch>,
  from: number,
  to: number,
  feed: number,
): readonly ToolMove[] {
  const total = pieces.reduce((sum, one) => sum + lengthOf(one), 0);
  let done = 0;
  return pieces.map((along): ToolMove => {
    done += lengthOf(along);
    return { kind: 'cut', along, z: from + ((to - from) * done) / total, feed };
  });
}

/** No faster down than a plunge. */
export const rampFeed = ({ feed, plunge, ramp: angle }: MillSettings): number =>
  Math.min(feed, plunge / Math.sin(angle));
