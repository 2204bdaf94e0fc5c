import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { Bit, Shop } from '../../input/types.js';
import { isMirrorImage } from '../../layout/mirror.js';
import { hasFreeCount } from '../../layout/tails/choices.js';
import { layTails } from '../../layout/tails/tails.js';
import type { LaidOut, Layout } from '../../layout/types.js';
import type { BitSlot, Cut, JointFamily, OtherWay, SolvedJoint } from '../family.js';
import { leastRoom, roomDiagnostics } from '../measure.js';
import { woodBounds } from '../search/bounds.js';
import { starterShop } from '../starter-shop.js';
import { templateName } from '../template-name.js';
import { judgeTools } from '../tools.js';
import { boundsApart, bushingDiagnostics, cutApart, layApart } from './apart.js';
import { halfBlindBoards } from './boards.js';
import { type DepthJudge, depthsToTry, halfBlindChoices, isComb } from './choices.js';
import { depthDiagnostics, depthOf } from './depth.js';
import { type HalfBlindJoint, halfBlindFields } from './fields.js';
import { halfBlindFit } from './fit.js';
import { halfBlindMarkings } from './markings.js';
import { pitchNone } from './pitch-none.js';
import { cutTogether, layTogether } from './together.js';
import { type HalfBlindTools, halfBlindTools } from './tool-shape.js';

/**
 * The half-blind dovetail of drawers: tails on the side go into sockets in the front, which do not come
 * through its face. One dovetail bit at one depth h cuts both boards. Spans are given at the baseline: on the
 * side where tails are narrowest, h from its end, and on the front's inside face.
 */
export const halfBlindDovetail: JointFamily<HalfBlindJoint> = {
  kind: 'half-blind-dovetail',
  summary: 'tails that end behind the face of a drawer front, flush or lipped',
  fields: halfBlindFields,
  starter: halfBlindStarter(),
  solve: solveHalfBlind,
  choices: halfBlindWays,
  choosesDepth: true,
  refusal: halfBlindRefusal,
  others: otherHalfBlinds,
  thickened: (joint, thickness) => ({
    ...joint,
    boards: { ...joint.boards, tails: { ...joint.boards.tails, thickness } },
  }),
  bitSlots: halfBlindBitSlots,
};

function solveHalfBlind(joint: HalfBlindJoint, shop: Shop): Result<SolvedJoint> {
  const depth = depthOf(joint);
  const deep = depthDiagnostics(joint, depth);
  // Nothing else can be said of sockets that go through the front.
  if (depth >= joint.boards.pins.thickness) return err(deep);
  const tools = halfBlindTools(joint, depth);
  const judged = [
    ...deep,
    ...lipDiagnostics(joint, depth),
    ...shapeDiagnostics(joint),
    ...(tools ? judgeTools(toolUse(joint, tools), shop) : []),
  ];
  const laid = layOutHalfBlind(joint, shop, tools, depth);
  if (!laid.ok || hasErrors(judged)) {
    return err([...judged, ...laid.diagnostics]);
  }
  const { layout } = laid.value;
  const cuts = tools ? cutsOf(joint, layout, tools, shop) : [];
  const solved: SolvedJoint = {
    name: joint.name,
    kind: joint.kind,
    words: 'half-blind dovetail',
    width: joint.width,
    layout,
    boards: halfBlindBoards(joint, cuts, depth, slopeOf(joint)),
    assembly: {
      way: 'sunk',
      boards: ['tails', 'pins'],
      ...(tools && joint.tailsInside === 'square' && { pared: true }),
    },
    setUp: {
      at: 'corners',
      corners: 'front',
      // The lip hides a side's end from the sander.
      ...(!joint.lip && { flush: ['Sand the sides flush with the ends of the pin boards.'] }),
    },
    slope: slopeOf(joint),
    symmetric: isMirrorImage(layout),
    cuts,
    markings: halfBlindMarkings(joint, layout, depth, slopeOf(joint)),
    ...(tools && { fit: { ...halfBlindFit(joint, layout, tools), room: leastRoom(cuts) } }),
    marker: true,
  };
  return ok(solved, [
    ...judged,
    ...laid.diagnostics,
    ...secondEnd(joint, solved),
    ...paring(joint, tools),
    ...roomDiagnostics(joint, cuts),
  ]);
}

