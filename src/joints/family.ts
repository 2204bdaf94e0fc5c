import type { z } from 'zod';
import type { Diagnostic, Result } from '../diagnostics/diagnostic.js';
import type { Catalogue } from '../diagnostics/family-codes.js';
import type { Outline, Path, Region } from '../geometry/types.js';
import type { FieldKit } from '../input/fields/field-kit.js';
import type { Bit, BitKind, Board, Bushing, Joint, Shop } from '../input/types.js';
import type { Layout } from '../layout/types.js';
import type { Assembly, Face, JointBoard, SetUp } from './contract.js';
import type { FitModel } from './fit-model.js';

/** A kind of joint: its fields in the job file, how it is solved, a starter job. One file each. */
export interface JointFamily<J extends Joint = Joint> {
  readonly kind: J['kind'];
  /** One line for `halfpin new --help`. */
  readonly summary: string;
  /** Schema of the joint's entry under `joints:`; `name` and `kind` are filled in by the reader. */
  fields(kit: FieldKit): z.ZodType<Omit<J, 'name' | 'kind'>>;
  /** A commented job of this kind that `halfpin make` takes as it is. */
  readonly starter: string;
  /** The joint as given; what is left blank is filled in with the family's first choice, whatever comes of it. */
  solve(joint: J, shop: Shop): Result<SolvedJoint>;
  /**
   * Other ways to fill in the blanks, in order of preference: those that leave the template's fingers a margin
   * first, none that the family's own bounds rule out. Fields that are given stay. See choice.ts.
   */
  choices?(joint: J, shop: Shop): Iterable<J>;
  /** Set where the depth of the cut is among the blanks. */
  readonly choosesDepth?: true;
  /** Why no way to fill in the blanks can be cut: the one bound that stands in the way. `solve` says it when left out. */
  refusal?(joint: J, shop: Shop): Result<SolvedJoint>;
  /** Other ways to make a refused joint, each with what is said of it where it can be cut. */
  others?(joint: J): Iterable<OtherWay<J>>;
  /** The joint with a side of another thickness, where a refusal may name one, mm. */
  thickened?(joint: J, thickness: number): J;
  /** The bits that this joint is cut with; none where it is cut by hand. Others can be put in their place. */
  bitSlots?(joint: J): readonly BitSlot<J>[];
  /**
   * Codes of the family's own, each with its sentence and fixes, that it raises with `raiser`; in diagnostics they stand
   * behind the kind: `lap/too-thin`.
   */
  readonly diagnostics?: Catalogue;
  /** Most layouts of this kind that are tried with other tools, where solving one takes long; many when left out. */
  readonly mostTries?: number;
}

/** A change that may cure a refusal. */
export interface OtherWay<J extends Joint = Joint> {
  readonly joint: J;
  fmt(solved: SolvedJoint): Diagnostic;
}

/** One place for a bit in a joint. The bushing has its place in every joint. */
export interface BitSlot<J extends Joint = Joint> {
  /** Path of the key under the joint, e.g. `cutters.tails`. */
  readonly key: string;
  readonly kind: BitKind;
  /** The bit that the job names. */
  readonly bit: Bit;
  /** How deep such a bit would cut, mm. */
  depth(bit: Bit): number;
  /** The joint with another bit in this place. */
  put(joint: J, bit: Bit): J;
}

/** A joint with its layout settled, what each board loses, and how its boards are marked. */
export interface SolvedJoint {
  readonly name: string;
  readonly kind: string;
  /** What such a joint is called in a sentence: `half-blind dovetail`, `box joint`. */
  readonly words: string;
  readonly width: number;
  readonly layout: Layout;
  /** The boards, in the order in which the set-up sheet names them. */
  readonly boards: readonly JointBoard[];
  /** How they come together; without it there is no test cut and no solid, and the test cut says so. */
  readonly assembly?: Assembly;
  readonly setUp: SetUp;
  /** false when the layout is not its own mirror image, so second ends need thought. */
  readonly symmetric: boolean;
  /** Slope of the dovetails, radians from square; absent where every line is square. */
  readonly slope?: number;
  /** Empty for a joint cut by hand. */
  readonly cuts: readonly Cut[];
  /** Boards to mark out; each gives a full-size pattern. */
  readonly markings: readonly BoardMarking[];
  /** How the fit changes with sizes and settings; absent where it isn't known, or nothing sets it: cut by hand. */
  readonly fit?: FitModel;
  /** Set where a marker can mark the first two of them: it lies on the first one's outside face and over its end. */
  readonly marker?: true;
}

/**
 * One board cut under one template. Template coordinates: x from the reference edge, y away from the
 * operator, mm. A board on end has its near face at the lower y and its back face, against the fence, at y = 0.
 */
export interface Cut {
  /** `tails`, `pins`, `one`, `two`, `both` or `sockets`: the last part of the template's name. */
  readonly board: string;
  readonly bit: Bit;
  readonly bushing: Bushing;
  /** h: how deep the tip runs below the surface that the template lies on. */
  readonly depth: number;
  /** Cutter radius at the reference level, where `waste` is given. */
  readonly cutterRadius: number;
  /** R: what must leave the board at the reference level; runs on well past `nearEdge` where it is open. */
  readonly waste: Region;
  /** Set where the family has looked itself at what the bit cannot reach of the waste. */
  readonly reachJudged?: true;
  /** y of the finger tips, the plate's edge toward the operator. */
  readonly nearEdge: number;
  /** y at which the template's fingers are narrowest, where their strength is judged. */
  readonly narrowestAt: number;
  /** Set where the fingers narrow toward their tips, so that a shorter nose leaves them wider there. */
  readonly tapers?: true;
  /** The board, or both boards, under the template. */
  readonly stock: readonly StockBoard[];
  /** Set on a template that carries every second slot: the board is cut a second time, at another stop. */
  readonly secondStop?: SecondStop;
  /** true when the board's second end needs this plate's mirror image. */
  readonly mirroredForSecondEnd: boolean;
}

/** Where a board stands for its second cut under a template that carries every second slot. */
export interface SecondStop {
  /** x of the board's reference edge, in template coordinates; 0 at the first stop. */
  readonly x: number;
  /** From and to, along x, of an opening that must not be used there: it would touch the board's edge. */
  readonly leaveOut?: readonly [number, number];
}

/** The end of one board where it lies under the template: its closed outline in template coordinates. */
export interface StockBoard {
  readonly board: string;
  readonly outline: Outline;
  /** Of a board that lies flat: how thick it is, which the outline does not show. */
  readonly thickness?: number;
}

/** Lines to mark out one board by, in panels of the face, the end grain and the inside face, mm. */
export interface BoardMarking {
  readonly board: string;
  readonly material: Board;
  readonly width: number;
  /** Distance of the baseline from the board's end. */
  readonly depth: number;
  /** The edge or the end that the pattern is folded over, and which y counts from; the end when left out. */
  readonly over?: 'edge' | 'end';
  /** The face that is seen with that edge or end up and the reference edge at the left; the outside when left out. */
  readonly faceUpright?: Face;
  /** x along the joint from the reference edge; y from the board's end (0) toward the baseline and beyond. */
  readonly outsideFace: MarkedPanel;
  /** x along the joint; y from the outside face (0) to the inside face (thickness). */
  readonly endGrain: MarkedPanel;
  /** Axes as for the outside face. */
  readonly insideFace: MarkedPanel;
}

export interface MarkedPanel {
  readonly lines: readonly Path[];
  readonly waste: Region;
}
