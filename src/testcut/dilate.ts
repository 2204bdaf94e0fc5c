import type { Polygon, Spot } from './shapes.js';

/**
 * The outline that a disc's middle run round a ring draws: every edge moved out by the radius, joined by a turn
 * about each corner, forward where the ring bulges and backward where it is hollow. A point lies in the sum of a
 * ring without holes and the disc exactly where this closed line winds round it more than no times, so the
 * non-zero, positive union of it is the sum (the convolution of two outlines, e.g. Guibas, Ramshaw and Stolfi,
 * "A kinetic framework for computational geometry", 1983; from memory). Hollow rounds of many chords, which make
 * up a comb's openings, stay cheap this way.
 */
export function swept(ring: Polygon, radius: number, tolerance: number): Polygon {
  const corners = ring.filter((spot, i) => !same(spot, ring[(i + 1) % ring.length]));
  const greatest = 1.999999 * Math.acos(Math.max(0, 1 - tolerance / radius));
  const out: Spot[] = [];
  let before = outward(corners[corners.length - 1], corners[0]);
  for (const [i, corner] of corners.entries()) {
    const after = outward(corner, corners[(i + 1) % corners.length]);
    const cross = before.x * after.y - before.y * after.x;
    const turn = Math.atan2(cross, before.x * after.x + before.y * after.y);
    // Half a turn back on itself is the end of a needle: it goes round the tip.
    const sweep = turn <= -Math.PI + 1e-9 ? Math.PI : turn;
    const from = Math.atan2(before.y, before.x);
    const steps = Math.max(1, Math.ceil(Math.abs(sweep) / greatest));
    for (let step = 0; step <= steps; step++) {
      const angle = from + (sweep * step) / steps;
      out.push({ x: corner.x + radius * Math.cos(angle), y: corner.y + radius * Math.sin(angle) });
    }
    before = after;
  }
  return out;
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
