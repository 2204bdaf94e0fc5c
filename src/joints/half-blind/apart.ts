import { type Diagnostic, diagnostic, err, type Result } from '../../diagnostics/diagnostic.js';
import { roundCorners } from '../../geometry/fillet.js';
import { rectangle } from '../../geometry/outline.js';
import { difference } from '../../geometry/regions/boolean.js';
import type { Outline, Region } from '../../geometry/types.js';
import type { Shop } from '../../input/types.js';
import { isMirrorImage } from '../../layout/mirror.js';
import { layTails } from '../../layout/tails/tails.js';
import type { LaidOut, Layout, TailBounds } from '../../layout/types.js';
import type { Cut } from '../family.js';
import { chooseNose } from '../nose.js';
import { endStock, runsOf, type WasteRun, wasteRegion } from '../row.js';
import { widest, woodBounds } from '../search/bounds.js';
import { BUSHING_ROOM, bushingsThat, clearOf, offsetOfBothSides } from '../tools.js';
import type { HalfBlindJoint } from './fields.js';
import { frontShown, type HalfBlindTools } from './tool-shape.js';

/**
 * A template for each board, at any spacing. At its bottom a socket is S = a + 2hk ≥ D wide for a tail a wide
 * at the baseline and reaches y = t_T with corners of radius D/2; higher up it is offset inward by its height
 * times k. A tail has that very shape at its tip, less the slack, and is offset inward by the distance from
 * the tip times k, so the two fit everywhere.
 *
 *   sockets  R = the socket at its bottom, cutter radius D/2
 *   tails    R = the complement of the tail at its tip, cutter radius D/2 − hk;
 *            the tail finger's corner radius D − hk − B/2 − g/2 must be ≥ 0
 *
 * Square tails come from straight slots; the sockets then go hk further in, so that the flat inside face
 * clears the sloped end of the socket, and the tails' corners are pared.
 * Derivation: src/joints/README.md, "Geometry of the joints", half-blind with two templates.
 */
export function layApart(joint: HalfBlindJoint, tools: HalfBlindTools, shop: Shop): Result<LaidOut> {
  const wide = bushingDiagnostics(joint, tools, shop);
  if (wide.length > 0) return err(wide);
  return layTails(joint.width, joint.layout, boundsApart(joint, tools, shop), `joints.${joint.name}.layout`);
}

/** Round tails leave their template fingers round, too, and a wide bushing nothing of them. */
export function bushingDiagnostics(
  joint: HalfBlindJoint,
  tools: HalfBlindTools,
  shop: Shop,
): readonly Diagnostic[] {
  const { bit, bushing, lean } = tools;
  const most = 2 * bit.diameter - 2 * lean - joint.slack;
  if (joint.method === 'together' || joint.tailsInside !== 'rounded' || bushing.outside <= most + 1e-9) {
    return [];
  }
  const others = bushingsThat(shop, (other) => other.outside <= most);
  const data = { bushing: bushing.name, outside: bushing.outside, most, others };
  return [diagnostic('bushing-over-tail', 'refused', `joints.${joint.name}.bushing`, data)];
}

export function boundsApart(
  joint: HalfBlindJoint,
  { bit, bushing, lean }: HalfBlindTools,
  shop: Shop,
): TailBounds {
  const wood = woodBounds(lean);
  const finger = shop.plate.leastFinger + offsetOfBothSides(bit, bushing);
  const thin = `the template finger through ${bushing.name} would be thinner than the plate allows`;
  return {
    leastEndPin: wood.leastEndPin,
    leastPin: widest(
      wood.leastPin,
      {
        width: bit.diameter,
        roomy: bit.diameter + BUSHING_ROOM,
        because: `the bit ${bit.name} must pass between the tails`,
      },
      { width: finger + 2 * lean, because: thin },
    ),
    leastTail: widest(
      wood.leastTail,
      {
        width: bit.diameter - 2 * lean,
        roomy: bit.diameter - 2 * lean + BUSHING_ROOM,
        because: `the bit ${bit.name} must pass through the socket`,
      },
      { width: finger + joint.slack, because: thin },
    ),
  };
}

export function cutApart(
  joint: HalfBlindJoint,
  layout: Layout,
  tools: HalfBlindTools,
  shop: Shop,
): readonly Cut[] {
  return [tailsCut(joint, layout, tools, shop), socketsCut(joint, layout, tools, shop)];
}

