import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { Bit, Bushing, Shop } from '../../input/types.js';
import { isMirrorImage } from '../../layout/mirror.js';
import { hasFreeCount, tailChoices } from '../../layout/tails/choices.js';
import { layTails } from '../../layout/tails/tails.js';
import type { LaidOut, Layout, TailBounds } from '../../layout/types.js';
import type { JointBoard } from '../contract.js';
import type { BitSlot, BoardMarking, Cut, JointFamily, OtherWay, SolvedJoint } from '../family.js';
import { markPanel } from '../marking.js';
import { leastRoom, roomDiagnostics } from '../measure.js';
import { chooseNose, leastNose } from '../nose.js';
import { endStock, runsOf, type WasteRun, wasteRegion } from '../row.js';
import { widest, woodBounds } from '../search/bounds.js';
import { withMargin } from '../search/choice.js';
import { FLUSH_ENDS, ON_END } from '../search/holds.js';
import { secondStopOf } from '../second-stop.js';
import { starterShop } from '../starter-shop.js';
import { templateName } from '../template-name.js';
import { BUSHING_ROOM, clearOf, judgeUses, offsetOfBothSides, type ToolUse } from '../tools.js';
import { type ThroughDovetailJoint, throughDovetailFields } from './fields.js';
import { roomyTail, throughFit } from './fit.js';
import { halfOf, isEverySecond, moveDiagnostics } from './second-slots.js';

/**
 * The through dovetail. Tails are cut with the dovetail bit, pins with the straight bit, both boards on end.
 * Spans are given at the baseline, where pins are widest (inside face) and tails narrowest. With θ the bit's
 * angle, k = tan θ, t_T and t_P the thickness of the tail and the pin board, D and d the dovetail and the
 * straight bit, B the bushing and g the slack of one mating pair:
 *
 * - a socket is b wide at the baseline and b − 2(t_P − z)k at distance z from the tail's end;
 *   b ≥ D, where equality is one pass;
 * - in plan a pin is a trapezium, b wide at the inside face and b − 2 t_P k at the outside face; an end pin
 *   slopes on one side only;
 * - a pin finger's tip is b − 2(t_P + nose)k − (B − d)/cos θ − g wide and must hold;
 * - a tail lets the straight bit through: a ≥ d.
 *
 * The sockets are cut at their nominal width and the pins carry the whole slack: a socket as wide as the bit
 * stays one pass, and the pin template is the one that can be shifted afterwards to tune the fit.
 * Derivation: src/joints/README.md, "Geometry of the joints", through dovetail.
 */
export const throughDovetail: JointFamily<ThroughDovetailJoint> = {
  kind: 'through-dovetail',
  summary: 'tails and pins that both show: case corners, boxes, trays',
  fields: throughDovetailFields,
  starter: throughStarter(),
  solve: solveThrough,
  choices: throughWays,
  refusal: throughRefusal,
  others: otherThroughs,
  bitSlots: throughBitSlots,
};

/** How far openings run past the point where the bit has left the work, so that the pin template can be shifted, mm. */
const SHIFT_SPACE = 3;

/** The tools of a joint cut by router; a joint cut by hand has none. */
interface ThroughTools {
  readonly dovetail: Bit;
  readonly straight: Bit;
  readonly bushing: Bushing;
}

function solveThrough(joint: ThroughDovetailJoint, shop: Shop): Result<SolvedJoint> {
  const at = `joints.${joint.name}`;
  const tools = throughTools(joint);
  const judged = tools ? judgeUses(toolUses(joint, tools), shop) : [];
  const laid = layOutThrough(joint, shop, tools);
  if (!laid.ok || hasErrors(judged)) {
    return err([...judged, ...laid.diagnostics]);
  }
  const { layout } = laid.value;
  const moves = tools ? moveDiagnostics(joint, layout, slopeOf(joint)) : [];
  if (hasErrors(moves)) return err([...judged, ...laid.diagnostics, ...moves]);
  const symmetric = isMirrorImage(layout);
  const turned: readonly Diagnostic[] =
    symmetric || !tools
      ? []
      : [
          diagnostic('second-end-turned', 'ok', `${at}.layout`, { board: 'tails' }),
          diagnostic('second-end-mirrored', 'caution', `${at}.layout`, {
            template: templateName(joint, 'pins'),
            second: `${templateName(joint, 'pins')}-mirrored`,
          }),
        ];
  const pins = tools && pinCut(joint, layout, tools, shop);
  const cuts = pins ? [tailCut(joint, layout, tools, shop), pins] : [];
  const solved: SolvedJoint = {
    name: joint.name,
    kind: joint.kind,
    words: 'through dovetail',
    width: joint.width,
    layout,
    boards: jointBoards(joint),
    assembly: { way: 'crossed', boards: ['tails', 'pins'] },
    setUp: {
      at: 'corners',
      corners: 'all',
      flush: joint.proud ? ['The pins stand ', joint.proud, ' proud: trim them flush.'] : FLUSH_ENDS,
    },
    slope: slopeOf(joint),
    symmetric,
    cuts,
    markings: [tailMarking(joint, layout), pinMarking(joint, layout)],
    ...(pins && { fit: { ...throughFit(joint, layout, tools, pins), room: leastRoom(cuts) } }),
    marker: true,
  };
  return ok(solved, [...judged, ...laid.diagnostics, ...moves, ...turned, ...roomDiagnostics(joint, cuts)]);
}

