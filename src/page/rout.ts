import { containsPoint } from '../geometry/outline.js';
import { distanceToSegment } from '../geometry/segment.js';
import type { Arc, Point, Region, Segment } from '../geometry/types.js';

/** A bushing pushed along a plate by hand. Lengths in mm, template coordinates. */

/**
 * Where a bushing comes to lie that is pushed from `from` toward `to`: it goes in steps too short to jump a finger,
 * and slides along whatever it touches. `plate` is the plate's material: its outer contour and its holes.
 */
export function pushBushing(plate: Region, radius: number, from: Point, to: Point): readonly Point[] {
  const far = Math.hypot(to.x - from.x, to.y - from.y);
  const steps = Math.min(MAX_STEPS, Math.max(1, Math.ceil(far / (radius * WALK_STEP))));
  const trail: Point[] = [];
  let at = from;
  for (let i = 0; i < steps; i++) {
    const left = steps - i;
    const aim = { x: at.x + (to.x - at.x) / left, y: at.y + (to.y - at.y) / left };
    const next = cleared(plate, radius, aim);
    if (!next || Math.hypot(next.x - at.x, next.y - at.y) > radius) break;
    at = next;
    trail.push(at);
  }
  return trail;
}

/** A step, as a share of the bushing's radius: a finger is never as thin as half a bushing and this together. */
const WALK_STEP = 0.2;
const MAX_STEPS = 400;

/** The nearest place where the bushing clears the plate, found by pushing it away from what it touches. */
function cleared(plate: Region, radius: number, aim: Point): Point | undefined {
  let at = aim;
  for (let turn = 0; turn < MAX_PUSHES; turn++) {
    const touch = nearestWall(plate, at);
    if (!touch) return at;
    const inside = containsPoint(plate, at);
    const depth = inside ? radius + touch.distance : radius - touch.distance;
    if (depth <= OFF_WALL) return at;
    if (touch.distance < OFF_WALL) return undefined;
    const away = (inside ? -1 : 1) / touch.distance;
    at = { x: at.x + (at.x - touch.at.x) * away * depth, y: at.y + (at.y - touch.at.y) * away * depth };
  }
  return undefined;
}

const MAX_PUSHES = 24;
/** Nearer than this, mm, a bushing touches and does not press. */
const OFF_WALL = 1e-3;

function nearestWall(plate: Region, p: Point): { readonly at: Point; readonly distance: number } | undefined {
  let best: { at: Point; distance: number } | undefined;
  for (const { segments } of plate) {
    for (const segment of segments) {
      const distance = distanceToSegment(p, segment);
      if (best === undefined || distance < best.distance) best = { at: nearestOn(segment, p), distance };
    }
  }
  return best;
}

function nearestOn(segment: Segment, p: Point): Point {
  if (segment.kind === 'arc') return nearestOnArc(segment, p);
  const { from, to } = segment;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const t = ((p.x - from.x) * dx + (p.y - from.y) * dy) / (dx * dx + dy * dy);
  const held = Math.min(1, Math.max(0, t));
  return { x: from.x + dx * held, y: from.y + dy * held };
}

function nearestOnArc(arc: Arc, p: Point): Point {
  const reach = Math.hypot(p.x - arc.center.x, p.y - arc.center.y);
  const onCircle = {
    x: arc.center.x + ((p.x - arc.center.x) / reach) * arc.radius,
    y: arc.center.y + ((p.y - arc.center.y) / reach) * arc.radius,
  };
  return [onCircle, arc.from, arc.to]
    .filter((one) => distanceToSegment(one, arc) < OFF_WALL)
    .reduce((best, one) =>
      Math.hypot(one.x - p.x, one.y - p.y) < Math.hypot(best.x - p.x, best.y - p.y) ? one : best,
    );
}
