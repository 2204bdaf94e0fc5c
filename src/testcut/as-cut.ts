import type { TestCutRequest } from './assemble.js';
import { erode, evenOdd } from './polygons.js';

/**
 * The plates as they come off the machine. A file for a laser or a CNC router holds the path of the tool's
 * middle, half a tool outside the plate all round and half a tool inside its openings; the tool takes that
 * half away again. `width` is the kerf or the cutter's diameter, mm; 0 for a file that holds the plate itself.
 */
export function asCut(request: TestCutRequest, width: number): TestCutRequest {
  if (width === 0) return request;
  const boards = request.boards.map((board) => {
    const { layers } = board.drawing;
    const plate = erode(evenOdd(layers.CUT ?? []), width / 2);
    return { ...board, drawing: { ...board.drawing, layers: { ...layers, CUT: plate } } };
  });
  return { ...request, boards };
}