/** Sockets go straight through; what goes between the pins widens toward the outside face, where pins are narrow. */
function jointBoards(joint: ThroughDovetailJoint): readonly JointBoard[] {
  const { tails, pins } = joint.boards;
  const { proud = 0 } = joint;
  const lean = pins.thickness * Math.tan(slopeOf(joint));
  return [
    {
      board: 'tails',
      material: tails,
      hold: ON_END,
      wanted: { part: 'pin', x: 0, y: [-tails.thickness, 0], out: [0, 0] },
    },
    {
      board: 'pins',
      material: pins,
      hold: ON_END,
      wanted: { part: 'tail', x: 0, y: [-pins.thickness, 0], out: [lean, 0] },
      ...(proud > 0 && { reach: { by: proud, one: 'proud pins', both: 'proud pins' } }),
    },
  ];
}

function throughTools({ cutters, bushing }: ThroughDovetailJoint): ThroughTools | undefined {
  return cutters && bushing ? { dovetail: cutters.tails, straight: cutters.pins, bushing } : undefined;
}

function throughBitSlots({
  cutters,
  ...rest
}: ThroughDovetailJoint): readonly BitSlot<ThroughDovetailJoint>[] {
  if (!cutters) return [];
  const slot = (board: 'tails' | 'pins', depth: number): BitSlot<ThroughDovetailJoint> => ({
    key: `cutters.${board}`,
    kind: board === 'tails' ? 'dovetail' : 'straight',
    bit: cutters[board],
    depth: () => depth,
    put: (other, bit) => ({ ...other, cutters: { ...(other.cutters ?? cutters), [board]: bit } }),
  });
  return [slot('tails', tailDepth(rest)), slot('pins', pinDepth(rest))];
}

/** θ: the bit's angle, or the slope asked for where the joint is cut by hand. */
function slopeOf(joint: ThroughDovetailJoint): number {
  return joint.cutters?.tails.angle ?? joint.slope ?? 0;
}

function toolUses(joint: ThroughDovetailJoint, tools: ThroughTools): readonly ToolUse[] {
  const at = `joints.${joint.name}`;
  const bushing = { bushing: tools.bushing, bushingAt: `${at}.bushing` };
  return [
    { ...bushing, bit: tools.dovetail, depth: tailDepth(joint), bitAt: `${at}.cutters.tails` },
    { ...bushing, bit: tools.straight, depth: pinDepth(joint), bitAt: `${at}.cutters.pins` },
  ];
}

/** Sockets are as deep as the pin board is thick. */
function tailDepth(joint: ThroughDovetailJoint): number {
  return joint.boards.pins.thickness;
}

/** Pins reach through the tail board and, if asked, stand proud of it, to be trimmed flush. */
function pinDepth(joint: ThroughDovetailJoint): number {
  return joint.boards.tails.thickness + (joint.proud ?? 0);
}

// Bounds and layout

function layOutThrough(
  joint: ThroughDovetailJoint,
  shop: Shop,
  tools: ThroughTools | undefined,
): Result<LaidOut> {
  return layTails(joint.width, joint.layout, boundsOf(joint, shop, tools), `joints.${joint.name}.layout`);
}

function boundsOf(joint: ThroughDovetailJoint, shop: Shop, tools: ThroughTools | undefined): TailBounds {
  return tools ? routerBounds(joint, shop, tools) : handBounds(joint);
}

function handBounds(joint: ThroughDovetailJoint): TailBounds {
  return woodBounds(tailDepth(joint) * Math.tan(slopeOf(joint)));
}

