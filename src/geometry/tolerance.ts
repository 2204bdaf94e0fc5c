/** Every tolerance of the geometry, in mm unless said otherwise, each with its reason. */

/** Two points closer than this are one: far above rounding error at 2 m (1e-13), far below any wood. */
export const SAME_POINT = 1e-7;

/** How far a piece of a raw offset may lie inside the wanted distance and still be kept. */
export const KEPT_DISTANCE = 1e-7;

/**
 * A slot exactly as wide as its bit erodes to a line, which a region cannot hold. The erosion stops
 * this much short, so the line becomes a sliver of twice this width; the sides of the slot stay exact.
 */
export const EXACT_FIT = 1e-6;
