import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import { asCut } from '../cut/as-cut.js';
import {
  type Box,
  dilate,
  erode,
  evenOdd,
  extents,
  intersection,
  type Polygon,
  union,
  widest,
} from '../cut/polygons.js';
import { putBack } from './laid.js';
import { readDxf, readSvg, type WrittenDrawing } from './read.js';
import type { ReportedJoint, WrittenFile } from './reported.js';
import { eachRing } from './rings.js';

/** Plates read back from their files, as they come off the machine, and parts of them joined. */

type ReportedCut = ReportedJoint['cuts'][number];

/** The files of a cut's template, or of its parts, that are not among those given, without their extensions. */
export function missingFiles(
  { template, parts }: Pick<ReportedCut, 'template' | 'parts'>,
  files: readonly WrittenFile[],
): readonly string[] {
  const missing = (parts?.map((part) => part.template) ?? [template]).filter(
    (wanted) => !fileOf(wanted, files),
  );
  return missing.length > 0 && fileOf(template, files) ? [] : missing;
}

/**
 * The template of a cut as its files make it: its own or, where it is longer than the bed, those of its parts,
 * joined. `isAnywhere` allows it to be moved or turned on its sheet, which is safe where its walls are held to the
 * layout. Refuses parts that want the same room or do not meet. `width` is that of the tool whose path the files hold, mm. A
 * file that is missing is a mistake of the caller's.
 */
export function readTemplate(
  { template, parts, boards, placed: at }: Pick<ReportedCut, 'template' | 'parts' | 'boards' | 'placed'>,
  files: readonly WrittenFile[],
  width = 0,
  isAnywhere = false,
): Result<WrittenDrawing> {
  const under = boardsIn({ boards, ...(at && { placed: at }) });
  if (!parts?.every((part) => fileOf(part.template, files))) {
    const plate = readPlate(template, files, width);
    return plate.ok && isAnywhere ? ok(putBack(plate.value, under), plate.diagnostics) : plate;
  }
  const read = parts.map((part) => {
    const plate = readPlate(part.template, files, width);
    return plate.ok
      ? ok(eachRing(plate.value, (ring) => ring.map(({ x, y }) => ({ x: x + part.shift, y }))))
      : plate;
  });
  const diagnostics = read.flatMap((one) => one.diagnostics);
  const drawings = read.flatMap((one) => (one.ok ? [one.value] : []));
  const clashes = drawings
    .slice(1)
    .flatMap((one, i): readonly Diagnostic[] => seamDiagnostics(drawings[i] ?? one, one));
  if (hasErrors([...diagnostics, ...clashes])) return err([...diagnostics, ...clashes]);
  return ok(joinedParts(template, drawings, under), diagnostics);
}

const fileOf = (wanted: string, files: readonly WrittenFile[]): WrittenFile | undefined =>
  files.find(({ name }) => name === `${wanted}.dxf` || name === `${wanted}.svg`);

function readPlate(wanted: string, files: readonly WrittenFile[], width: number): Result<WrittenDrawing> {
  const file = fileOf(wanted, files);
  if (!file) throw new Error(`no file of the template "${wanted}"`);
  const read = file.name.endsWith('.svg') ? readSvg(file.name, file.text) : readDxf(file.name, file.text);
  return read.ok ? ok(asCut(read.value, width), read.diagnostics) : read;
}

/** Where the boards lie in the file of a cut's template. */
export const boardsIn = ({ boards, placed }: Pick<ReportedCut, 'boards' | 'placed'>): readonly Box[] =>
  boards.map((board) => boxOf(board, placed));

/** Room that two parts may both want, mm: half of what a joint may be off, for a seam that guides doubles it. */
const SHARED_SPACE = 0.0025;

/** Two neighbours that do not meet, or that cannot lie side by side as they are drawn. */
function seamDiagnostics(one: WrittenDrawing, other: WrittenDrawing) {
  const [left, right] = [evenOdd(one.layers.CUT ?? []), evenOdd(other.layers.CUT ?? [])];
  const names = { one: one.name, other: other.name };
  const shared = intersection(left, right);
  if (erode(shared, SHARED_SPACE / 2).length > 0) {
    const { width, at } = widest(shared);
    return [
      diagnostic('parts-clash', 'refused', other.name, {
        ...names,
        shared: width,
        x: at?.x ?? 0,
        y: at?.y ?? 0,
      }),
    ];
  }
  const meet = intersection(dilate(left, SHARED_SPACE), right).length > 0;
  return meet ? [] : [diagnostic('parts-apart', 'refused', other.name, names)];
}

/** The parts laid against one another. The boards under them stay apart from one another, though two may touch. */
function joinedParts(name: string, parts: readonly WrittenDrawing[], boards: readonly Box[]): WrittenDrawing {
  const on = (layer: string) => parts.map((part) => part.layers[layer] ?? []);
  const stock = on('STOCK').flat();
  return {
    name,
    layers: {
      CUT: union(on('CUT').flatMap(evenOdd)),
      STOCK: boards.flatMap((board) => union(stock.filter((ring) => liesIn(ring, board)))),
    },
  };
}

/** A board's rectangle as it lies in the file, where the cut may be turned by half a turn. */
function boxOf({ from, to }: ReportedCut['boards'][number], at: ReportedCut['placed']): Box {
  const [minX, minY, maxX, maxY] = at
    ? [at.x - to[0], at.y - to[1], at.x - from[0], at.y - from[1]]
    : [from[0], from[1], to[0], to[1]];
  return { minX, minY, maxX, maxY };
}

/** By its middle, for a board's outline may be drawn a hair off. */
function liesIn(ring: Polygon, { minX, minY, maxX, maxY }: Box): boolean {
  const box = extents([ring]);
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return x > minX && x < maxX && y > minY && y < maxY;
}
