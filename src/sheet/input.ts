import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Formatter } from '../diagnostics/formatter.js';
import type { Joint, Piece, Shop } from '../input/types.js';
import type { SolvedJoint } from '../joints/family.js';
import type { Letters, PieceEnd } from '../set-up/ends.js';
import type { Stands } from '../set-up/stands.js';
import type { FingerTemplate } from '../template/finger-template.js';

/** A joint with everything that has been settled about it. */
export interface MadeJoint {
  readonly joint: Joint;
  readonly solved: SolvedJoint;
  readonly templates: readonly FingerTemplate[];
  readonly diagnostics: readonly Diagnostic[];
}

/** What a set-up sheet is made from. */
export interface SheetInput extends MadeJoint {
  /** Every end that has this joint; none where it makes no corner. */
  readonly ends: readonly PieceEnd[];
  /** How each of them is held; no stands where the joint is cut by hand. */
  readonly setUp: Stands;
  readonly jobTitle: string;
  readonly shop: Shop;
  readonly fmt: Formatter;
  /** Units of the job: inches or mm first. */
  readonly units: 'mm' | 'in';
  /** Keys that a measured trial piece may be reported by; empty where none can. */
  readonly measures: readonly string[];
  /** What the trial joint may show, and what `refit` says to it. */
  readonly corrections: readonly CorrectionRow[];
  /** Pieces that have this joint at a corner, each with the joints that it needs. */
  readonly pieces: readonly PieceJoints[];
}

/** One line of the table of corrections. `by` in mm, above 0; of a board it is an example. */
export interface CorrectionRow {
  readonly seen:
    | { readonly what: 'loose' | 'tight'; readonly by: number }
    | { readonly what: 'proud' | 'below' | 'past'; readonly board: string; readonly by: number };
  readonly diagnostics: readonly Diagnostic[];
}

/** A piece with its joints solved. */
export interface PieceJoints {
  readonly piece: Piece;
  /** Of its boards, for each copy of it. */
  readonly letters: readonly Letters[];
  readonly front: MadeJoint;
  /** The joint at its back corners; absent where the back is fitted between the sides. */
  readonly back?: MadeJoint;
}
