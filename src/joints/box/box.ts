import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { Bit, Board, Bushing, Shop } from '../../input/types.js';
import { layFingers } from '../../layout/fingers/fingers.js';
import { isMirrorImage } from '../../layout/mirror.js';
import { fingerChoices, hasFreeCount } from '../../layout/tails/choices.js';
import type { Bound, FingerBounds, LaidOut, Layout, Span } from '../../layout/types.js';
import type { JointBoard } from '../contract.js';
import type { BitSlot, BoardMarking, Cut, JointFamily, OtherWay, SolvedJoint } from '../family.js';
import { markPanel } from '../marking.js';
import { leastRoom, roomDiagnostics } from '../measure.js';
import { chooseNose } from '../nose.js';
import { type EverySecond, endStock, everySecond, runsOf, wasteRegion } from '../row.js';
import { withMargin } from '../search/choice.js';
import { FLUSH_ENDS, ON_END } from '../search/holds.js';
import { moveDiagnostic, secondStopOf } from '../second-stop.js';
import { starterShop } from '../starter-shop.js';
import { templateName } from '../template-name.js';
import { BUSHING_ROOM, clearOf, judgeUses, offsetOfBothSides, type ToolUse } from '../tools.js';
import { type BoxJoint, boxFields } from './fields.js';
import { boxFit } from './fit.js';

/**
 * The box joint: straight fingers, both boards on end, each cut as deep as the other board is thick. Board
 * one keeps the spans called finger and board two those called slot. With d the bit, B the bushing and g the
 * slack of a mating pair, a slot s wide needs an opening s + g/2 + (B − d), so a finger f wide leaves a
 * template finger f − g/2 − (B − d). Every inner wall gives g/4 on each board, so slots are g/2 wider and
 * fingers g/2 narrower in all.
 * Derivation: src/joints/README.md, "Geometry of the joints", box joint.
 */
export const box: JointFamily<BoxJoint> = {
  kind: 'box',
  summary: 'square fingers that interlock: slide boxes, trays, drawers',
  fields: boxFields,
  starter: boxStarter(),
  solve: solveBox,
  choices: boxWays,
  refusal: boxRefusal,
  others: otherBoxes,
  bitSlots: boxBitSlots,
};

/** Wood fingers thinner than this break when the joint is driven home, mm. Common practice, no source. */
const MIN_WOOD = 2;

interface BoxTools {
  readonly bit: Bit;
  readonly bushing: Bushing;
}

type BoxSide = 'one' | 'two';
const sides: readonly BoxSide[] = ['one', 'two'];

function solveBox(joint: BoxJoint, shop: Shop): Result<SolvedJoint> {
  const tools = boxTools(joint);
  const judged = tools ? judgeUses(toolUses(joint, tools), shop) : [];
  const laid = layOutBox(joint, shop, tools);
  if (!laid.ok || hasErrors(judged)) {
    return err([...judged, ...laid.diagnostics]);
  }
  const { layout } = laid.value;
  const moves = tools ? sides.flatMap((side) => moveDiagnostics(side, joint, layout)) : [];
  if (hasErrors(moves)) return err([...judged, ...laid.diagnostics, ...moves]);
  const symmetric = isMirrorImage(layout);
  const turned = sides.map((board) =>
    diagnostic('second-end-turned', 'ok', `joints.${joint.name}.layout`, { board }),
  );
  const cuts = tools ? sides.map((side) => boardCut(side, joint, layout, tools, shop)) : [];
  const solved: SolvedJoint = {
    name: joint.name,
    kind: joint.kind,
    words: 'box joint',
    width: joint.width,
    layout,
    boards: sides.map((side) => jointBoard(side, joint)),
    assembly: { way: 'crossed', boards: ['one', 'two'] },
    setUp: { at: 'corners', corners: 'all', flush: FLUSH_ENDS },
    symmetric,
    cuts,
    markings: sides.map((side) => boardMarking(side, joint, layout)),
    ...(tools && { fit: { ...boxFit(joint, layout, tools), room: leastRoom(cuts) } }),
    marker: true,
  };
  return ok(solved, [
    ...judged,
    ...laid.diagnostics,
    ...moves,
    ...(symmetric || !tools ? [] : turned),
    ...roomDiagnostics(joint, cuts),
  ]);
}

