import { MAX_TAILS } from '../../input/limits.js';
import type { Shop } from '../../input/types.js';
import { LAYOUT_ROUNDING } from '../../layout/rules.js';
import { woodBounds } from '../search/bounds.js';
import { BUSHING_ROOM, offsetOfBothSides } from '../tools.js';
import type { HalfBlindJoint } from './fields.js';
import type { HalfBlindTools } from './tool-shape.js';

/**
 * Which pitches a row of so many tails can have under one template, in closed form. With n tails on a width W the
 * half-pins are e = (W + hk − (n − ½) p) / 2, and pins and tails follow from the pitch, so every check is a bound
 * on p; those that the board's width sets depend on n. Derivation: together.ts.
 */
export type PitchBy = 'bushing' | 'finger' | 'side' | 'board' | 'asked';

export interface PitchBound {
  readonly pitch: number;
  readonly by: PitchBy;
}

export interface PitchRange {
  readonly least: PitchBound;
  readonly most: PitchBound;
  /** The pitch whose half-pins are five eighths of a pin. */
  readonly liked: number;
}

/** Half-pins this much over half a pin are plainly more than half, as a share of the board for each tail. */
const PLAINLY = 1e-3;

/** The pitches of `tails` tails at the tools' depth; `easy` leaves out what would raise a caution. */
export function pitchRange(
  joint: HalfBlindJoint,
  tools: HalfBlindTools,
  tails: number,
  shop: Shop,
  easy = false,
): PitchRange {
  const { width, layout } = joint;
  const { lean } = tools;
  const wood = woodBounds(lean);
  const atEnds = (endPin: number) => (width + lean - 2 * endPin) / (tails - 1 / 2);
  const asked = (pitch: number | undefined): readonly PitchBound[] =>
    pitch === undefined ? [] : [{ pitch, by: 'asked' }];
  const given = [
    ...asked(layout.pitch),
    ...asked(layout.pin === undefined ? undefined : 2 * (layout.pin - lean)),
    ...asked(layout.endPin === undefined ? undefined : atEnds(layout.endPin)),
  ];
  const { least, most } = pitchOfTools(joint, tools, shop);
  const slotPitch = 2 * tools.bit.diameter - 2 * lean - joint.slack;
  return {
    least: greatest([
      least,
      ...(easy ? [{ pitch: slotPitch + 2 * BUSHING_ROOM, by: 'bushing' } as const] : []),
      { pitch: (width + lean) / (tails + 1 / 2), by: 'board' },
      ...asked(layout.leastPin === undefined ? undefined : 2 * (layout.leastPin - lean)),
      ...(easy ? [{ pitch: 2 * (wood.leastTail.width + lean), by: 'finger' } as const] : []),
      ...given,
    ]),
    most: smallest([
      most,
      { pitch: atEnds(wood.leastEndPin.width), by: 'board' },
      ...(easy ? [{ pitch: (width / tails) * (1 - PLAINLY), by: 'board' } as const] : []),
      ...given,
    ]),
    liked: (width - lean / 4) / (tails + 1 / 8),
  };
}

/** What the tools, the plate and the side's thickness allow, whatever the board's width. */
export function pitchOfTools(
  { slack, boards }: HalfBlindJoint,
  { bit, bushing, lean }: HalfBlindTools,
  shop: Shop,
): { readonly least: PitchBound; readonly most: PitchBound } {
  const finger = shop.plate.leastFinger + offsetOfBothSides(bit, bushing);
  return {
    least: greatest([
      { pitch: 2 * bit.diameter - 2 * lean - slack, by: 'bushing' },
      { pitch: 2 * (finger + lean) + slack, by: 'finger' },
    ]),
    // Root and tip of an opening are half circles; a wider pitch leaves no straight wall between them.
    most: { pitch: 2 * (2 * boards.tails.thickness - lean), by: 'side' },
  };
}

/** The board width next to the joint's on which a row can stand at a pitch that the tools allow, mm. */
export function boardFor(joint: HalfBlindJoint, tools: HalfBlindTools, shop: Shop): number {
  const { least, most } = pitchOfTools(joint, tools, shop);
  const { lean } = tools;
  const { leastEndPin } = woodBounds(lean);
  // The rows that are nearest to the board's width have about so many tails.
  const about = Math.floor(joint.width / least.pitch);
  const ranges = [about - 1, about, about + 1, about + 2]
    .map((tails) => Math.min(MAX_TAILS, Math.max(1, tails)))
    .map((tails) => [
      least.pitch * (tails - 1 / 2) + 2 * leastEndPin.width - lean,
      most.pitch * (tails + 1 / 2) - lean,
    ]);
  const nearest = ranges.map(([from = 0, to = 0]) => Math.min(Math.max(joint.width, from), to));
  return nearest.reduce((best, one) =>
    Math.abs(one - joint.width) < Math.abs(best - joint.width) ? one : best,
  );
}

/**
 * The numbers of tails that may stand on the board at the tools' depth: half-pins are at most half a pitch and at
 * least as wide as they can be cut. None where the tools need more than the side takes.
 */
export function countsAt(
  joint: HalfBlindJoint,
  tools: HalfBlindTools,
  shop: Shop,
): { readonly least: number; readonly most: number } {
  const { width, layout } = joint;
  const { least, most } = pitchOfTools(joint, tools, shop);
  if (!isOpen({ least, most })) return { least: 1, most: 0 };
  const { lean } = tools;
  const ends = woodBounds(lean).leastEndPin.width;
  const fewest = Math.ceil((width + lean) / (layout.pitch ?? most.pitch) - 1 / 2 - LAYOUT_ROUNDING);
  const greatestNumber = Math.floor(
    (width + lean - 2 * ends) / (layout.pitch ?? least.pitch) + 1 / 2 + LAYOUT_ROUNDING,
  );
  return {
    least: Math.max(1, layout.tails ?? 1, fewest),
    most: Math.min(MAX_TAILS, layout.tails ?? MAX_TAILS, greatestNumber),
  };
}

function greatest(bounds: readonly PitchBound[]): PitchBound {
  return bounds.reduce((most, one) => (one.pitch > most.pitch ? one : most));
}

function smallest(bounds: readonly PitchBound[]): PitchBound {
  return bounds.reduce((least, one) => (one.pitch < least.pitch ? one : least));
}

/** Bounds that meet at a pitch asked for may miss each other by rounding. */
export function isOpen({ least, most }: Pick<PitchRange, 'least' | 'most'>): boolean {
  return least.pitch <= most.pitch + SAME_PITCH;
}

/** Far under what any tool can set, and far over rounding, mm. */
const SAME_PITCH = 1e-7;
