import type { ToolMove } from '../../drawing/tool-moves.js';
import { circle, reversed } from '../../geometry/outline.js';
import { distance } from '../../geometry/point.js';
import type { Outline, Point, Segment } from '../../geometry/types.js';
import type { MillSettings } from '../settings.js';
import { depths, rampFeed } from './profile.js';

/** A round hole by the circle that the middle of the end mill runs on; its radius may be next to nothing. */
export interface RoundHole {
  readonly center: Point;
  readonly radius: number;
}

/** The circle that an outline is, if it is one. */
export function circleOf({ segments }: Outline): RoundHole | undefined {
  const [first] = segments;
  if (first?.kind !== 'arc') return undefined;
  const { center, radius } = first;
  const alike = segments.every(
    (one) =>
      one.kind === 'arc' &&
      distance(one.center, center) < ALIKE &&
      Math.abs(one.radius - radius) < ALIKE &&
      one.ccw === first.ccw,
  );
  return alike ? { center, radius } : undefined;
}

const ALIKE = 1e-6;

/**
 * The widest hole, mm, that is made to chips by a cutter: a few rings of it, or any hole for a screw. A wider one
 * is a profile with tabs.
 */
export const widestHelix = (cutter: number): number => Math.max(6 * cutter, 12);

/** Each ring takes this much of the cutter's width. */
const OVERLAP = 0.8;

/** A path narrower than this share of the cutter, in radius, is no helix: the mill pecks, then goes round once a pass. */
const PECK = 0.1;

/** Under this radius, mm, the hole is as wide as the mill. */
const NOTHING = 0.002;

/** A round hole, all of it made to chips: nothing is left in it to come loose. */
export function roundHole({ center, radius }: RoundHole, settings: MillSettings): readonly ToolMove[] {
  const { safeHeight, cutter } = settings;
  const up: ToolMove = { kind: 'lift', z: safeHeight };
  if (radius < PECK * cutter)
    return [up, { kind: 'travel', to: center }, ...pecked(center, radius, settings), up];
  return [
    ...rings(radius, cutter).flatMap((one) => [
      up,
      { kind: 'travel', to: { x: center.x + one, y: center.y } } as const,
      { kind: 'plunge', z: 0, feed: settings.plunge } as const,
      ...helix({ center, radius: one }, settings),
    ]),
    up,
  ];
}

/** From the inside out, so near each other that nothing stays between or within them. */
function rings(radius: number, cutter: number): readonly number[] {
  const count = 1 + Math.max(0, Math.ceil((radius - cutter / 2) / (OVERLAP * cutter)));
  return Array.from({ length: count }, (_, i) => radius - (count - 1 - i) * OVERLAP * cutter);
}

/** Down by half turns, no steeper than a ramp and no deeper in a turn than in a pass, then once around at the bottom. */
function helix(hole: RoundHole, settings: MillSettings): readonly ToolMove[] {
  const { thickness, through, pass, ramp } = settings;
  const whole = thickness + through;
  const drop = Math.min(pass, 2 * Math.PI * hole.radius * Math.tan(ramp));
  const halves = 2 * Math.ceil(whole / drop);
  const turn = halfTurns(hole, settings);
  const down = Array.from({ length: halves }, (_, i): ToolMove => {
    const along = turn[i % 2 === 0 ? 0 : 1];
    return { kind: 'cut', along, z: (-whole * (i + 1)) / halves, feed: rampFeed(settings) };
  });
  return [
    ...down,
    ...turn.map((along): ToolMove => ({ kind: 'cut', along, z: -whole, feed: settings.feed })),
  ];
}

function halfTurns({ center, radius }: RoundHole, settings: MillSettings): readonly [Segment, Segment] {
  const whole = circle(center, radius);
  // Climb milling with a spindle that turns clockwise runs counter-clockwise in a hole.
  const { segments } = settings.direction === 'climb' ? whole : reversed(whole);
  const [one, other] = segments;
  if (!one || !other) throw new Error('a circle has two halves');
  return [one, other];
}

/** Straight down at the middle, up to clear the chips after each pass; then round, where there is room to. */
function pecked(center: Point, radius: number, settings: MillSettings): readonly ToolMove[] {
  const { plunge, feed } = settings;
  return depths(settings).flatMap((depth): readonly ToolMove[] => {
    const down: readonly ToolMove[] = [
      { kind: 'lift', z: settings.safeHeight },
      { kind: 'plunge', z: -depth, feed: plunge },
    ];
    if (radius < NOTHING) return down;
    const start = { x: center.x + radius, y: center.y };
    const to = (from: Point, end: Point): ToolMove => ({
      kind: 'cut',
      along: { kind: 'line', from, to: end },
      z: -depth,
      feed,
    });
    const around = halfTurns({ center, radius }, settings);
    return [
      ...down,
      to(center, start),
      ...around.map((along): ToolMove => ({ kind: 'cut', along, z: -depth, feed })),
      to(start, center),
    ];
  });
}