function halfBlindBitSlots(joint: HalfBlindJoint): readonly BitSlot<HalfBlindJoint>[] {
  const { cutter } = joint;
  if (!cutter) return [];
  const put = (other: HalfBlindJoint, bit: Bit) => ({ ...other, cutter: bit });
  return [{ key: 'cutter', kind: 'dovetail', bit: cutter, depth: (bit) => depthOf(put(joint, bit)), put }];
}

/** θ: the bit's angle, or the slope asked for where the joint is cut by hand. */
function slopeOf(joint: HalfBlindJoint): number {
  return joint.cutter?.angle ?? joint.slope ?? 0;
}

function toolUse(joint: HalfBlindJoint, { bit, bushing, depth }: HalfBlindTools) {
  const at = `joints.${joint.name}`;
  return { bit, bushing, depth, bitAt: `${at}.cutter`, bushingAt: `${at}.bushing` };
}

function layOutHalfBlind(
  joint: HalfBlindJoint,
  shop: Shop,
  tools: HalfBlindTools | undefined,
  depth: number,
): Result<LaidOut> {
  if (!tools) {
    const bounds = woodBounds(depth * Math.tan(slopeOf(joint)));
    return layTails(joint.width, joint.layout, bounds, `joints.${joint.name}.layout`);
  }
  return joint.method === 'together' ? layTogether(joint, tools, shop) : layApart(joint, tools, shop);
}

function cutsOf(joint: HalfBlindJoint, layout: Layout, tools: HalfBlindTools, shop: Shop): readonly Cut[] {
  return joint.method === 'together'
    ? cutTogether(joint, layout, tools)
    : cutApart(joint, layout, tools, shop);
}

// What is to be said

function shapeDiagnostics(joint: HalfBlindJoint): readonly Diagnostic[] {
  return [...squareDiagnostics(joint), ...slotsDiagnostics(joint)];
}

function slotsDiagnostics(joint: HalfBlindJoint): readonly Diagnostic[] {
  if (joint.template.slots === undefined) return [];
  const at = `joints.${joint.name}.template.slots`;
  return [diagnostic('every-second-not-here', 'refused', at, { kind: joint.kind })];
}

function squareDiagnostics(joint: HalfBlindJoint): readonly Diagnostic[] {
  if (joint.tailsInside !== 'square') return [];
  const at = `joints.${joint.name}.tails-inside`;
  if (joint.method === 'together') return [diagnostic('square-tails-together', 'refused', at, {})];
  return thinSideDiagnostics(joint, at);
}

/** Pared to D/2 at their end, tails on a side thinner than that lose wood on the outside face, which leaves play. */
function thinSideDiagnostics({ cutter, boards }: HalfBlindJoint, at: string): readonly Diagnostic[] {
  const { thickness } = boards.tails;
  if (!cutter || thickness >= cutter.diameter / 2 - 1e-9) return [];
  const data = { bit: cutter.name, radius: cutter.diameter / 2, thickness, largest: 2 * thickness };
  return [diagnostic('square-tails-thin-side', 'refused', at, data)];
}

function lipDiagnostics(joint: HalfBlindJoint, depth: number): readonly Diagnostic[] {
  const { lip, boards, width } = joint;
  if (!lip) return [];
  const at = `joints.${joint.name}.lip`;
  const { thickness } = boards.pins;
  if (lip.rabbet >= thickness) {
    return [diagnostic('rabbet-through', 'refused', `${at}.rabbet`, { rabbet: lip.rabbet, thickness })];
  }
  if (lip.rabbet < depth - 1e-9) {
    return [diagnostic('rabbet-shallow', 'refused', `${at}.rabbet`, { rabbet: lip.rabbet, depth })];
  }
  const frontWidth = width + lip.lower + lip.upper;
  return [
    diagnostic('lip-set-up', 'ok', at, { end: lip.end, lower: lip.lower, upper: lip.upper, frontWidth }),
  ];
}

/** Tails keep their inside face toward the operator, so neither board can be turned for its second end. */
function secondEnd(joint: HalfBlindJoint, solved: SolvedJoint): readonly Diagnostic[] {
  if (solved.symmetric) return [];
  return solved.cuts.map(({ board }) =>
    diagnostic('second-end-mirrored', 'caution', `joints.${joint.name}.layout`, {
      template: templateName(joint, board),
      second: `${templateName(joint, board)}-mirrored`,
    }),
  );
}

