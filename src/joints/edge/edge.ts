import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import { extents, rectangle } from '../../geometry/outline.js';
import { intersection } from '../../geometry/regions/boolean.js';
import type { Bit, Bushing, Shop } from '../../input/types.js';
import type { BitSlot, BoardMarking, Cut, JointFamily, SolvedJoint } from '../family.js';
import { defaultNose } from '../nose.js';
import { starterShop } from '../starter-shop.js';
import { clearOf, judgeUses } from '../tools.js';
import { type EdgeJoint, edgeFields } from './fields.js';
import { edgeFit } from './fit.js';
import { type JointLine, layLine } from './line.js';
import { lineOnBoard } from './marking.js';
import { readLine } from './path.js';
import { judgeReach } from './reach.js';
import { edgeAssembly, edgeBoards, edgeSetUp } from './set-up.js';
import {
  type EdgeSide,
  type Heights,
  heightsOf,
  type Side,
  sideOf,
  sides,
  stockOf,
  TRIM,
  wasteOf,
} from './side.js';

/**
 * Two boards that meet along a line from a drawing. Board one's waste lies on one side of the line, board two's
 * on the other, and each is cut right through with a straight bit under a template of its own, flat on the bench
 * (see EdgeSide for how they lie). One rule gives both templates: with R the waste, r the bit's radius and B the
 * bushing, the template's edge is the line moved by B/2 − r into the board that is kept.
 *
 * The slack g of a mating pair is the play of a bump in its bay, which have two glue lines: each of the two
 * boards gives g/4 along the line, as box joints do.
 * Derivation: src/joints/README.md, "Geometry of the joints", joint line from a drawing.
 */
export const edge: JointFamily<EdgeJoint> = {
  kind: 'edge',
  summary: 'two boards that meet along a line from a drawing: edgings, panels',
  fields: edgeFields,
  starter: edgeStarter(),
  solve: solveEdge,
  bitSlots: edgeBitSlots,
  mostTries: 24,
};

/** The bit runs this much deeper than the board is thick, into what lies under it, mm. Common practice, no source. */
export const THROUGH = 1;

/** The bit leaves the board by its own diameter and this much more, mm. */
const EDGE_CLEARANCE = 2;

/** A line on a board cut by hand runs past its edges by this much before it is cropped, mm. */
const HAND_RUN_OFF = 10;

interface EdgeTools {
  readonly bits: { readonly one: Bit; readonly two: Bit };
  readonly bushing: Bushing;
}

function solveEdge(joint: EdgeJoint, shop: Shop): Result<SolvedJoint> {
  const at = `joints.${joint.name}`;
  const tools = edgeTools(joint);
  const judged = tools
    ? judgeUses(
        sides.map((side) => useOf(joint, side, tools)),
        shop,
      )
    : [];
  const drawn = readLine(joint.line, `${at}.line`);
  if (!drawn.ok) return err([...judged, ...drawn.diagnostics]);
  const laid = layLine(drawn.value, {
    width: joint.width,
    lead: joint.line.lead,
    ...(joint.repeat && { repeat: joint.repeat }),
    byHand: tools === undefined,
    runOff: tools ? runOffOf(tools) : HAND_RUN_OFF,
    at,
  });
  const before = [...judged, ...drawn.diagnostics, ...laid.diagnostics];
  if (!laid.ok || hasErrors(before)) return err(before);
  const heights = heightsOf(laid.value, joint.width);
  const short = boardDiagnostics(joint, heights);
  const cuts =
    tools && short.length === 0
      ? sides.map((side) => boardCut(side, joint, laid.value, heights, tools, shop))
      : [];
  const diagnostics = [...before, ...short, ...cuts.flatMap((one) => one.diagnostics)];
  if (hasErrors(diagnostics)) return err(diagnostics);
  const solved: SolvedJoint = {
    name: joint.name,
    kind: joint.kind,
    words: 'edge joint',
    width: joint.width,
    layout: { width: joint.width, spans: [] },
    boards: edgeBoards(joint),
    assembly: edgeAssembly(joint, meetingHeight(heights)),
    setUp: edgeSetUp(joint, meetingHeight(heights)),
    symmetric: true,
    cuts: cuts.map(({ cut }) => cut),
    markings: sides.map((side) => boardMarking(side, joint, laid.value, heights)),
    ...(tools && { fit: edgeFit(joint, tools) }),
  };
  return ok(solved, [...diagnostics, blanks(heights, tools === undefined, at)]);
}

function edgeTools({ cutters, bushing }: EdgeJoint): EdgeTools | undefined {
  return cutters && bushing ? { bits: cutters, bushing } : undefined;
}

