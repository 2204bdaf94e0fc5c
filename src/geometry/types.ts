/**
 * The one representation of every line that halfpin draws: lines and true arcs.
 *
 * Conventions, repeated where they bite: millimetres; radians; x to the right, y up;
 * the inside of a region lies to the left of its outlines, so outer outlines run
 * counter-clockwise and holes clockwise. Only writers approximate.
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Line {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** A circular arc of less than a full turn; a full circle is two half arcs. */
export interface Arc {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly center: Point;
  readonly radius: number;
  /** true when the arc runs counter-clockwise from `from` to `to`. */
  readonly ccw: boolean;
}

export type Segment = Line | Arc;

/** An open chain of segments, each starting where the one before it ends. */
export interface Path {
  readonly closed: false;
  readonly segments: readonly Segment[];
}

/** A closed chain of segments: the last one ends exactly where the first one starts. */
export interface Outline {
  readonly closed: true;
  readonly segments: readonly Segment[];
}

/** A set of points bounded by outlines: counter-clockwise outside, clockwise for holes, none crossing. */
export type Region = readonly Outline[];

/** Smallest upright rectangle around something. */
export interface Extents {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}
