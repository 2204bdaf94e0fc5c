import { roundCorners } from '../../geometry/fillet.js';
import type { Outline, Path, Region } from '../../geometry/types.js';
import type { Layout } from '../../layout/types.js';
import type { BoardMarking, MarkedPanel } from '../family.js';
import { markPanel } from '../marking.js';
import { runsOf, type WasteRun } from '../row.js';
import type { HalfBlindJoint } from './fields.js';

/**
 * Lines to mark out a half-blind dovetail by. Cut by hand it is square inside; cut by router it is shown as the
 * bit leaves it: sockets end round on the front's inside face, and rounded tails are round on the side's end.
 */
export function halfBlindMarkings(
  joint: HalfBlindJoint,
  layout: Layout,
  depth: number,
  slope: number,
): readonly BoardMarking[] {
  const lean = depth * Math.tan(slope);
  return [sideMarking(joint, layout, depth, lean), frontMarking(joint, layout, depth, lean)];
}

/**
 * Radius of the rounding at the bit's tip: D/2 with a template for each board; with one template for both, half
 * of a socket's width w = (p + 2hk + g)/2, since both ends are half circles. 0 by hand.
 */
function tipRadius(joint: HalfBlindJoint, layout: Layout, lean: number): number {
  if (!joint.cutter) return 0;
  if (joint.method === 'apart') return joint.cutter.diameter / 2;
  const [first] = runsOf(layout, 'tail');
  // p/2 − hk is the tail at the baseline, so p = 2 (tail + hk).
  return first ? (first.to - first.from + 2 * lean + joint.slack / 2) / 2 : 0;
}

function sideMarking(joint: HalfBlindJoint, layout: Layout, depth: number, lean: number): BoardMarking {
  const gaps = runsOf(layout, 'pin');
  const { thickness } = joint.boards.tails;
  const face = markPanel(gaps, { atStart: -lean, atEnd: 0, length: depth, baseline: true });
  const end = markPanel(gaps, { atStart: -lean, atEnd: -lean, length: thickness, baseline: false });
  const radius = joint.tailsInside === 'square' ? 0 : tipRadius(joint, layout, lean);
  return {
    board: 'tails',
    material: joint.boards.tails,
    width: joint.width,
    depth,
    outsideFace: face,
    endGrain: radius > 0 ? roundedTails(layout, joint, lean, radius) : end,
    insideFace: face,
  };
}

/** The end grain of a side whose tails are round toward the inside face, where the bit's tip runs. */
function roundedTails(
  layout: Layout,
  { width, boards }: HalfBlindJoint,
  lean: number,
  radius: number,
): MarkedPanel {
  const { thickness } = boards.tails;
  const tails = runsOf(layout, 'tail').map((run) => ({ from: run.from - lean, to: run.to + lean }));
  const roundest = Math.min(radius, ...tails.map(({ from, to }) => (to - from) / 2 - FLAT));
  // A gap between two tails is drawn as one outline: down one rounded wall, along the inside face, and up.
  const lost = gapsBetween(tails, width);
  const waste: Region = lost.map((gap) => gapOutline(gap, thickness, roundest));
  const lines = lost.flatMap((gap, i): readonly Path[] => {
    const outline = waste[i];
    if (!outline) return [];
    return wallsOf(outline, gap, thickness, width);
  });
  return { lines, waste };
}

/** Half of what stays flat on a tail that is a half circle, so that the waste beside it is in two pieces, mm. */
const FLAT = 0.01;

interface Gap {
  readonly from: number;
  readonly to: number;
  /** How far the gap widens at each side on the inside face: the radius of the tail there, 0 at a board's edge. */
  readonly atFrom: boolean;
  readonly atTo: boolean;
}

function gapsBetween(tails: readonly { readonly from: number; readonly to: number }[], width: number) {
  const edges = [...tails, { from: width, to: width }];
  return edges.map((tail, i): Gap => {
    const from = tails[i - 1]?.to ?? 0;
    return { from, to: tail.from, atFrom: i > 0, atTo: i < tails.length };
  });
}

