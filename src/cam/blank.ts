import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Drawing } from '../drawing/model.js';
import type { ToolMove } from '../drawing/tool-moves.js';
import { extents } from '../geometry/outline.js';
import { translate } from '../geometry/transform.js';
import type { Region } from '../geometry/types.js';
import type { PlateSource } from './compensated.js';

/** The sheet that a program starts from: where its zero is, and whether the machine has room for it. */

export interface Blank {
  /** Program = drawing + (dx, dy). */
  readonly dx: number;
  readonly dy: number;
  /** From the program's zero. */
  readonly width: number;
  readonly height: number;
  /** How far the tool reaches from the program's zero. */
  readonly reach: { readonly width: number; readonly height: number };
}

/** The sheet that a drawing says it is cut from, or else the smallest: what is cut, with what the tool takes all round. */
export function blankOf({ sheet }: Drawing, cut: Region, around: number): Blank {
  const { minX, minY, maxX, maxY } = extents(...cut);
  const [dx, dy] = sheet ? [0, 0] : [around - minX, around - minY];
  const reach = { width: maxX + dx + around, height: maxY + dy + around };
  return { dx, dy, ...(sheet ?? reach), reach };
}

/** The same move with x and y moved. */
export function movedBy(move: ToolMove, dx: number, dy: number): ToolMove {
  if (move.kind === 'travel') return { ...move, to: { x: move.to.x + dx, y: move.to.y + dy } };
  if (move.kind !== 'cut') return move;
  const [along = move.along] = translate({ closed: false, segments: [move.along] }, dx, dy).segments;
  return { ...move, along };
}

/** A caution where the program needs more room than the machine has. */
export function bedDiagnostics(
  { reach: { width, height } }: Blank,
  { bed }: { readonly bed?: readonly [number, number] },
  { name, at }: PlateSource,
): readonly Diagnostic[] {
  if (!bed || (width <= bed[0] && height <= bed[1])) return [];
  const data = { name, width, height, bedWidth: bed[0], bedHeight: bed[1] };
  return [diagnostic('program-over-bed', 'caution', at, data)];
}

/** A length in the words of a program, whose unit is the mm. */
export const mm = (length: number): string => `${Math.round(length * 1000) / 1000} mm`;
