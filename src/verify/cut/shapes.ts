/** What the test cut's polygons are made of, mm: x right, y up. */

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A closed ring of corners; the last joins the first. */
export type Polygon = readonly Spot[];

/** Outer rings and holes that bound one set of points. */
export type Polygons = readonly Polygon[];

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}
