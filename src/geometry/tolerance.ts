/** Every tolerance of the geometry, in mm unless said otherwise, each with its reason. */

/** Two points closer than this are one: far above rounding error at 2 m (1e-13), far below any wood. */
export const SAME_POINT = 1e-7;

/**
 * How far a piece of a raw offset may lie inside the wanted distance and still be kept. Not over
 * SAME_POINT, so that pieces kept on both sides of a gap which closes are seen as one and cancel.
 */
export const KEPT_DISTANCE = 1e-7;

/**
 * A slot exactly as wide as its bit erodes to a line, which a region cannot hold. The erosion stops
 * this much short, so the line becomes a sliver of twice this width; the sides of the slot stay exact.
 */
export const EXACT_FIT = 1e-6;

/**
 * Segments and outlines narrower than this are left out of every result. Well over SAME_POINT, because the
 * direction of a segment whose ends may each be out by that much means nothing; well under the sliver of
 * EXACT_FIT, which must live through an offset.
 */
export const SHORTEST = 5e-7;

/**
 * Segments and outlines narrower than this are traces of EXACT_FIT (2e-6 long, a few of them together)
 * and are tidied away where a result leaves the kernel; a laser places to 1e-2.
 */
export const SLIVER = 1e-5;

/**
 * The shortest piece of what a machine cuts, mm: a laser or a router table places to about as much, and at shorter
 * pieces controllers stutter.
 */
export const SHORTEST_CUT = 0.01;

/**
 * The farthest that two loose ends of an outline may lie apart and still be tied together: nodes whose
 * distance falls just over SAME_POINT because two curves meet at a grazing angle.
 */
export const LOOSE_ENDS = 1e-5;

/** A turn under this, in radians, is a smooth joint and no corner: its arc would be shorter than anything drawn. */
export const SMOOTH = 1e-6;

/** Two lines that differ by less than this, in radians, are not made to meet by running them on: too far to go. */
export const NEARLY_PARALLEL = 1e-3;

/** Arcs that make up a full turn to within this, in radians, are a circle; a chord of 1e-3 r is a visible gap. */
export const FULL_TURN = 1e-3;

/**
 * A turn within this of a half turn, in radians, is a cusp: its side cannot be told from the tangents,
 * which carry errors of about SAME_POINT over the length of a short segment.
 */
export const CUSP = 1e-4;

/**
 * How far the arcs that stand for a Bézier curve or an ellipse may lie from it, mm. The promise is 0.005, a
 * fifth of what a laser places to; the rest covers what lies between the places where the distance is taken.
 */
export const CURVE_FIT = 0.004;

/**
 * Drawing programs round coordinates, so the sides of a smooth node differ in direction by up to this, radians.
 * A bit of radius r leaves r φ²/8 in a bay with a kink of φ: 0.0003 mm at 25 mm.
 */
export const SMOOTH_TURN = 0.01;