/** Square tails meet sockets with round corners: what is to be pared away, from the tip to the baseline. */
function paring(joint: HalfBlindJoint, tools: HalfBlindTools | undefined): readonly Diagnostic[] {
  if (!tools || joint.tailsInside !== 'square') return [];
  const radius = tools.bit.diameter / 2;
  const data = { radius, atBaseline: radius - tools.lean, deeper: tools.lean };
  return [diagnostic('tails-to-pare', 'ok', `joints.${joint.name}.tails-inside`, data)];
}

// How the blanks are filled in

function halfBlindWays(joint: HalfBlindJoint, shop: Shop): Iterable<HalfBlindJoint> {
  return halfBlindChoices(joint, shop, depthJudge(joint, shop));
}

function depthJudge(joint: HalfBlindJoint, shop: Shop): DepthJudge {
  const deep = { ...joint, depth: 0 };
  return {
    trouble: (depth) => {
      const tools = halfBlindTools(joint, depth);
      const diagnostics = [
        ...depthDiagnostics(deep, depth),
        ...lipDiagnostics(joint, depth),
        ...(tools
          ? [...judgeTools(toolUse(joint, tools), shop), ...bushingDiagnostics(joint, tools, shop)]
          : []),
      ];
      if (hasErrors(diagnostics)) return Number.POSITIVE_INFINITY;
      return diagnostics.filter(({ level }) => level === 'caution').length;
    },
    bounds: (depth, plate) => {
      const tools = halfBlindTools(joint, depth);
      return tools ? boundsApart(joint, tools, plate) : woodBounds(depth * Math.tan(slopeOf(joint)));
    },
  };
}

/**
 * What stands in the way of every depth and every number of tails. Under one template that is a pitch which the
 * tools need and the side or the board does not give; else the one tail that asks least of the tools.
 */
function halfBlindRefusal(joint: HalfBlindJoint, shop: Shop): Result<SolvedJoint> {
  const judge = depthJudge(joint, { ...shop, bits: {}, bushings: {} });
  const { usual, others: unusual } = depthsToTry(joint, judge);
  const depths = [...usual, ...unusual];
  const { pin, endPin, leastPin } = joint.layout;
  const free = hasFreeCount(joint.layout) && (pin ?? endPin ?? leastPin) === undefined;
  if (!free || depths.length === 0 || hasErrors(shapeDiagnostics(joint))) return solveHalfBlind(joint, shop);
  if (isComb(joint)) {
    return joint.layout.spacing === 'even'
      ? err(pitchNone(joint, shop, depths))
      : solveHalfBlind(joint, shop);
  }
  const [depth] = depths;
  return solveHalfBlind(
    { ...joint, layout: { ...joint.layout, tails: 1 }, ...(depth !== undefined && { depth }) },
    shop,
  );
}

/** A template for each board, where one for both can't be, or another depth than the one asked for. */
function* otherHalfBlinds(joint: HalfBlindJoint): Generator<OtherWay<HalfBlindJoint>> {
  const at = `joints.${joint.name}`;
  if (joint.cutter && joint.method === 'together') {
    yield {
      joint: { ...joint, method: 'apart' },
      fmt: () => diagnostic('apart-would-do', 'ok', `${at}.method`, {}),
    };
  }
  if (joint.tailsInside === 'rounded' && joint.method === 'apart') {
    yield {
      joint: { ...joint, tailsInside: 'square' },
      fmt: () => diagnostic('square-would-do', 'ok', `${at}.tails-inside`, {}),
    };
  }
  const { depth, ...blank } = joint;
  if (depth === undefined) return;
  yield {
    joint: blank,
    fmt: () => diagnostic('blank-would-do', 'ok', at, { keys: [{ key: 'depth' }] }),
  };
}

/** A job that can be made as it stands. */
function halfBlindStarter(): string {
  return `# A drawer with half-blind dovetails. Lines after # are for you; halfpin does not read them.
# Lengths: a bare number is in units; 19 mm, 3/4 in and 1-3/8" say their own.

title: A drawer with half-blind dovetails
units: in

${starterShop}
joints:
  front:                        # the folder that make writes into
    kind: half-blind-dovetail
    width: 4-1/2                # across the boards, along the joint
    boards:
      tails: { thickness: 1/2 } # the side
      pins:  { thickness: 3/4 } # the front, which hides the joint
    method: together            # one template for both boards; apart: one for each, at any spacing
    layout: { spacing: even }   # pitch and number of tails are worked out for this board
    depth: 3/8                  # of the sockets in the front
    cutter: half-14
    bushing: half
    fit: { slack: 0.004 }       # whole clearance of one tail in its socket
`;
}
