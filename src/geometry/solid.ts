/** A closed surface of triangles, each counter-clockwise seen from outside; mm, z up. */
export interface Solid {
  readonly vertices: readonly Vertex[];
  /** Three indices of vertices each. */
  readonly triangles: readonly (readonly [number, number, number])[];
}

export type Vertex = readonly [number, number, number];