/** Each board loses the other one's spans, all through its thickness. */
function jointBoard(side: BoxSide, joint: BoxJoint): JointBoard {
  const { own } = boardsOf(side, joint);
  const wanted = { part: wastePart(side), x: 0, y: [-own.thickness, 0], out: [0, 0] } as const;
  return { board: side, material: own, hold: ON_END, wanted };
}

function boxTools({ cutter, bushing }: BoxJoint): BoxTools | undefined {
  return cutter && bushing ? { bit: cutter, bushing } : undefined;
}

function boxBitSlots({ cutter, boards }: BoxJoint): readonly BitSlot<BoxJoint>[] {
  if (!cutter) return [];
  const depth = () => Math.max(boards.one.thickness, boards.two.thickness);
  const put = (other: BoxJoint, bit: Bit) => ({ ...other, cutter: bit });
  return [{ key: 'cutter', kind: 'straight', bit: cutter, depth, put }];
}

function toolUses(joint: BoxJoint, { bit, bushing }: BoxTools): readonly ToolUse[] {
  const at = `joints.${joint.name}`;
  return sides.map((side) => ({
    bit,
    bushing,
    depth: boardsOf(side, joint).mate.thickness,
    bitAt: `${at}.cutter`,
    bushingAt: `${at}.bushing`,
  }));
}

function layOutBox(joint: BoxJoint, shop: Shop, tools: BoxTools | undefined): Result<LaidOut> {
  const least = leastSpan(joint, shop, tools);
  const bounds: FingerBounds = { leastFinger: least, leastSlot: least };
  return layFingers(joint.width, joint.layout, bounds, `joints.${joint.name}.layout`);
}

/** Every span is a slot of one board and a finger of the other, so one bound holds for both. */
function leastSpan(joint: BoxJoint, shop: Shop, tools: BoxTools | undefined, room = 0): Bound {
  if (!tools) return { width: MIN_WOOD, because: 'a finger that thin breaks' };
  const { bit, bushing } = tools;
  const wholeSpan = shop.plate.leastFinger + offsetOfBothSides(bit, bushing) + joint.slack / 2;
  // With every second slot a template finger spans a finger, a slot and a finger.
  const strong = isEverySecond(joint) ? wholeSpan / 3 : wholeSpan;
  return bit.diameter + room >= strong
    ? { width: bit.diameter + room, because: `the bit ${bit.name} must pass through the slot` }
    : {
        width: strong,
        because: `the template finger through ${bushing.name} would be thinner than the plate allows`,
      };
}

/** Fingers and slots of another number, first those that leave the template's fingers a margin. */
function* boxWays(joint: BoxJoint, shop: Shop): Generator<BoxJoint> {
  for (const plate of [withMargin(shop), shop]) {
    const least = leastSpan(joint, plate, boxTools(joint), plate === shop ? 0 : BUSHING_ROOM);
    const bounds: FingerBounds = { leastFinger: least, leastSlot: least };
    for (const layout of fingerChoices(joint.width, joint.layout, bounds)) yield { ...joint, layout };
  }
}

/** The fewest that make a joint ask least of the tools. */
function boxRefusal(joint: BoxJoint, shop: Shop): Result<SolvedJoint> {
  const layout = hasFreeCount(joint.layout) ? { ...joint.layout, fingers: 2 } : joint.layout;
  return solveBox({ ...joint, layout }, shop);
}

// Every second slot

function isEverySecond(joint: BoxJoint): boolean {
  return joint.template.slots === 'every-second';
}

/** Every second slot leaves a template finger three spans wide. */
function otherBoxes(joint: BoxJoint): readonly OtherWay<BoxJoint>[] {
  const tools = boxTools(joint);
  if (!tools || isEverySecond(joint)) return [];
  const fmt = ({ layout }: SolvedJoint): Diagnostic => {
    const [span] = layout.spans;
    const size = span ? span.to - span.from : 0;
    const finger = 3 * size - offsetOfBothSides(tools.bit, tools.bushing) - joint.slack / 2;
    const data = { pitch: 2 * size, finger };
    return diagnostic('every-second-would-do', 'ok', `joints.${joint.name}.template`, data);
  };
  return [{ joint: { ...joint, template: { ...joint.template, slots: 'every-second' } }, fmt }];
}

