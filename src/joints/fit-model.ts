import type { Bit, Bushing } from '../input/types.js';
import type { Layout } from '../layout/types.js';

/**
 * What a trial piece of a joint can tell, what can be moved, and how the play spreads: one model, from which
 * `refit`, the study of tolerances and the corrections on the set-up sheet are read. A factor is how many mm a
 * width or the play grows for 1 mm more of a size; with k = tan θ and every width as a caliper finds it at a
 * board's end:
 *
 *   through     socket +D −B    tail −D +B    pin (−d + B)/cos θ      pair +D + d/cos θ − B(1 + 1/cos θ)
 *   half-blind  socket +D −B    tail −D +B                             pair +2D −2B, and −2k a unit of depth
 *   box         slot +d −B      finger −d +B                           pair +2d −2B
 *   edge        both sides of a bump in its bay                        pair +d₁ +d₂ −2B
 *
 * Derivation: src/joints/README.md, "Geometry of the joints".
 */
export interface FitModel {
  /** Whole clearance wanted in one mating pair, mm. */
  readonly slack: number;
  readonly tools: readonly FitTool[];
  /** Widths by the word that names them, in the order from the reference edge. */
  readonly widths: Readonly<Record<string, FitWidth>>;
  readonly pair: Play;
  /** Factors of a half-pin, which has one glue line and half of the slack. */
  readonly endPair?: Factors;
  /** Set where a pair's clearance differs from place to place, so that none can be taken for it. */
  readonly gapTellsNothing?: true;
  readonly move?: FitMove;
  /** What stands proud or shy, by the board's name. */
  readonly faces: Readonly<Record<string, FitFace>>;
  /** The board whose stop is moved, and the other one. */
  readonly boards: readonly [moved: string, other: string];
}

/**
 * Sizes that the play hangs on, mm; the angle in radians. `second` is the bit of board two where two straight
 * bits cut one joint. `kerf` is how much wider than meant a plate's openings are, both walls together; `fence` is
 * how far it is set back.
 */
export type FitSize = ToolRole | 'kerf' | 'thickness' | 'depth' | 'angle' | 'fence';
export type ToolRole = 'dovetail' | 'straight' | 'second' | 'bushing';
export type Factors = Readonly<Partial<Record<FitSize, number>>>;

/** Play of one mating pair in the middle of the joint, as a sum that is exact however far sizes are off. */
export interface Play {
  /** mm for each mm, the angle being as it is; 0 for a size that can be off without effect. */
  readonly factors: Factors;
  /**
   * Where walls lean: the play also grows by `factor` times what the lean changes by. It leans by
   * `length` · tan `angle`, mm and radians, and `over` is the size that the length is.
   */
  readonly lean?: {
    readonly factor: number;
    readonly over: 'thickness' | 'depth';
    readonly length: number;
    readonly angle: number;
  };
}

/** A tool, and the word that measures it. */
export interface FitTool {
  readonly role: ToolRole;
  readonly key: string;
  readonly name: string;
  readonly size: number;
  /** Path of its size below the shop. */
  readonly path: readonly [string, string, string];
}

export interface FitWidth {
  readonly nominals: readonly number[];
  readonly factors: Factors;
  /** Where the caliper goes. */
  readonly where: string;
}

/** A setting that changes the fit with the plate as it is: deeper, or the fence set back. Distances in mm. */
export interface FitMove {
  readonly size: 'depth' | 'fence';
  /** Farthest that it goes to make the joint tighter, and looser. */
  readonly tighter: number;
  readonly looser: number;
  /** Beyond this a tighter setting wants care: the lap gets thin. */
  readonly easy?: number;
  /** Depth as the job has it. */
  readonly depth?: number;
}

/** How far a board's end or face stands proud, and what sets it. */
export interface FitFace {
  readonly wanted: number;
  readonly by: 'depth' | 'template' | 'sockets-template';
  /** Change of the face for each mm of that. */
  readonly perMm: number;
}

/** The play by the model, exact in every error. Errors in mm and radians, each added to what the job has. */
export function playOf({ slack, pair }: FitModel, errors: Factors): number {
  const { factors, lean } = pair;
  const sum = slack + sumOf(factors, errors);
  if (!lean) return sum;
  const { factor, over, length, angle } = lean;
  const leans = (length + (errors[over] ?? 0)) * Math.tan(angle + (errors.angle ?? 0));
  return sum + factor * (leans - length * Math.tan(angle));
}

/** Σ factor · error. */
export function sumOf(factors: Factors, errors: Factors): number {
  return (Object.keys(factors) as FitSize[]).reduce(
    (sum, size) => sum + (factors[size] ?? 0) * (errors[size] ?? 0),
    0,
  );
}

/** mm of play for each mm, or radian, that a size is more: the derivative of the play, where the job is. */
export function factorOf({ factors, lean }: Play, size: FitSize): number {
  const plain = factors[size] ?? 0;
  if (lean && size === lean.over) return plain + lean.factor * Math.tan(lean.angle);
  if (lean && size === 'angle') return plain + (lean.factor * lean.length) / Math.cos(lean.angle) ** 2;
  return plain;
}

export function bitTool(role: ToolRole, key: string, { name, diameter }: Bit): FitTool {
  return { role, key, name, size: diameter, path: ['bits', name, 'diameter'] };
}

export function bushingTool({ name, outside }: Bushing): FitTool {
  return { role: 'bushing', key: 'bushing', name, size: outside, path: ['bushings', name, 'outside'] };
}

/** Widths of every span of a kind, mm, from the reference edge. */
export function partWidths({ spans }: Layout, part: string): readonly number[] {
  return spans.filter((span) => span.part === part).map(({ from, to }) => to - from);
}