function routerBounds(joint: ThroughDovetailJoint, shop: Shop, tools: ThroughTools): TailBounds {
  const { dovetail, straight, bushing } = tools;
  const hand = handBounds(joint);
  const least = shop.plate.leastFinger;
  const nose = joint.template.nose ?? leastNose(straight, bushing);
  const because = `the template finger through ${bushing.name} would be thinner than the plate allows`;
  // With every second slot a template finger is a pin, a tail and a pin wide, or a tail, a pin and a tail.
  const fingerBound = (width: number) => (isEverySecond(joint) ? [] : [{ width, because }]);
  return {
    leastPin: widest(
      hand.leastPin,
      {
        width: dovetail.diameter,
        roomy: dovetail.diameter + BUSHING_ROOM,
        because: `the bit ${dovetail.name} must pass through the socket`,
      },
      ...fingerBound(least - fingerTip(joint, tools, 0, nose)),
    ),
    leastEndPin: hand.leastEndPin,
    leastTail: widest(
      hand.leastTail,
      {
        width: straight.diameter,
        roomy: roomyTail(tools),
        because: `the bit ${straight.name} must pass between the pins`,
      },
      ...fingerBound(least + offsetOfBothSides(dovetail, bushing)),
    ),
  };
}

/** Width of a pin finger's tip for a pin b wide at the baseline, mm; negative where nothing would be left. */
function fingerTip(joint: ThroughDovetailJoint, tools: ThroughTools, b: number, nose: number): number {
  const { dovetail, straight, bushing } = tools;
  const narrowing = 2 * (tailDepth(joint) + nose) * Math.tan(dovetail.angle);
  return b - narrowing - offsetOfBothSides(straight, bushing) / Math.cos(dovetail.angle) - joint.slack;
}

/** Other numbers of tails and other pins, first those that leave the template's fingers a margin. */
function* throughWays(joint: ThroughDovetailJoint, shop: Shop): Generator<ThroughDovetailJoint> {
  for (const plate of [withMargin(shop), shop]) {
    const bounds = boundsOf(joint, plate, throughTools(joint));
    for (const layout of tailChoices(joint.width, joint.layout, bounds)) yield { ...joint, layout };
  }
}

/** One tail asks least of the tools. */
function throughRefusal(joint: ThroughDovetailJoint, shop: Shop): Result<SolvedJoint> {
  const layout = hasFreeCount(joint.layout) ? { ...joint.layout, tails: 1 } : joint.layout;
  return solveThrough({ ...joint, layout }, shop);
}

/** Every second slot leaves template fingers of a pin, a tail and a pin, or a tail, a pin and a tail. */
function otherThroughs(joint: ThroughDovetailJoint): readonly OtherWay<ThroughDovetailJoint>[] {
  const tools = throughTools(joint);
  if (!tools || isEverySecond(joint)) return [];
  const fmt = ({ layout }: SolvedJoint): Diagnostic => {
    const pin = Math.min(...wasteWidths(runsOf(layout, 'pin').filter((run) => !run.offNear && !run.offFar)));
    const tail = Math.min(...wasteWidths(runsOf(layout, 'tail')));
    const finger = Math.min(
      fingerTip(
        joint,
        tools,
        2 * pin + tail,
        joint.template.nose ?? leastNose(tools.straight, tools.bushing),
      ),
      2 * tail + pin - offsetOfBothSides(tools.dovetail, tools.bushing),
    );
    const data = { pitch: pin + tail, finger };
    return diagnostic('every-second-would-do', 'ok', `joints.${joint.name}.template`, data);
  };
  return [{ joint: { ...joint, template: { ...joint.template, slots: 'every-second' } }, fmt }];
}

// What each board loses

function tailCut(joint: ThroughDovetailJoint, layout: Layout, tools: ThroughTools, shop: Shop): Cut {
  const { dovetail, bushing } = tools;
  const narrowest = Math.min(...wasteWidths(runsOf(layout, 'tail')));
  const fingerWidth = narrowest - offsetOfBothSides(dovetail, bushing);
  const nose =
    joint.template.nose ?? chooseNose(() => fingerWidth, shop.plate.leastFinger, dovetail, bushing);
  const nearEdge = -joint.boards.tails.thickness - nose;
  const half = halfOf('tails', joint, layout, slopeOf(joint));
  return {
    board: 'tails',
    bit: dovetail,
    bushing,
    depth: tailDepth(joint),
    cutterRadius: dovetail.diameter / 2,
    waste: wasteRegion(half?.carried ?? runsOf(layout, 'pin'), joint.width, {
      lean: 0,
      ease: 0,
      runOff: dovetail.diameter,
      far: dovetail.diameter,
      straightBelow: nearEdge,
      openTo: nearEdge - clearOf(dovetail, bushing),
    }),
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: 'tails', outline: endStock(joint.width, joint.boards.tails.thickness) }],
    ...(half && { secondStop: secondStopOf(half) }),
    mirroredForSecondEnd: false,
  };
}