/** The half of a board's slots that its template carries; undefined where it carries all of them. */
function halfOf(side: BoxSide, joint: BoxJoint, layout: Layout): EverySecond | undefined {
  if (!isEverySecond(joint)) return undefined;
  return everySecond(runsOf(layout, wastePart(side)), joint.width, {
    spread: joint.slack / 4,
    bit: joint.cutter?.diameter ?? 0,
  });
}

function moveDiagnostics(side: BoxSide, joint: BoxJoint, layout: Layout): readonly Diagnostic[] {
  if (!isEverySecond(joint)) return [];
  const at = `joints.${joint.name}.template.slots`;
  const slots = runsOf(layout, wastePart(side)).length;
  if (slots < 2) return [diagnostic('every-second-needless', 'ok', at, { board: side, slots })];
  const half = halfOf(side, joint, layout);
  if (!half) return [diagnostic('every-second-uneven', 'refused', at, { board: side })];
  return [moveDiagnostic(at, templateName(joint, side), side, half)];
}

/** What a board loses is what the other one keeps. */
function wastePart(side: BoxSide): Span['part'] {
  return side === 'one' ? 'slot' : 'finger';
}

function boardsOf(side: BoxSide, joint: BoxJoint): { readonly own: Board; readonly mate: Board } {
  const { one, two } = joint.boards;
  return side === 'one' ? { own: one, mate: two } : { own: two, mate: one };
}

function boardCut(
  side: BoxSide,
  joint: BoxJoint,
  layout: Layout,
  { bit, bushing }: BoxTools,
  shop: Shop,
): Cut {
  const { own, mate } = boardsOf(side, joint);
  const narrowest = Math.min(...layout.spans.map((span) => span.to - span.from));
  const finger =
    (isEverySecond(joint) ? 3 : 1) * narrowest - joint.slack / 2 - offsetOfBothSides(bit, bushing);
  const nose = joint.template.nose ?? chooseNose(() => finger, shop.plate.leastFinger, bit, bushing);
  const nearEdge = -own.thickness - nose;
  const half = halfOf(side, joint, layout);
  return {
    board: side,
    bit,
    bushing,
    depth: mate.thickness,
    cutterRadius: bit.diameter / 2,
    waste: wasteRegion(half?.carried ?? runsOf(layout, wastePart(side)), joint.width, {
      lean: 0,
      ease: joint.slack / 4,
      runOff: bit.diameter,
      far: bit.diameter,
      straightBelow: nearEdge,
      openTo: nearEdge - clearOf(bit, bushing),
    }),
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: side, outline: endStock(joint.width, own.thickness) }],
    ...(half && { secondStop: secondStopOf(half) }),
    mirroredForSecondEnd: false,
  };
}

function boardMarking(side: BoxSide, joint: BoxJoint, layout: Layout): BoardMarking {
  const { own, mate } = boardsOf(side, joint);
  const runs = runsOf(layout, wastePart(side));
  const depth = mate.thickness;
  const face = markPanel(runs, { atStart: 0, atEnd: 0, length: depth, baseline: true });
  return {
    board: side,
    material: own,
    width: joint.width,
    depth,
    outsideFace: face,
    endGrain: markPanel(runs, { atStart: 0, atEnd: 0, length: own.thickness, baseline: false }),
    insideFace: face,
  };
}

/** A job that can be made as it stands. */
function boxStarter(): string {
  return `# A small box with box joints. Lines after # are for you; halfpin does not read them.
# Lengths: a bare number is in units; 19 mm, 3/4 in and 1-3/8" say their own.

title: A small box with box joints
units: in

${starterShop}
joints:
  corner:                       # the folder that make writes into
    kind: box
    width: 3-1/2                # across the boards, along the joint
    boards:
      one: { thickness: 3/8 }
      two: { thickness: 3/8 }
    layout: { spacing: even, finger: 1/2 }   # the wanted finger; the nearest that fills the board is made
    start: one                  # the board with a finger at the reference edge
    cutter: straight-38
    bushing: half
    fit: { slack: 0.004 }       # whole clearance of one finger in its slot
`;
}
