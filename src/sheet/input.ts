import type { Finding } from '../findings/finding.js';
import type { Say } from '../findings/say.js';
import type { Joint, Piece, Shop } from '../job/types.js';
import type { SolvedJoint } from '../joints/family.js';
import type { FingerTemplate } from '../template/finger-template.js';

/** A joint with everything that has been settled about it. */
export interface MadeJoint {
  readonly joint: Joint;
  readonly solved: SolvedJoint;
  readonly templates: readonly FingerTemplate[];
  readonly findings: readonly Finding[];
}

/** What a set-up sheet is made from. */
export interface SheetInput extends MadeJoint {
  readonly jobTitle: string;
  readonly shop: Shop;
  readonly say: Say;
  /** Units of the job: inches or mm first. */
  readonly units: 'mm' | 'in';
  /** Keys that a measured trial piece may be reported by; empty where none can. */
  readonly measures: readonly string[];
  /** Pieces that have this joint at a corner, each with the joints that it needs. */
  readonly pieces: readonly PieceJoints[];
}

/** A piece with its joints solved. */
export interface PieceJoints {
  readonly piece: Piece;
  readonly front: MadeJoint;
  /** The joint at its back corners; absent where the back is fitted between the sides. */
  readonly back?: MadeJoint;
}
