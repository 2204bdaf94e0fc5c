import { polygon } from '../geometry/outline.js';
import type { Outline, Region } from '../geometry/types.js';
import type { Lip } from '../joints/contract.js';
import type { BoardMarking } from '../joints/family.js';

/** A front that is flush is one whose lip reaches nowhere. */
const FLUSH: Lip = { end: 0, lower: 0, upper: 0, rabbet: 0 };

/** The wood of a second board as its two views show it, before its waste is taken; mm. */
export interface BoardViews {
  /** How far the front reaches past the joint, and past its shoulder toward the end. */
  readonly lip: Lip;
  /** x along the joint; y from the outside face (0) to the inside face (thickness). */
  readonly end: Outline;
  /** x along the joint; y from the shoulder (0) toward the baseline; the lip is below 0. */
  readonly face: Outline;
  /** The rabbet's bottom round the face, which lies deeper. */
  readonly ledge: Region;
}

/** `length` is how much of the board is shown from its shoulder, mm. */
export function viewsOf(
  { width, material: { thickness } }: BoardMarking,
  length: number,
  lip: Lip = FLUSH,
): BoardViews {
  const [left, right] = [-lip.lower, width + lip.upper];
  const bottom = thickness - lip.rabbet;
  return {
    lip,
    end: polygon([
      { x: left, y: 0 },
      { x: right, y: 0 },
      { x: right, y: bottom },
      { x: width, y: bottom },
      { x: width, y: thickness },
      { x: 0, y: thickness },
      { x: 0, y: bottom },
      { x: left, y: bottom },
    ]),
    face: box(0, 0, width, length),
    ledge: [
      ...(lip.end > 0 ? [box(left, -lip.end, right, 0)] : []),
      ...(lip.lower > 0 ? [box(left, 0, 0, length)] : []),
      ...(lip.upper > 0 ? [box(width, 0, right, length)] : []),
    ],
  };
}

/**
 * What is seen of the second board at its end when the joint is closed: y from the first board's end (0) up to its
 * baseline, and down to the second one's outside face. What is below `lipFrom` is the lip, which stands out in front.
 */
export function closedEndOf(
  { width, depth }: BoardMarking,
  { material: { thickness } }: BoardMarking,
  lip: Lip = FLUSH,
): { readonly wood: Outline; readonly lipFrom: number } {
  const foot = Math.min(0, depth - thickness);
  const lipFrom = Math.max(foot, Math.min(0, depth - lip.rabbet));
  const [left, right] = [-lip.lower, width + lip.upper];
  const wood = polygon([
    { x: left, y: foot },
    { x: right, y: foot },
    { x: right, y: lipFrom },
    { x: width, y: lipFrom },
    { x: width, y: depth },
    { x: 0, y: depth },
    { x: 0, y: lipFrom },
    { x: left, y: lipFrom },
  ]);
  return { wood, lipFrom };
}

function box(x: number, y: number, toX: number, toY: number): Outline {
  return polygon([
    { x, y },
    { x: toX, y },
    { x: toX, y: toY },
    { x, y: toY },
  ]);
}
