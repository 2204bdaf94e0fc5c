import type { Outline } from '../../geometry/types.js';
import type { Screw } from '../plate.js';

/**
 * What carries a plate and holds the boards under it, as parts cut from the plate's own sheet. They hang under the plate in
 * layers as thick as the sheet and share holes with it, so that nothing is set by eye. Lengths in mm; coordinates are
 * those of the plate's side that a part belongs to (`PlateSide`), z downward from the plate's underside.
 */
export interface Carrier {
  /** The plate: `finger-template-tails`. */
  readonly template: string;
  /** The file that all parts are drawn in, without its ending: `carrier-tails`. */
  readonly file: string;
  /** true under a plate's mirror image, which takes the parts of the plate itself, turned over: left becomes right. */
  readonly turnedOver: boolean;
  /** Of the sheet, the plate's and every layer's. */
  readonly thickness: number;
  readonly screws: RegisterScrews;
  readonly parts: readonly CarrierPart[];
  /** Parts that the plate has no room for: they are clamped on by the plate's lines or notches. */
  readonly lacking: readonly LackingPart[];
  /**
   * How far stops hang below a board that lies flat: it is laid on scrap at least this thick, which is no larger than
   * itself; 0 where they don't.
   */
  readonly raise: number;
}

/** The screws for a hole: the largest of each kind whose shank passes it. */
export interface RegisterScrews {
  /** Diameter of every hole in plate and parts. */
  readonly hole: number;
  readonly fitting: readonly FittingScrew[];
}

export interface FittingScrew {
  readonly name: string;
  readonly kind: 'metric' | 'inch';
  /** Diameter of the head, sunk below the plate's upper face so that the router slides over it. */
  readonly head: number;
  /** By how much the thinnest such screw is smaller than the hole. */
  readonly play: number;
}

/**
 * - `fence`: behind boards on end, which lie against it; it is their backing, too.
 * - `stop`: beside a board's reference edge.
 * - `spacer`: between a stop and the board for one of two cuts; it lies loose.
 * - `gauge`: before boards that lie flat. Its lower layers reach under the plate as far as the line of the board's end,
 *   its upper one ends at the plate's near edge and is pushed against that. It is taken away before the router runs.
 */
export type CarrierRole = 'fence' | 'stop' | 'spacer' | 'gauge';

export interface CarrierPart {
  /** `fence`, `left stop`, `right stop, tails`, `spacer`, `gauge`: no two of a carrier are alike. */
  readonly name: string;
  readonly role: CarrierRole;
  /** Which of the plate's sides. */
  readonly side: number;
  /** Of a stop. */
  readonly stop?: 'left' | 'right';
  /** The board that it holds; absent where it holds all of them. */
  readonly board?: string;
  /** The lines that edges of it stand on: x of a stop, y of a fence or a gauge. A spacer has none. */
  readonly edges: readonly { readonly axis: 'x' | 'y'; readonly at: number }[];
  /** From the plate downward. */
  readonly layers: readonly CarrierLayer[];
  /** The plate's own holes over it; those of a gauge are its own, those of a spacer none. */
  readonly holes: readonly Screw[];
  /** Set where the bit cuts into it: so deep, in so many layers, as far as this y; from the other edge of a fence that two sides share alike. It is scrap, renewed when it is worn. */
  readonly scrap?: { readonly depth: number; readonly layers: number; readonly to: number };
}

export interface CarrierLayer {
  readonly outline: Outline;
  readonly copies: number;
  /** z of the first copy's upper face; the layer of a gauge in the plate's own plane stands at −thickness. */
  readonly from: number;
  /** Set where it is cut back to clear the bit and so touches no board. */
  readonly clear?: true;
}

/** A part that has no room for two holes with enough sheet around them. */
export interface LackingPart {
  readonly name: string;
  readonly role: CarrierRole;
  readonly side: number;
}

export const isPart = (one: CarrierPart | LackingPart): one is CarrierPart => 'layers' in one;
