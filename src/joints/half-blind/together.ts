import { type Diagnostic, diagnostic, err, type Result } from '../../diagnostics/diagnostic.js';
import { outline, rectangle } from '../../geometry/outline.js';
import { arc, line } from '../../geometry/segment.js';
import type { Outline, Point, Segment } from '../../geometry/types.js';
import type { Shop } from '../../input/types.js';
import { layTails } from '../../layout/tails/tails.js';
import type { LaidOut, Layout } from '../../layout/types.js';
import type { Cut, StockBoard } from '../family.js';
import { defaultNose } from '../nose.js';
import { runsOf } from '../row.js';
import { BUSHING_ROOM, clearOf } from '../tools.js';
import { deepest } from './depth.js';
import type { HalfBlindJoint } from './fields.js';
import { pitchOfTools } from './pitch-range.js';
import { frontShown, type HalfBlindTools } from './tool-shape.js';

/**
 * Both boards under one template, at an even pitch p. The front lies flat, inside face up, its end at y = 0;
 * the side stands before it, inside face toward the operator, half a pitch further along x. With h the depth,
 * k = tan θ, D the bit, B the bushing, g the slack:
 *
 *   slot     s = B + (p − 2D + 2hk + g) / 2 ≥ B        waste w = s − B + D = (p + 2hk + g) / 2
 *   finger   f = p − s
 *   slot root at y = t_T + (B − D)/2, finger tip at y = −t_T + (B − (D − 2hk))/2, both half circles
 *
 * so the rounded tails equal the rounded sockets at every level. At the baseline a tail is p/2 − hk wide and
 * a pin p/2 + hk: the pitch and the depth leave nothing else to choose.
 * Derivation: src/joints/README.md, "Geometry of the joints", half-blind with one template.
 */
export function layTogether(joint: HalfBlindJoint, tools: HalfBlindTools, shop: Shop): Result<LaidOut> {
  const at = `joints.${joint.name}.layout`;
  const { pitch, diagnostics } = pitchOf(joint, tools, shop);
  if (diagnostics.length > 0) return err(diagnostics);
  const { thickness } = joint.boards.tails;
  const bounds = pitchOfTools(joint, tools, shop);
  const most = bounds.most.pitch;
  if (pitch > most + 1e-9) {
    const data = {
      pitch,
      thickness,
      ...(most >= bounds.least.pitch && { most }),
      thicker: (pitch / 2 + tools.lean) / 2,
    };
    const where = joint.layout.pitch === undefined ? at : `${at}.pitch`;
    return err([diagnostic('pitch-over-thickness', 'refused', where, data)]);
  }
  const pin = pitch / 2 + tools.lean;
  const tail = pitch / 2 - tools.lean;
  const because = 'one template for both boards makes pins and tails of one size';
  const asked = joint.layout.pin;
  if (asked !== undefined && Math.abs(asked - pin) > 0.01) {
    return err([diagnostic('pin-follows-pitch', 'refused', `${at}.pin`, { key: 'pin', asked, pin, pitch })]);
  }
  const { leastPin = 0 } = joint.layout;
  if (leastPin > pin + 0.01) {
    const data = { key: 'least-pin' as const, asked: leastPin, pin, pitch };
    return err([diagnostic('pin-follows-pitch', 'refused', `${at}.least-pin`, data)]);
  }
  const laid = layTails(
    joint.width,
    { ...joint.layout, pitch, pin },
    {
      leastPin: { width: pin, because },
      leastTail: { width: tail, because },
      leastEndPin: { width: tools.lean + 3, because: 'its narrow end would be too thin to stand' },
      evenOnly: 'one template cuts both boards half a pitch apart',
    },
    at,
  );
  if (!laid.ok) return laid;
  const endPin = laid.value.layout.spans[0]?.to ?? 0;
  // Past half a pitch the side's edge keeps wood that no slot reaches, and the last slot nicks the front.
  if (endPin > pitch / 2 + 1e-9) {
    const widths = joint.layout.pitch === undefined ? [] : laid.value.suitableWidths;
    const data = { endPin, most: pitch / 2, pitch, widths };
    return err([...laid.diagnostics, diagnostic('half-pin-over-half-pitch', 'refused', at, data)]);
  }
  return laid;
}

