import type { Solid } from '../../geometry/solid.js';
import type { Lip } from '../files/reported.js';

/** What goes into a joint of solid wood and what comes out, in plain data: none of it needs the library of solids. */

/** What a board was before the cut, as far as its template does not show it; mm. */
export interface Blank {
  /** As the test cut names it: `tails`, `pins`, `one` or `two`. */
  readonly board: string;
  readonly thickness: number;
  /** From end to end; a stub is shown of a board whose length is not given. */
  readonly length?: number;
  /** The rabbet of a lipped drawer front: how far the lip reaches past the joint, and how deep the rabbet is. */
  readonly lip?: Lip;
}

/** A joint in solid wood: both boards as their written templates cut them, and closed. */
export interface JointInSolid {
  readonly boards: readonly BoardInSolid[];
  readonly volumes: JointVolumes;
}

export interface BoardInSolid {
  readonly board: string;
  /** Where it stands in the closed joint. */
  readonly closed: Solid;
  /** As it comes from the router, laid on its face (on its outside face if it was cut lying), z = 0 below. */
  readonly laid: Solid;
}

/** Volumes in mm³. The joint's room is what both boards share: its width by the two thicknesses, or depths. */
export interface JointVolumes {
  readonly room: number;
  /** Each board's wood within the room. */
  readonly boards: readonly { readonly board: string; readonly volume: number }[];
  /** Room that both boards want; none in a joint that closes. */
  readonly overlap: number;
  /** Room that neither board fills: slack, and what is cut away for nothing. */
  readonly voids: number;
}