function tailsCut(joint: HalfBlindJoint, layout: Layout, tools: HalfBlindTools, shop: Shop): Cut {
  const { bit, bushing, lean } = tools;
  const tails = runsOf(layout, 'tail');
  const narrowest = Math.min(...tails.map((run) => run.to - run.from));
  const finger = narrowest - offsetOfBothSides(bit, bushing) - joint.slack;
  const nearEdge = nearEdgeOf(joint, finger, shop, tools, -joint.boards.tails.thickness);
  const square = joint.tailsInside === 'square';
  const openTo = nearEdge - clearOf(bit, bushing);
  return {
    ...cutWith(layout, tools),
    board: 'tails',
    cutterRadius: bit.diameter / 2 - lean,
    waste: square
      ? wasteRegion(runsOf(layout, 'pin'), joint.width, {
          lean: 0,
          ease: joint.slack / 2 - lean,
          runOff: bit.diameter,
          far: bit.diameter,
          straightBelow: nearEdge,
          openTo,
        })
      : aroundTails(tails, joint, tools, openTo),
    nearEdge,
    narrowestAt: square ? nearEdge : -joint.boards.tails.thickness / 2,
    stock: [{ board: 'tails', outline: endStock(joint.width, joint.boards.tails.thickness) }],
  };
}

/** Everything that must go so that the tails are left: the gaps, and the strip before the inside face. */
function aroundTails(
  tails: readonly WasteRun[],
  joint: HalfBlindJoint,
  { bit, lean }: HalfBlindTools,
  openTo: number,
): Region {
  const { width, slack, boards } = joint;
  const far = bit.diameter;
  const past = bit.diameter;
  const front = -boards.tails.thickness + slack / 2;
  const kept = tails.map((run) =>
    roundCorners(
      rectangle(
        run.offNear ? -2 * past : run.from - lean + slack / 2,
        front,
        run.offFar ? width + 2 * past : run.to + lean - slack / 2,
        far + past,
      ),
      (corner) => (corner.y < 0 ? (bit.diameter - slack) / 2 : 0),
    ),
  );
  return difference([rectangle(-past, openTo, width + past, far)], kept);
}

function socketsCut(joint: HalfBlindJoint, layout: Layout, tools: HalfBlindTools, shop: Shop): Cut {
  const { bit, bushing, lean } = tools;
  const { width, boards, lip } = joint;
  const inner = runsOf(layout, 'pin').filter((run) => !run.offNear && !run.offFar);
  const narrowest = Math.min(...inner.map((run) => run.to - run.from), Number.POSITIVE_INFINITY);
  const finger = narrowest - 2 * lean - offsetOfBothSides(bit, bushing);
  const nearEdge = nearEdgeOf(joint, finger, shop, tools, -(lip?.end ?? 0));
  const far = boards.tails.thickness + (joint.tailsInside === 'square' ? lean : 0);
  const sockets = wasteRegion(runsOf(layout, 'tail'), width, {
    lean: 0,
    ease: lean,
    runOff: bit.diameter,
    far,
    straightBelow: nearEdge,
    openTo: nearEdge - clearOf(bit, bushing),
  });
  const front = rectangle(
    -(lip?.lower ?? 0),
    -(lip?.end ?? 0),
    width + (lip?.upper ?? 0),
    frontShown(joint, tools),
  );
  return {
    ...cutWith(layout, tools),
    board: 'sockets',
    cutterRadius: bit.diameter / 2,
    waste: sockets.map((socket) => roundedEnd(socket, far, bit.diameter / 2)),
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: 'pins', outline: front }],
  };
}

/** A socket with the corners at its far end as round as the bit leaves them. */
function roundedEnd(socket: Outline, far: number, radius: number): Outline {
  return roundCorners(socket, (corner) => (corner.y > far - 1e-6 ? radius : 0));
}

function cutWith(layout: Layout, { bit, bushing, depth }: HalfBlindTools) {
  return { bit, bushing, depth, mirroredForSecondEnd: !isMirrorImage(layout) };
}

function nearEdgeOf(
  joint: HalfBlindJoint,
  finger: number,
  shop: Shop,
  { bit, bushing }: HalfBlindTools,
  from: number,
): number {
  const { nose = chooseNose(() => finger, shop.plate.leastFinger, bit, bushing) } = joint.template;
  return from - nose;
}