/** Waste beside rounded tails: quarter circles turn the walls outward to the inside face at y = thickness. */
function gapOutline({ from, to, atFrom, atTo }: Gap, thickness: number, radius: number): Outline {
  const r = Math.min(radius, thickness);
  const arcs: Outline['segments'][number][] = [];
  const high = thickness - r;
  const left = atFrom ? from - r : from;
  const right = atTo ? to + r : to;
  arcs.push({ kind: 'line', from: { x: from, y: 0 }, to: { x: to, y: 0 } });
  if (atTo) {
    arcs.push(
      { kind: 'line', from: { x: to, y: 0 }, to: { x: to, y: high } },
      {
        kind: 'arc',
        from: { x: to, y: high },
        to: { x: right, y: thickness },
        center: { x: right, y: high },
        radius: r,
        ccw: false,
      },
    );
  } else arcs.push({ kind: 'line', from: { x: to, y: 0 }, to: { x: to, y: thickness } });
  arcs.push({ kind: 'line', from: { x: right, y: thickness }, to: { x: left, y: thickness } });
  if (atFrom) {
    arcs.push(
      {
        kind: 'arc',
        from: { x: left, y: thickness },
        to: { x: from, y: high },
        center: { x: left, y: high },
        radius: r,
        ccw: false,
      },
      { kind: 'line', from: { x: from, y: high }, to: { x: from, y: 0 } },
    );
  } else arcs.push({ kind: 'line', from: { x: from, y: thickness }, to: { x: from, y: 0 } });
  return { closed: true, segments: arcs };
}

/** The part of a gap's outline that is a tail's wall: nothing on the outside face, the inside face or an edge. */
function wallsOf(
  { segments }: Outline,
  { atFrom, atTo }: Gap,
  thickness: number,
  width: number,
): readonly Path[] {
  const flat = (y: number) => Math.abs(y) < 1e-9 || Math.abs(y - thickness) < 1e-9;
  const isFace = (one: Outline['segments'][number]) =>
    one.kind === 'line' && one.from.y === one.to.y && flat(one.from.y);
  const isEdge = (one: Outline['segments'][number]) =>
    one.from.x === one.to.x && ((!atFrom && one.from.x === 0) || (!atTo && one.from.x === width));
  return segments
    .filter((one) => !isFace(one) && !isEdge(one))
    .map((one) => ({ closed: false, segments: [one] }));
}

/**
 * The front shows nothing on its face: sockets on the end grain down to the lap, and on the inside face, where
 * a routed socket's end has lost hk against its bottom: it reaches t_T − hk with corners hk tighter.
 */
function frontMarking(joint: HalfBlindJoint, layout: Layout, depth: number, lean: number): BoardMarking {
  const sockets = runsOf(layout, 'tail');
  const { thickness } = joint.boards.pins;
  const side = joint.boards.tails.thickness;
  const routed = joint.cutter !== undefined;
  const length = routed && joint.tailsInside === 'rounded' ? side - lean : side;
  const radius = Math.max(0, tipRadius(joint, layout, lean) - lean);
  const inside = markPanel(sockets, { atStart: 0, atEnd: 0, length, baseline: true });
  return {
    board: 'pins',
    material: joint.boards.pins,
    width: joint.width,
    depth: side,
    outsideFace: { lines: [], waste: [] },
    endGrain: markPanel(sockets, {
      atStart: lean,
      atEnd: 0,
      start: thickness - depth,
      length: thickness,
      baseline: false,
    }),
    insideFace: radius > 0 ? roundedEnds(sockets, length, radius) : inside,
  };
}

function roundedEnds(sockets: readonly WasteRun[], length: number, radius: number): MarkedPanel {
  const { waste } = markPanel(sockets, { atStart: 0, atEnd: 0, length, baseline: true });
  const rounded = waste.map((one) => roundCorners(one, ({ y }) => (y > length - 1e-6 ? radius : 0)));
  const lines = rounded.flatMap((one) =>
    one.segments
      .filter((segment) => segment.from.y !== 0 || segment.to.y !== 0)
      .map((segment): Path => ({ closed: false, segments: [segment] })),
  );
  return { lines, waste: rounded };
}
