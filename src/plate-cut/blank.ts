import type { Move } from '../drawing/tool-moves.js';
import { type Finding, finding } from '../findings/finding.js';
import { translate } from '../geometry/transform.js';
import type { Source } from './compensated.js';

/** The sheet that a program starts from: where its zero is, and whether the machine has room for it. */

/** The same move with x and y moved. */
export function movedBy(move: Move, dx: number, dy: number): Move {
  if (move.kind === 'travel') return { ...move, to: { x: move.to.x + dx, y: move.to.y + dy } };
  if (move.kind !== 'cut') return move;
  const [along = move.along] = translate({ closed: false, segments: [move.along] }, dx, dy).segments;
  return { ...move, along };
}

/** A caution where the program needs more room than the machine has. */
export function bedFindings(
  { width, height }: { readonly width: number; readonly height: number },
  { bed }: { readonly bed?: readonly [number, number] },
  { name, at }: Source,
): readonly Finding[] {
  if (!bed || (width <= bed[0] && height <= bed[1])) return [];
  const data = { name, width, height, bedWidth: bed[0], bedHeight: bed[1] };
  return [finding('program-over-bed', 'caution', at, data)];
}

/** A length in the words of a program, whose unit is the mm. */
export const mm = (length: number): string => `${Math.round(length * 1000) / 1000} mm`;