/** p as asked, or the one that fills the board with as many tails as the bushing lets stand side by side. */
function pitchOf(
  joint: HalfBlindJoint,
  tools: HalfBlindTools,
  shop: Shop,
): { pitch: number; diagnostics: readonly Diagnostic[] } {
  const { bit, lean } = tools;
  const least = 2 * bit.diameter - 2 * lean - joint.slack;
  const { pitch, tails } = joint.layout;
  const at = `joints.${joint.name}.layout`;
  if (pitch === undefined) {
    // W = (n − 1) p + (p/2 − hk) + both half-pins: as asked, or five eighths of a pin, 5/8 (p/2 + hk), each.
    const { endPin } = joint.layout;
    const rest = endPin === undefined ? lean / 4 : 2 * endPin - lean;
    const part = endPin === undefined ? 1 / 8 : -1 / 2;
    const filled = joint.width - rest;
    // Slots a little wider than the bushing, where halfpin counts the tails.
    const most = Math.max(0, Math.floor(filled / (least + 2 * BUSHING_ROOM) - part + 1e-9));
    const count = tails ?? Math.max(1, most);
    const fitting = filled / (count + part);
    if (fitting >= least - 1e-9) return { pitch: fitting, diagnostics: [] };
    const wanted = pitchOfTools(joint, tools, shop).least.pitch;
    const data = { tails: count, pitch: fitting, least: wanted, board: wanted * (count + part) + rest };
    return {
      pitch: fitting,
      diagnostics: [diagnostic('tails-over-bushing', 'refused', `${at}.tails`, data)],
    };
  }
  if (pitch >= least - 1e-9) return { pitch, diagnostics: [] };
  const deeper = (2 * bit.diameter - pitch - joint.slack) / (2 * Math.tan(bit.angle));
  const lap = deepest(joint);
  const next = pitchOfTools(joint, tools, shop).least.pitch;
  const data = {
    pitch,
    least: next,
    next,
    bit: bit.name,
    depth: tools.depth,
    ...(deeper <= lap && { deeper }),
  };
  return { pitch, diagnostics: [diagnostic('pitch-under-bit', 'refused', `${at}.pitch`, data)] };
}

/** The one cut, or with a lip the same template used twice, since the front then stands elsewhere than the side. */
export function cutTogether(joint: HalfBlindJoint, layout: Layout, tools: HalfBlindTools): readonly Cut[] {
  const comb = combOf(joint, layout, tools);
  const { side, front } = boardsUnder(joint, tools, comb.pitch);
  const cut = (board: string, stock: readonly StockBoard[]): Cut => ({
    board,
    bit: tools.bit,
    bushing: tools.bushing,
    depth: tools.depth,
    cutterRadius: tools.bit.diameter / 2,
    waste: [combOutline(comb)],
    nearEdge: comb.nearEdge,
    narrowestAt: (comb.tipFrom + comb.rootFrom) / 2,
    stock,
    mirroredForSecondEnd: false,
  });
  return joint.lip ? [cut('tails', [side]), cut('sockets', [front])] : [cut('both', [side, front])];
}

/** Where the boards are clamped: the side half a pitch along from the front. */
function boardsUnder(joint: HalfBlindJoint, tools: HalfBlindTools, pitch: number) {
  const { width, boards, lip } = joint;
  const side = rectangle(pitch / 2, -boards.tails.thickness, pitch / 2 + width, 0);
  const front = rectangle(
    -(lip?.lower ?? 0),
    -(lip?.end ?? 0),
    width + (lip?.upper ?? 0),
    frontShown(joint, tools),
  );
  return { side: { board: 'tails', outline: side }, front: { board: 'pins', outline: front } };
}

/** R of the whole template: slots at every tail and one more, with everything before the finger tips open. */
interface Comb {
  readonly centres: readonly number[];
  readonly pitch: number;
  /** w, width of a slot's waste at the bit's tip. */
  readonly width: number;
  /** y where the slots' half-round roots begin, and where the fingers' half-round tips begin. */
  readonly rootFrom: number;
  readonly tipFrom: number;
  readonly nearEdge: number;
  readonly openTo: number;
}

function combOf(joint: HalfBlindJoint, layout: Layout, tools: HalfBlindTools): Comb {
  const middles = runsOf(layout, 'tail').map((run) => (run.from + run.to) / 2);
  const first = runsOf(layout, 'tail')[0];
  const pitch = first ? 2 * (first.to - first.from + tools.lean) : 0;
  const width = (pitch + 2 * tools.lean + joint.slack) / 2;
  const { thickness } = joint.boards.tails;
  const nearEdge = -thickness - (joint.template.nose ?? defaultNose(tools.bit, tools.bushing));
  return {
    centres: [...middles, (middles.at(-1) ?? 0) + pitch],
    pitch,
    width,
    rootFrom: thickness - width / 2,
    tipFrom: -thickness + tools.lean + (pitch - width) / 2,
    nearEdge,
    openTo: nearEdge - clearOf(tools.bit, tools.bushing),
  };
}

function combOutline({ centres, width, pitch, rootFrom, tipFrom, openTo }: Comb): Outline {
  const half = width / 2;
  const first = centres[0] ?? 0;
  const last = centres.at(-1) ?? 0;
  const segments: Segment[] = [line({ x: first - half, y: openTo }, { x: last + half, y: openTo })];
  let pen: Point = { x: last + half, y: openTo };
  const to = (next: Point) => {
    segments.push(line(pen, next));
    pen = next;
  };
  const round = (center: Point, next: Point, ccw: boolean) => {
    segments.push(arc(pen, next, center, ccw));
    pen = next;
  };
  // From the far edge back to the reference edge: up a slot, round its root, down and round a finger's tip.
  for (const centre of [...centres].reverse()) {
    to({ x: centre + half, y: rootFrom });
    round({ x: centre, y: rootFrom }, { x: centre - half, y: rootFrom }, true);
    if (centre === first) break;
    to({ x: centre - half, y: tipFrom });
    round({ x: centre - pitch / 2, y: tipFrom }, { x: centre - pitch + half, y: tipFrom }, false);
  }
  to({ x: first - half, y: openTo });
  return outline(segments);
}
