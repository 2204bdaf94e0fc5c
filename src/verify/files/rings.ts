import type { Polygon } from '../cut/polygons.js';
import type { WrittenDrawing } from './read.js';

/** The drawing with each of its rings changed. */
export function eachRing(drawing: WrittenDrawing, change: (ring: Polygon) => Polygon): WrittenDrawing {
  const layers = Object.entries(drawing.layers).map(([layer, rings]) => [layer, rings.map(change)] as const);
  return { ...drawing, layers: Object.fromEntries(layers) };
}
