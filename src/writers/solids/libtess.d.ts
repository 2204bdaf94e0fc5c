/** What the solids use of the tessellator of OpenGL's utility library, which brings no types. */
declare module 'libtess' {
  type Callback<D> = (...values: D[]) => unknown;

  class GluTesselator<V = number> {
    gluTessCallback(which: number, callback: Callback<never>): void;
    gluTessNormal(x: number, y: number, z: number): void;
    gluTessBeginPolygon(data?: unknown): void;
    gluTessBeginContour(): void;
    gluTessVertex(place: readonly [number, number, number], data: V): void;
    gluTessEndContour(): void;
    gluTessEndPolygon(): void;
  }

  const gluEnum: {
    readonly GLU_TESS_VERTEX: number;
    readonly GLU_TESS_EDGE_FLAG: number;
    readonly GLU_TESS_COMBINE: number;
    readonly GLU_TESS_ERROR: number;
  };

  const libtess: { readonly GluTesselator: typeof GluTesselator; readonly gluEnum: typeof gluEnum };
  export default libtess;
}
