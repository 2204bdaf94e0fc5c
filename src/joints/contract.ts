import type { Point } from '../geometry/types.js';
import type { Board } from '../input/types.js';

/**
 * What a family tells of its boards, of how they are held and of how they come together. Plain data: whoever makes a
 * sheet, a test cut, a solid or a picture of a joint reads this and never asks what kind of joint it is.
 */

/** One board of the joint, whether a template cuts it or not. */
export interface JointBoard {
  /** The key that cuts, markings and reports have, e.g. `tails`. */
  readonly board: string;
  /** As it stands in sentences; the key itself when left out. See `boardWords` for the usual ones. */
  readonly words?: BoardWords;
  readonly material: Board;
  /** How it is held under its template; left out of a board that no template cuts. */
  readonly hold?: Hold;
  /** What the joint wants away from it, for the test cut to look for; nothing is looked for when left out. */
  readonly wanted?: WantedWaste;
  /** By how much its length differs at each end from the outside size of the piece; nothing when left out. */
  readonly reach?: Reach;
  /** The rabbet round a front that overlaps the opening. */
  readonly lip?: Lip;
}

export interface BoardWords {
  /** `tail board`, `board one`. */
  readonly name: string;
  /** `the tail board`, `board one`. */
  readonly the: string;
  /** `tail boards`, `boards one`. */
  readonly many: string;
}

export type Face = 'outside' | 'inside';

/** How a board is held under its template. */
export interface Hold {
  readonly posture: 'on end' | 'flat';
  /** The face that is named to whoever holds it so. */
  readonly face: Face;
  /** Where that face is: of a board on end toward the operator, of one that lies flat up or down. */
  readonly shows: 'toward you' | 'up' | 'down';
}

/**
 * The spans of the layout that a board loses, as corners without the bit's rounding, at the level of the bit's tip: each
 * runs in y between two places and is wider there by `out` on either side. `x` is where the layout's 0 lies. Template
 * coordinates, mm.
 */
export interface WantedWaste {
  readonly part: string;
  readonly x: number;
  readonly y: readonly [number, number];
  readonly out: readonly [number, number];
}

/** A board's end stands `by` mm past the outside of the piece, below 0 short of it. */
export interface Reach {
  readonly by: number;
  /** Why, of one end and of both: `the lap`, `both laps`. */
  readonly one: string;
  readonly both: string;
}

/** A rabbet round a front: how far the front reaches past the joint, and how deep the rabbet is, mm. */
export interface Lip {
  readonly end: number;
  readonly lower: number;
  readonly upper: number;
  readonly rabbet: number;
}

// How boards come together

/**
 * How the two boards close, the first and the second by their keys:
 *
 * - `crossed`: both were cut on end and cross at a corner;
 * - `sunk`: the first was cut on end and is let down into sockets of the second, which lay flat;
 * - `placed`: the second is moved onto the first as `second` says.
 */
export type Assembly = Crossed | Sunk | Placed;

interface Pair {
  readonly boards: readonly [first: string, second: string];
}

export interface Crossed extends Pair {
  readonly way: 'crossed';
}

export interface Sunk extends Pair {
  readonly way: 'sunk';
  /** Set where square tails are pared by hand to the round of their sockets. */
  readonly pared?: true;
}

export interface Placed extends Pair {
  readonly way: 'placed';
  readonly second: Placement | Uncut;
  /**
   * What both boards fill together when the joint is closed, in the first one's template coordinates: x and y, and u, the
   * depth below the surface that the template lies on, mm. Nothing outside of it is judged: it takes in some of the wood
   * behind every wall, so that one out of its place shows.
   */
  readonly room: Space;
  /** Where long grain is glued to long grain: on the walls that the bit cuts, or on the floors. */
  readonly glued: 'walls' | 'floors';
}

/**
 * Where a point (x, y, u) of the second board's own template coordinates goes in the first one's: where `turned` it is turned
 * over about x, to (x, −y, −u); then turned by `angle` (radians, counter-clockwise) about the router's axis; then moved by
 * `x`, `y` and `u`, mm.
 */
export interface Placement {
  readonly turned: boolean;
  readonly angle: number;
  readonly x: number;
  readonly y: number;
  readonly u: number;
}

/** A board that no template cuts, which stands on end in the first one's room: the outline of its end there. */
export interface Uncut {
  readonly uncut: readonly Point[];
}

export interface Space {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly u: readonly [number, number];
  /** Parts of it, from top to bottom, where neither board is meant to be. */
  readonly open?: readonly (readonly Point[])[];
}

// What the set-up sheet says

/** A sentence in pieces: a number is a length in mm, which the sheet says in the units of the job. */
export type Words = readonly (string | number)[];

/** Whether the boards' ends meet at the corners of a piece, or the joint is made elsewhere on them. */
export type SetUp = AtCorners | OnBoards;

/**
 * The stand of each end of each board follows from how the boards are held. The first board is at the sides of the piece, the
 * second at its front and back.
 */
export interface AtCorners {
  readonly at: 'corners';
  /** Where a job gives no piece: all four corners have the joint, or those at the front alone. */
  readonly corners: 'all' | 'front';
  /** What is done once the glue is dry; nothing when left out. */
  readonly flush?: Words;
}

/** A joint that makes no corner: the family says how each board lies, and what there is to do besides. */
export interface OnBoards {
  readonly at: 'boards';
  readonly stands: readonly BoardStand[];
  /** Cutting the boards to size and marking them: the first step. */
  readonly prepare: Words;
  /** Trying the trial joint. */
  readonly close: Words;
  /** Cutting the work once the trial joint fits; all boards as the table says when left out. */
  readonly work?: Words;
  readonly glue: Words;
  /** All the steps after `prepare` where the joint is cut by hand. */
  readonly byHand?: readonly HandStep[];
  /** What the trial joint may show, and what to change then. */
  readonly corrections?: readonly (readonly [string, string])[];
  /** The sizes of the boards, in place of a cut list. */
  readonly sizes: Words;
  readonly sizesTitle?: string;
}

export interface HandStep {
  readonly words: Words;
  /** Set where edge tools come near fingers: the sheet adds its caution. */
  readonly careful?: true;
}

/** How one board lies under its template, or the mirror image of it. */
export interface BoardStand extends Hold {
  readonly board: string;
  /** Where there are several stands of one board: `left side`. */
  readonly name?: string;
  /** The edge or end that lies toward the operator, on the scored line: `straight edge`. */
  readonly toward: string;
  /** What lies against the stop: `reference edge`. */
  readonly against: string;
  readonly stop: 'left' | 'right';
  /** Set where the plate's mirror image is laid on. */
  readonly mirrored?: true;
  /** Said of how it lies, after the face. */
  readonly lay?: Words;
  /** Said of the trial piece: `saw 3 mm outside the line`. */
  readonly trial?: Words;
}
