import DxfParser from 'dxf-parser';

/** A written template as an outside reader sees it: closed polylines with bulges, and nothing of our own code. */

export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** The closed contours on one layer of a DXF file, read by dxf-parser. */
export function contoursOn(dxf: string, layer: string): readonly (readonly Vertex[])[] {
  const parsed = new DxfParser().parseSync(dxf);
  if (!parsed) throw new Error('not a DXF file');
  return parsed.entities
    .filter((entity) => entity.layer === layer)
    .map((entity) => {
      const { vertices, shape } = entity as unknown as { vertices: Partial<Vertex>[]; shape: boolean };
      if (!shape) throw new Error('an open contour');
      return vertices.map(({ x = 0, y = 0, bulge = 0 }) => ({ x, y, bulge }));
    });
}

/** The contour that encloses the most: the plate's outline. */
export function plateOutline(dxf: string): readonly Vertex[] {
  const widths = contoursOn(dxf, 'CUT').map((vertices) => {
    const xs = vertices.map(({ x }) => x);
    return { vertices, width: Math.max(...xs) - Math.min(...xs) };
  });
  return widths.reduce((most, one) => (one.width > most.width ? one : most)).vertices;
}

/** x of every straight edge of a contour that the line at height y crosses, in order. */
export function crossingsAt(vertices: readonly Vertex[], y: number): readonly number[] {
  return vertices
    .flatMap((from, i) => {
      const to = vertices[(i + 1) % vertices.length];
      if (!to || from.bulge !== 0 || from.y === to.y) return [];
      const t = (y - from.y) / (to.y - from.y);
      return t >= 0 && t < 1 ? [from.x + (to.x - from.x) * t] : [];
    })
    .sort((a, b) => a - b);
}
