import type { Bit, Bushing } from '../input/types.js';
import type { Layout } from '../layout/types.js';

/**
 * What a trial piece of a joint can tell, what can be moved, and how the play spreads: one model, from which
 * `refit`, the study of tolerances and the corrections on the set-up sheet are read. A factor is how many mm a
 * width or the play grows for 1 mm more of a size; with k = tan θ, openings wider by w, the depth h, the pin board's
 * thickness t, the fence set back by f, and every width as a caliper finds it at a board's end or face:
 *
 *   through     socket +D −B +w −2kh    tail −D +B −w +2kh    pin (−d +B −w)/cos θ −2kt +2kf
 *               pair +D + (d + w)/cos θ + w − B(1 + 1/cos θ) −2kf, where it is tightest
 *   half-blind  socket +D −B +w −2kh    tail −D +B −w +2kh    pair +2D −2B +2w −2kh
 *   box         slot +d −B +w           finger −d +B −w       pair +2d −2B +2w
 *   edge        both sides of a bump in its bay               pair +d₁ +d₂ −2B +2w
 *
 * Derivation: src/joints/README.md, "Geometry of the joints".
 */
export interface FitModel {
  /** Whole clearance wanted in one mating pair, mm. */
  readonly slack: number;
  readonly tools: readonly FitTool[];
  /** Sizes that a person can measure besides, and that no tool of the shop holds: depth, thickness, angle. */
  readonly checks?: readonly FitCheck[];
  /** Widths by the word that names them, in the order from the reference edge. */
  readonly widths: Readonly<Record<string, FitWidth>>;
  /** The openings of one plate, as drawn; what they are off by is the kerf's. */
  readonly openings?: FitOpenings;
  /** How much wider the narrowest opening of all plates is than its bushing, mm; absent where no opening bounds it. */
  readonly room?: number;
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
 * how far it is set back; `scale` is by what share the plates are larger than drawn.
 */
export type FitSize = ToolRole | 'kerf' | 'thickness' | 'depth' | 'angle' | 'fence' | 'scale';
export type ToolRole = 'dovetail' | 'straight' | 'second' | 'bushing';
export type Factors = Readonly<Partial<Record<FitSize, number>>>;

/** Play of one mating pair, as a sum that is exact however far sizes are off. */
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
  /**
   * Set where one board's walls lean as the bit does and the other's as the template does. A bit of another angle
   * then opens the pair from the baseline, where nothing changes, to the board's end by 2 · `length` ·
   * (tan of the bit's angle − tan `angle`): what decides is the tightest level.
   */
  readonly taper?: { readonly length: number; readonly angle: number };
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

/** A size that is measured by a word of its own, mm; the angle in radians. */
export interface FitCheck {
  readonly role: 'depth' | 'thickness' | 'angle';
  readonly size: number;
}

export interface FitWidth {
  readonly nominals: readonly number[];
  /** Share of the factors that each has: 1/2 at the board's edge, which is no wall. All 1 when left out. */
  readonly shares?: readonly number[];
  readonly factors: Factors;
  /** What the plate has for the width is so much wider, mm: a plate that is out of scale changes it by its share of both. */
  readonly drawnWider: number;
  /** Where the caliper goes. */
  readonly where: string;
}

export interface FitOpenings {
  readonly nominals: readonly number[];
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
  /** It may lie back by this without being out: the joint's own slack, mm. */
  readonly ease?: number;
  /** Change of the face for each mm that the model's move goes tighter, and for each mm of play that a new plate takes. */
  readonly withMove?: number;
  readonly withPlay?: number;
}

/**
 * The play by the model where it is tightest, exact in every error. Errors in mm and radians, each added to what the
 * job has.
 */
export function playOf(model: FitModel, errors: Factors): number {
  return (
    model.slack + sumOf(model.pair.factors, errors) + leanOf(model.pair, errors) - taperOf(model, errors)
  );
}

/** The same of a pair's middle, where tapered walls are half as far off as at their end. */
export function middlePlayOf(model: FitModel, errors: Factors): number {
  const { taper } = model.pair;
  if (!taper) return playOf(model, errors);
  return model.slack + sumOf(model.pair.factors, errors) - tapered(taper, errors) / 2;
}

function leanOf({ lean }: Play, errors: Factors): number {
  if (!lean) return 0;
  const { factor, over, length, angle } = lean;
  const leans = (length + (errors[over] ?? 0)) * Math.tan(angle + (errors.angle ?? 0));
  return factor * (leans - length * Math.tan(angle));
}

/** How much less play the tightest level has than the baseline. */
function taperOf({ pair: { taper } }: FitModel, errors: Factors): number {
  return taper ? Math.max(0, tapered(taper, errors)) : 0;
}

/** What is lost from the baseline to the board's end, below 0 where play is won. */
function tapered({ length, angle }: NonNullable<Play['taper']>, errors: Factors): number {
  const end = length + (errors.thickness ?? 0);
  return 2 * end * (Math.tan(angle + (errors.angle ?? 0)) - Math.tan(angle));
}

/** Σ factor · error. */
export function sumOf(factors: Factors, errors: Factors): number {
  return (Object.keys(factors) as FitSize[]).reduce(
    (sum, size) => sum + (factors[size] ?? 0) * (errors[size] ?? 0),
    0,
  );
}

/**
 * mm of play for each mm, or radian, that a size is more: the derivative of the play in the middle of a pair, where the
 * job is.
 */
export function factorOf({ factors, lean, taper }: Play, size: FitSize): number {
  const plain = factors[size] ?? 0;
  if (lean && size === lean.over) return plain + lean.factor * Math.tan(lean.angle);
  if (lean && size === 'angle') return plain + (lean.factor * lean.length) / Math.cos(lean.angle) ** 2;
  if (taper && size === 'angle') return plain - taper.length / Math.cos(taper.angle) ** 2;
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
