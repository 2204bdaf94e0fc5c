import type { Polygon, Spot } from './shapes.js';

/**
 * The outline of a ring grown by a disc: every edge moved out by the radius, joined by a turn about each corner that
 * bulges, and by a step in to the corner and out again where it is hollow. Beside the ring's own turns this closed
 * line winds once round the oblong before each edge and the sector before each bulge, and nowhere backward: a point
 * lies in the sum of a set and the disc exactly where the lines of all of its rings, wound as their rings are, wind
 * round it more than no times. That holds whatever the rings do. Rings of rounded corners cross themselves, in
 * needles of a millionth of a mm; a backward turn about such a corner, shorter as it is, would tear a hole as large
 * as the disc.
 */
export function swept(ring: Polygon, radius: number, tolerance: number): Spot[] {
  const corners = ring.filter((spot, i) => !same(spot, ring[(i + 1) % ring.length]));
  const greatest = 1.999999 * Math.acos(Math.max(0, 1 - tolerance / radius));
  const out: Spot[] = [];
  let before = outward(corners[corners.length - 1], corners[0]);
  for (const [i, corner] of corners.entries()) {
    const last = corners[(i || corners.length) - 1];
    const next = corners[(i + 1) % corners.length];
    const after = outward(corner, next);
    const cross = before.x * after.y - before.y * after.x;
    const turn = Math.atan2(cross, before.x * after.x + before.y * after.y);
    // The end of a needle, whichever side it fell on: it goes round the tip. The disc about a corner is always part
    // of the sum, so to go round where it need not be costs chords and nothing else.
    const sharpest =
      Math.min(distance(last, corner), distance(corner, next)) < SPECK ? SPECK_HOLLOW : SHARPEST_HOLLOW;
    const sweep = turn < -sharpest ? turn + 2 * Math.PI : turn;
    const half = Math.abs(sweep) / 2;
    const meets =
      sweep >= 0
        ? radius * (1 - Math.cos(half)) <= tolerance * Math.cos(half)
        : 2 * radius * Math.tan(half) <= Math.min(distance(last, corner), distance(corner, next));
    if (meets) out.push(mitred(corner, before, after, radius));
    else if (sweep > 0) out.push(...turned(corner, before, sweep, radius, Math.ceil(sweep / greatest)));
    else out.push(movedOut(corner, before, radius), corner, movedOut(corner, after, radius));
    before = after;
  }
  return out;
}

/** Hollow corners sharper than this are the ends of needles, radians; beside an edge this short, mm, much blunter ones too. */
const SHARPEST_HOLLOW = 3;
const SPECK_HOLLOW = 1;
const SPECK = 0.1;

/**
 * Where two edges that meet in a corner meet again when each is moved out by the radius. Where the ring bulges by a
 * little that is as good as the turn, a tolerance outside it. In a hollow it is the sum's very corner, as long as
 * neither edge is used up by it: moved edges that run backward would tear the sum open.
 */
function mitred(corner: Spot, before: Spot, after: Spot, radius: number): Spot {
  const reach = radius / (1 + before.x * after.x + before.y * after.y);
  return { x: corner.x + reach * (before.x + after.x), y: corner.y + reach * (before.y + after.y) };
}

/** The turn about a corner in even steps, the last edge's outward direction first. */
function turned(corner: Spot, before: Spot, sweep: number, radius: number, steps: number): readonly Spot[] {
  const from = Math.atan2(before.y, before.x);
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angle = from + (sweep * step) / steps;
    return { x: corner.x + radius * Math.cos(angle), y: corner.y + radius * Math.sin(angle) };
  });
}

function movedOut({ x, y }: Spot, outward: Spot, radius: number): Spot {
  return { x: x + radius * outward.x, y: y + radius * outward.y };
}

function distance(from: Spot = ORIGIN, to: Spot = ORIGIN): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

function same(one: Spot, two: Spot | undefined): boolean {
  return two !== undefined && one.x === two.x && one.y === two.y;
}

/** Unit vector to the right of the step, which is outward of a counter-clockwise ring. */
function outward(from: Spot = ORIGIN, to: Spot = ORIGIN): Spot {
  const long = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  return { x: (to.y - from.y) / long, y: (from.x - to.x) / long };
}

const ORIGIN: Spot = { x: 0, y: 0 };
