import { type Contour, contoursOf, keyOfPiece } from '../../drawing/contours.js';
import type { Drawing, Layer } from '../../drawing/model.js';
import { flatten } from '../../geometry/flatten.js';
import type { BulgeVertex } from '../../geometry/outline.js';
import { bulgeOf } from '../../geometry/segment.js';
import type { Outline, Path, Point, Segment } from '../../geometry/types.js';

export type DxfEntityStyle = 'polylines' | 'lines-and-arcs' | 'flattened';

export interface DxfPolyline {
  readonly kind: 'polyline';
  readonly layer: Layer;
  /** The first vertex of a closed one is not repeated. */
  readonly closed: boolean;
  /** Bulge: tan(included angle / 4) of the piece that starts here, counter-clockwise positive (DXF Reference). */
  readonly vertices: readonly Required<BulgeVertex>[];
}

export interface DxfLine {
  readonly kind: 'line';
  readonly layer: Layer;
  readonly from: Point;
  readonly to: Point;
}

/** DXF arcs run counter-clockwise; degrees, 0 to 360. */
export interface DxfArc {
  readonly kind: 'arc';
  readonly layer: Layer;
  readonly center: Point;
  readonly radius: number;
  readonly start: number;
  readonly end: number;
}

export type DxfEntity = DxfPolyline | DxfLine | DxfArc;

/** What a DXF file holds of a drawing, in the order in which a machine should take it. */
export function dxfEntities(drawing: Drawing, style: DxfEntityStyle): readonly DxfEntity[] {
  const contours = contoursOf(drawing);
  switch (style) {
    case 'polylines':
      return contours.map(({ layer, line }) => polyline(layer, line.closed, verticesOf(line)));
    case 'flattened':
      return contours.map(({ layer, line }) => polyline(layer, line.closed, straightVerticesOf(line)));
    case 'lines-and-arcs':
      return looseOnce(contours);
  }
}

/** mm between an arc and the chords that stand for it: half of the 0.01 mm that a flattened file may be off. */
export const FLATTENED_WITHIN = 0.005;

const polyline = (layer: Layer, closed: boolean, vertices: DxfPolyline['vertices']): DxfPolyline => ({
  kind: 'polyline',
  layer,
  closed,
  vertices,
});

function verticesOf({ closed, segments }: Outline | Path): DxfPolyline['vertices'] {
  const starts = segments.map((one) => ({ x: one.from.x, y: one.from.y, bulge: bulgeOf(one) }));
  const end = closed ? undefined : segments.at(-1)?.to;
  return end ? [...starts, { x: end.x, y: end.y, bulge: 0 }] : starts;
}

const straightVerticesOf = (line: Outline | Path): DxfPolyline['vertices'] =>
  flatten(line, FLATTENED_WITHIN).map(({ x, y }) => ({ x, y, bulge: 0 }));

/** Every piece by itself; one that two contours of a layer share stands there once. */
function looseOnce(contours: readonly Contour[]): readonly DxfEntity[] {
  const once = new Map<string, DxfEntity>();
  for (const { layer, line } of contours) {
    for (const piece of line.segments) {
      const key = `${layer} ${keyOfPiece(piece)}`;
      if (!once.has(key)) once.set(key, loose(layer, piece));
    }
  }
  return [...once.values()];
}

function loose(layer: Layer, piece: Segment): DxfLine | DxfArc {
  if (piece.kind === 'line') return { kind: 'line', layer, from: piece.from, to: piece.to };
  const { center, radius, ccw } = piece;
  const [from, to] = ccw ? [piece.from, piece.to] : [piece.to, piece.from];
  return { kind: 'arc', layer, center, radius, start: bearing(center, from), end: bearing(center, to) };
}

/** Degrees counter-clockwise from +x, 0 to 360. */
function bearing(center: Point, to: Point): number {
  const degrees = (Math.atan2(to.y - center.y, to.x - center.x) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
}
