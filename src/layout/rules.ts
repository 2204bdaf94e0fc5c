/** Proportions and limits that the layout goes by, each with its source. Lengths in mm. */

/** Tails are up to four times as wide as the pins. Noyes, Handwork in Wood, 1910, pp. 164–166. */
export const TAIL_TO_PIN = 4;

/** Tails are ordinarily not over 1-3/4 in wide. Noyes, as above. */
export const ORDINARY_TAIL = 1.75 * 25.4;

/**
 * A half-pin is more than half a full pin at the baseline (common practice, no source). Five eighths: a
 * 1/2 in pin then gets 5/16 in, and the boards that suit a 2 in pitch are twice the number of pins plus 1/8 in.
 */
export const HALF_PIN_SHARE = 5 / 8;

/** Fingers of a box joint are often about 1/2 in wide (common practice, no source). */
export const ORDINARY_FINGER = 12.7;

/** A board shows at least this many fingers and slots when nothing else is asked. */
export const FEWEST_FINGERS = 5;

/** The last of a graduated row is twice the first when no ratio is given: plain to see, and still sound. */
export const GRADUATED_GROWTH = 2;

/** How far varied widths stray from even: enough to look made by hand, too little to look like a mistake. */
export const VARIED_SPREAD = 0.25;

/** Where the irregular row starts when no seed is given. */
export const VARIED_SEED = 1;

/** Widths that a maker writes down may miss the board by this and are made to fit; a caliper reads 0.02. */
export const LIST_TOLERANCE = 0.01;

/** Two widths or places closer than this are the same: above rounding at 10 m, far below any tool. */
export const LAYOUT_ROUNDING = 1e-9;

/** A list of suitable boards is no longer than this. */
export const MAX_SUITABLE = 6;
