import type { WrittenDrawing } from '../files/read.js';
import { erode, evenOdd } from './polygons.js';

/**
 * A plate, or a part of one, as it comes off the machine. A file for a laser or a CNC router holds the path of
 * the tool's middle, half a tool outside the plate all round and half a tool inside its openings; the tool
 * takes that half away again. `width` is the kerf or the cutter's diameter, mm; 0 for a file that holds the
 * plate itself.
 */
export function asCut(drawing: WrittenDrawing, width: number): WrittenDrawing {
  if (width === 0) return drawing;
  const plate = erode(evenOdd(drawing.layers.CUT ?? []), width / 2);
  return { ...drawing, layers: { ...drawing.layers, CUT: plate } };
}
