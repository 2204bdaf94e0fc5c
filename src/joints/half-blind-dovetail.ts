import { type Finding, finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import type { Bit, Shop } from '../job/types.js';
import { hasFreeCount } from '../layout/choices.js';
import { isMirrorImage } from '../layout/mirror.js';
import { layTails } from '../layout/tails.js';
import type { LaidOut, Layout } from '../layout/types.js';
import { woodBounds } from './bounds.js';
import type { BitSlot, Cut, JointFamily, OtherWay, SolvedJoint } from './family.js';
import { boundsApart, bushingFindings, cutApart, layApart } from './half-blind/apart.js';
import { halfBlindBoards } from './half-blind/boards.js';
import { type DepthJudge, depthsToTry, halfBlindChoices, isComb } from './half-blind/choices.js';
import { depthFindings, depthOf } from './half-blind/depth.js';
import { type HalfBlindJoint, halfBlindFields } from './half-blind/fields.js';
import { halfBlindFit } from './half-blind/fit.js';
import { halfBlindMarkings } from './half-blind/markings.js';
import { pitchNone } from './half-blind/pitch-none.js';
import { cutTogether, layTogether } from './half-blind/together.js';
import { type Tools, toolsOf } from './half-blind/tool-shape.js';
import { starterShop } from './starter-shop.js';
import { templateName } from './template-name.js';
import { judgeTools } from './tools.js';

/**
 * The half-blind dovetail of drawers: tails on the side go into sockets in the front, which do not come
 * through its face. One dovetail bit at one depth h cuts both boards. Spans are given at the baseline: on the
 * side where tails are narrowest, h from its end, and on the front's inside face.
 */
export const halfBlindDovetail: JointFamily<HalfBlindJoint> = {
  kind: 'half-blind-dovetail',
  summary: 'tails that end behind the face of a drawer front, flush or lipped',
  fields: halfBlindFields,
  starter: starterJob(),
  solve,
  choices,
  choosesDepth: true,
  refusal,
  others,
  thickened: (joint, thickness) => ({
    ...joint,
    boards: { ...joint.boards, tails: { ...joint.boards.tails, thickness } },
  }),
  bitSlots,
};

function solve(joint: HalfBlindJoint, shop: Shop): Result<SolvedJoint> {
  const depth = depthOf(joint);
  const deep = depthFindings(joint, depth);
  // Nothing else can be said of sockets that go through the front.
  if (depth >= joint.boards.pins.thickness) return refused(deep);
  const tools = toolsOf(joint, depth);
  const judged = [
    ...deep,
    ...lipFindings(joint, depth),
    ...shapeFindings(joint),
    ...(tools ? judgeTools(toolUse(joint, tools), shop) : []),
  ];
  const laid = layOut(joint, shop, tools, depth);
  if (!laid.ok || isRefused(judged)) {
    return refused([...judged, ...laid.findings]);
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
    ...(tools && { fit: halfBlindFit(joint, layout, tools) }),
    marker: true,
  };
  return given(solved, [...judged, ...laid.findings, ...secondEnd(joint, solved), ...paring(joint, tools)]);
}

function bitSlots(joint: HalfBlindJoint): readonly BitSlot<HalfBlindJoint>[] {
  const { cutter } = joint;
  if (!cutter) return [];
  const put = (other: HalfBlindJoint, bit: Bit) => ({ ...other, cutter: bit });
  return [{ key: 'cutter', kind: 'dovetail', bit: cutter, depth: (bit) => depthOf(put(joint, bit)), put }];
}

/** θ: the bit's angle, or the slope asked for where the joint is cut by hand. */
function slopeOf(joint: HalfBlindJoint): number {
  return joint.cutter?.angle ?? joint.slope ?? 0;
}

function toolUse(joint: HalfBlindJoint, { bit, bushing, depth }: Tools) {
  const at = `joints.${joint.name}`;
  return { bit, bushing, depth, bitAt: `${at}.cutter`, bushingAt: `${at}.bushing` };
}

function layOut(joint: HalfBlindJoint, shop: Shop, tools: Tools | undefined, depth: number): Result<LaidOut> {
  if (!tools) {
    const bounds = woodBounds(depth * Math.tan(slopeOf(joint)));
    return layTails(joint.width, joint.layout, bounds, `joints.${joint.name}.layout`);
  }
  return joint.method === 'together' ? layTogether(joint, tools, shop) : layApart(joint, tools, shop);
}

function cutsOf(joint: HalfBlindJoint, layout: Layout, tools: Tools, shop: Shop): readonly Cut[] {
  return joint.method === 'together'
    ? cutTogether(joint, layout, tools)
    : cutApart(joint, layout, tools, shop);
}

// What is to be said

function shapeFindings(joint: HalfBlindJoint): readonly Finding[] {
  return [...squareFindings(joint), ...slotsFindings(joint)];
}

function slotsFindings(joint: HalfBlindJoint): readonly Finding[] {
  if (joint.template.slots === undefined) return [];
  const at = `joints.${joint.name}.template.slots`;
  return [finding('every-second-not-here', 'refused', at, { kind: joint.kind })];
}

function squareFindings(joint: HalfBlindJoint): readonly Finding[] {
  if (joint.tailsInside !== 'square') return [];
  const at = `joints.${joint.name}.tails-inside`;
  if (joint.method === 'together') return [finding('square-tails-together', 'refused', at, {})];
  return thinSideFindings(joint, at);
}

/** Pared to D/2 at their end, tails on a side thinner than that lose wood on the outside face, which leaves play. */
function thinSideFindings({ cutter, boards }: HalfBlindJoint, at: string): readonly Finding[] {
  const { thickness } = boards.tails;
  if (!cutter || thickness >= cutter.diameter / 2 - 1e-9) return [];
  const data = { bit: cutter.name, radius: cutter.diameter / 2, thickness, largest: 2 * thickness };
  return [finding('square-tails-thin-side', 'refused', at, data)];
}

function lipFindings(joint: HalfBlindJoint, depth: number): readonly Finding[] {
  const { lip, boards, width } = joint;
  if (!lip) return [];
  const at = `joints.${joint.name}.lip`;
  const { thickness } = boards.pins;
  if (lip.rabbet >= thickness) {
    return [finding('rabbet-through', 'refused', `${at}.rabbet`, { rabbet: lip.rabbet, thickness })];
  }
  if (lip.rabbet < depth - 1e-9) {
    return [finding('rabbet-shallow', 'refused', `${at}.rabbet`, { rabbet: lip.rabbet, depth })];
  }
  const frontWidth = width + lip.lower + lip.upper;
  return [finding('lip-set-up', 'ok', at, { end: lip.end, lower: lip.lower, upper: lip.upper, frontWidth })];
}

/** Tails keep their inside face toward the operator, so neither board can be turned for its second end. */
function secondEnd(joint: HalfBlindJoint, solved: SolvedJoint): readonly Finding[] {
  if (solved.symmetric) return [];
  return solved.cuts.map(({ board }) =>
    finding('second-end-mirrored', 'caution', `joints.${joint.name}.layout`, {
      template: templateName(joint, board),
      second: `${templateName(joint, board)}-mirrored`,
    }),
  );
}

/** Square tails meet sockets with round corners: what is to be pared away, from the tip to the baseline. */
function paring(joint: HalfBlindJoint, tools: Tools | undefined): readonly Finding[] {
  if (!tools || joint.tailsInside !== 'square') return [];
  const radius = tools.bit.diameter / 2;
  const data = { radius, atBaseline: radius - tools.lean, deeper: tools.lean };
  return [finding('tails-to-pare', 'ok', `joints.${joint.name}.tails-inside`, data)];
}

// How the blanks are filled in

function choices(joint: HalfBlindJoint, shop: Shop): Iterable<HalfBlindJoint> {
  return halfBlindChoices(joint, shop, depthJudge(joint, shop));
}

function depthJudge(joint: HalfBlindJoint, shop: Shop): DepthJudge {
  const deep = { ...joint, depth: 0 };
  return {
    trouble: (depth) => {
      const tools = toolsOf(joint, depth);
      const findings = [
        ...depthFindings(deep, depth),
        ...lipFindings(joint, depth),
        ...(tools
          ? [...judgeTools(toolUse(joint, tools), shop), ...bushingFindings(joint, tools, shop)]
          : []),
      ];
      if (isRefused(findings)) return Number.POSITIVE_INFINITY;
      return findings.filter(({ level }) => level === 'caution').length;
    },
    bounds: (depth, plate) => {
      const tools = toolsOf(joint, depth);
      return tools ? boundsApart(joint, tools, plate) : woodBounds(depth * Math.tan(slopeOf(joint)));
    },
  };
}

/**
 * What stands in the way of every depth and every number of tails. Under one template that is a pitch which the
 * tools need and the side or the board does not give; else the one tail that asks least of the tools.
 */
function refusal(joint: HalfBlindJoint, shop: Shop): Result<SolvedJoint> {
  const judge = depthJudge(joint, { ...shop, bits: {}, bushings: {} });
  const { usual, others: unusual } = depthsToTry(joint, judge);
  const depths = [...usual, ...unusual];
  const { pin, endPin, leastPin } = joint.layout;
  const free = hasFreeCount(joint.layout) && (pin ?? endPin ?? leastPin) === undefined;
  if (!free || depths.length === 0 || isRefused(shapeFindings(joint))) return solve(joint, shop);
  if (isComb(joint)) {
    return joint.layout.spacing === 'even' ? refused(pitchNone(joint, shop, depths)) : solve(joint, shop);
  }
  const [depth] = depths;
  return solve(
    { ...joint, layout: { ...joint.layout, tails: 1 }, ...(depth !== undefined && { depth }) },
    shop,
  );
}

/** A template for each board, where one for both can't be, or another depth than the one asked for. */
function* others(joint: HalfBlindJoint): Generator<OtherWay<HalfBlindJoint>> {
  const at = `joints.${joint.name}`;
  if (joint.cutter && joint.method === 'together') {
    yield {
      joint: { ...joint, method: 'apart' },
      say: () => finding('apart-would-do', 'ok', `${at}.method`, {}),
    };
  }
  if (joint.tailsInside === 'rounded' && joint.method === 'apart') {
    yield {
      joint: { ...joint, tailsInside: 'square' },
      say: () => finding('square-would-do', 'ok', `${at}.tails-inside`, {}),
    };
  }
  const { depth, ...blank } = joint;
  if (depth === undefined) return;
  yield {
    joint: blank,
    say: () => finding('blank-would-do', 'ok', at, { keys: [{ key: 'depth' }] }),
  };
}

/** A job that can be made as it stands. */
function starterJob(): string {
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
