import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import { extents, type Polygon, type Polygons, signedArea } from '../cut/polygons.js';
import { type Chain, contoursOf } from './chains.js';
import { chainsOfDxf } from './read-dxf.js';
import { chainsOfSvg } from './read-svg.js';

/**
 * A written template read back: closed rings per layer, mm, template coordinates (x from the
 * reference edge, y away from the operator), arcs as fine chords. Rings of one layer may nest.
 */
export interface WrittenDrawing {
  /** The file's name, for messages. */
  readonly name: string;
  readonly layers: Readonly<Record<string, Polygons>>;
}

/** Layers on which every contour has to close: the ones that are cut and that stand for wood. */
const CLOSED_LAYERS = ['CUT', 'STOCK'] as const;

/** Reads an ASCII DXF file. Refuses what it cannot read, unknown units, open contours on CUT or STOCK, an empty CUT or STOCK. */
export function readDxf(name: string, text: string): Result<WrittenDrawing> {
  const chains = chainsOfDxf(name, text);
  return chains.ok ? drawingOf(name, chains.value) : err(chains.diagnostics);
}

/** Reads an SVG file whose width and height are lengths. Refuses as `readDxf` does, and transforms. */
export function readSvg(name: string, text: string): Result<WrittenDrawing> {
  const chains = chainsOfSvg(name, text);
  return chains.ok ? drawingOf(name, chains.value) : err(chains.diagnostics);
}

function drawingOf(name: string, chains: readonly Chain[]): Result<WrittenDrawing> {
  const layers: Record<string, Polygons> = {};
  const diagnostics: Diagnostic[] = [];
  for (const layer of CLOSED_LAYERS) {
    const { closed, open } = contoursOf(chains.filter((chain) => chain.layer === layer));
    for (const { at, apart } of open) {
      diagnostics.push(diagnostic('contour-open', 'refused', name, { layer, x: at.x, y: at.y, apart }));
    }
    if (closed.length === 0 && open.length === 0) {
      diagnostics.push(diagnostic('layer-empty', 'refused', name, { layer }));
    }
    for (const { x, y } of twice(closed)) {
      diagnostics.push(diagnostic('contour-twice', 'refused', name, { layer, x, y }));
    }
    layers[layer] = closed;
  }
  return hasErrors(diagnostics) ? err(diagnostics) : ok({ name, layers });
}

/** Contours this near are one and the same, mm and mm². */
const SAME_CONTOUR = 0.01;

/** Where a contour lies on one before it: rings that lie on one another would cancel out. */
function twice(rings: Polygons): readonly { readonly x: number; readonly y: number }[] {
  const sizes = rings.map((ring: Polygon) => ({ ...extents([ring]), area: Math.abs(signedArea(ring)) }));
  const keys = ['minX', 'minY', 'maxX', 'maxY', 'area'] as const;
  return sizes
    .filter((one, i) =>
      sizes.slice(0, i).some((other) => keys.every((key) => Math.abs(one[key] - other[key]) < SAME_CONTOUR)),
    )
    .map(({ minX, minY }) => ({ x: minX, y: minY }));
}