function edgeBitSlots({ cutters, boards, oneCutter }: EdgeJoint): readonly BitSlot<EdgeJoint>[] {
  if (!cutters) return [];
  const slot = (
    key: string,
    bit: Bit,
    depth: number,
    put: BitSlot<EdgeJoint>['put'],
  ): BitSlot<EdgeJoint> => ({
    key,
    kind: 'straight',
    bit,
    depth: () => depth,
    put,
  });
  const both = Math.max(boards.one.thickness, boards.two.thickness) + THROUGH;
  if (oneCutter) {
    return [
      slot('cutter', cutters.one, both, (other, bit) => ({ ...other, cutters: { one: bit, two: bit } })),
    ];
  }
  return sides.map((side) =>
    slot(`cutters.${side}`, cutters[side], boards[side].thickness + THROUGH, (other, bit) => ({
      ...other,
      cutters: { ...(other.cutters ?? cutters), [side]: bit },
    })),
  );
}

/** Each board is cut right through, and a little into the board under it. */
function useOf({ name, boards, oneCutter }: EdgeJoint, side: Side, { bits, bushing }: EdgeTools) {
  const at = `joints.${name}`;
  return {
    bit: bits[side],
    bushing,
    depth: boards[side].thickness + THROUGH,
    bitAt: oneCutter ? `${at}.cutter` : `${at}.cutters.${side}`,
    bushingAt: `${at}.bushing`,
  };
}

function runOffOf({ bits }: EdgeTools): number {
  return Math.max(bits.one.diameter, bits.two.diameter) + EDGE_CLEARANCE;
}

function boardCut(
  side: Side,
  joint: EdgeJoint,
  line: JointLine,
  heights: Heights,
  tools: EdgeTools,
  shop: Shop,
): { readonly cut: Cut; readonly diagnostics: readonly Diagnostic[] } {
  const { width, boards, slack, template } = joint;
  const use = useOf(joint, side, tools);
  const { bit, bushing, depth } = use;
  const placed = sideOf(side, line, heights);
  const nearEdge = -(template.nose ?? defaultNose(bit, bushing));
  const ease = slack / 4;
  const waste = wasteOf(placed, {
    width,
    runOff: runOffOf(tools),
    openTo: nearEdge - clearOf(bit, bushing),
    ease,
  });
  const stock = stockOf(placed, width, boards[side].length);
  const lineAt = `joints.${joint.name}.line`;
  const diagnostics = judgeReach({ ...use, side: placed, waste, stock, ease, shop, width, lineAt });
  const cut: Cut = {
    board: side,
    bit,
    bushing,
    depth,
    cutterRadius: bit.diameter / 2,
    waste,
    reachJudged: true,
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: side, outline: stock, thickness: boards[side].thickness }],
    mirroredForSecondEnd: false,
  };
  return { cut, diagnostics };
}

/** Each board's line is TRIM and the line's own height from its blank's edge, the one where the other's is not. */
function meetingHeight({ low, high }: Heights): number {
  return high - low + 2 * TRIM;
}

/** A board's length, where given, is measured across the line; all of the line must lie on it. */
function boardDiagnostics({ name, boards }: EdgeJoint, { low, high }: Heights): readonly Diagnostic[] {
  const least = TRIM + high - low;
  return sides.flatMap((board) => {
    const { length = Infinity } = boards[board];
    if (length > least) return [];
    const data = { board, length, least };
    return [diagnostic('board-short', 'refused', `joints.${name}.boards.${board}.length`, data)];
  });
}

function blanks({ low, high }: Heights, byHand: boolean, at: string): Diagnostic {
  const height = high - low;
  return diagnostic('edge-blanks', 'ok', `${at}.line`, {
    ...{ height, trim: TRIM, sum: meetingHeight({ low, high }), byHand },
  });
}

/**
 * The line as it is drawn on either face of a board: y from the blank's straight edge. Held with that edge up and
 * its reference edge at the left, board one, whose wood lies above the line, shows its inside face.
 */
function boardMarking(side: Side, joint: EdgeJoint, line: JointLine, heights: Heights): BoardMarking {
  const { width, boards } = joint;
  const placed: EdgeSide = sideOf(side, line, heights);
  const waste = intersection(wasteOf(placed, { width, runOff: 1, openTo: -1, ease: 0 }), [
    rectangle(0, 0, width, placed.high + 1),
  ]);
  const face = { lines: lineOnBoard(placed.path, width), waste };
  return {
    board: side,
    material: boards[side],
    width,
    depth: extents(...waste).maxY,
    over: 'edge',
    faceUpright: side === 'one' ? 'inside' : 'outside',
    outsideFace: face,
    endGrain: { lines: [], waste: [] },
    insideFace: face,
  };
}

function edgeStarter(): string {
  return `# Two boards that meet along a line from a drawing: a template for each, and patterns.
title: Wavy edging
units: in
${starterShop}
joints:
  edging:
    kind: edge
    width: 12                   # along the joint, from the reference edge
    boards:
      one: { thickness: 5/8 }
      two: { thickness: 5/8 }
    line:                       # or: { svg: edging.svg, id: wave }
      d: M 0 0 C 20 0 30 12 50 12 S 80 0 100 0
      unit: mm
    repeat: {}                  # all along; or { count: 3 }, { pitch: 120 mm }
    cutter: straight-38
    bushing: seven-sixteenths
    fit: { slack: 0.004 }       # between the boards, both sides of a bump together
`;
}