function pinCut(joint: ThroughDovetailJoint, layout: Layout, tools: ThroughTools, shop: Shop): Cut {
  const { dovetail, straight, bushing } = tools;
  const inner = runsOf(layout, 'pin').filter((run) => !run.offNear && !run.offFar);
  const narrowest = Math.min(...wasteWidths(inner), Number.POSITIVE_INFINITY);
  const tip = (nose: number) => fingerTip(joint, tools, narrowest, nose);
  const nose = joint.template.nose ?? chooseNose(tip, shop.plate.leastFinger, straight, bushing);
  const nearEdge = -joint.boards.pins.thickness - nose;
  const half = halfOf('pins', joint, layout, slopeOf(joint));
  return {
    board: 'pins',
    bit: straight,
    bushing,
    depth: pinDepth(joint),
    cutterRadius: straight.diameter / 2,
    waste: wasteRegion(half?.carried ?? runsOf(layout, 'tail'), joint.width, {
      lean: Math.tan(dovetail.angle),
      ease: joint.slack / 2,
      runOff: straight.diameter,
      far: straight.diameter + SHIFT_SPACE,
      straightBelow: nearEdge - 1,
      openTo: nearEdge - clearOf(straight, bushing),
    }),
    nearEdge,
    narrowestAt: nearEdge,
    tapers: true,
    stock: [{ board: 'pins', outline: endStock(joint.width, joint.boards.pins.thickness) }],
    ...(half && { secondStop: secondStopOf(half) }),
    mirroredForSecondEnd: !isMirrorImage(layout),
  };
}

function wasteWidths(runs: readonly WasteRun[]): readonly number[] {
  return runs.map((run) => run.to - run.from);
}

// Marking out

/** The tail board shows its slopes on both faces and square lines on the end grain. */
function tailMarking(joint: ThroughDovetailJoint, layout: Layout): BoardMarking {
  const sockets = runsOf(layout, 'pin');
  const depth = tailDepth(joint);
  const shift = -depth * Math.tan(slopeOf(joint));
  const face = markPanel(sockets, { atStart: shift, atEnd: 0, length: depth, baseline: true });
  const { thickness } = joint.boards.tails;
  return {
    board: 'tails',
    material: joint.boards.tails,
    width: joint.width,
    depth,
    outsideFace: face,
    endGrain: markPanel(sockets, { atStart: shift, atEnd: shift, length: thickness, baseline: false }),
    insideFace: face,
  };
}

/** The pin board shows its slopes on the end grain and square lines on both faces. */
function pinMarking(joint: ThroughDovetailJoint, layout: Layout): BoardMarking {
  const gaps = runsOf(layout, 'tail');
  const depth = pinDepth(joint);
  const { thickness } = joint.boards.pins;
  const shift = thickness * Math.tan(slopeOf(joint));
  return {
    board: 'pins',
    material: joint.boards.pins,
    width: joint.width,
    depth,
    outsideFace: markPanel(gaps, { atStart: shift, atEnd: shift, length: depth, baseline: true }),
    endGrain: markPanel(gaps, { atStart: shift, atEnd: 0, length: thickness, baseline: false }),
    insideFace: markPanel(gaps, { atStart: 0, atEnd: 0, length: depth, baseline: true }),
  };
}

/** A job that can be made as it stands. */
function throughStarter(): string {
  return `# A tray with through dovetails. Lines after # are for you; halfpin does not read them.
# Lengths: a bare number is in units; 19 mm, 3/4 in and 1-3/8" say their own.

title: A tray with through dovetails
units: in

${starterShop}
joints:
  corner:                       # the folder that make writes into
    kind: through-dovetail
    width: 3-1/2                # across the boards, along the joint
    boards:
      tails: { thickness: 1/2 }
      pins:  { thickness: 1/2 }
    layout: { spacing: even, tails: 3 }   # or graduated, mirrored, list, varied; what you leave out is worked out
    cutters: { tails: half-8, pins: straight-38 }
    bushing: seven-sixteenths
    fit: { slack: 0.004 }       # whole clearance of one pin in its socket
`;
}
