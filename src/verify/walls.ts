import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { bulgesOf } from '../geometry/outline.js';
import type { Outline, Region } from '../geometry/types.js';
import {
  type Box,
  difference,
  erode,
  evenOdd,
  extents,
  grow,
  intersection,
  type Polygon,
  type Polygons,
  rectangle,
  shifted,
  union,
  widest,
} from './cut/polygons.js';
import { BUSHING_EASE, centresAtStops, cutAt, type Stops } from './cut/route.js';
import { flattenBulge } from './files/flatten.js';
import { placedDrawing, stopsOf } from './files/from-report.js';
import type { WrittenDrawing } from './files/read.js';
import { missingFiles, readTemplate } from './files/read-template.js';
import type { ReportedJoint, WrittenFile } from './files/reported.js';

/**
 * Every wall that a written plate lets the bit cut, against the one that the job's layout or drawn line wants. Plates
 * that fit each other and are not this job's close as well as the right ones: shifted, stretched, or left over from
 * another layout. Taken at the level where the waste is given. Only what the bit is too round to reach is excused.
 */

/** What one working edge of a plate has to take from the boards under it. Template coordinates, mm. */
export interface WantedWalls {
  /** The template, where it lies in its files, and the bushing. */
  readonly cut: ReportedJoint['cuts'][number];
  /** Of the bit at the level of `waste`. */
  readonly radius: number;
  /** R: what must leave the boards, sharp-cornered. */
  readonly waste: Region;
  readonly stock: readonly { readonly board: string; readonly outline: Outline }[];
}

/** A wall may be off by this much, mm: what a laser or a CNC router holds, and well under what a rule shows. */
export const WALL_WITHIN = 0.02;

/** What speaks against the files of one working edge; `width` is that of the tool whose path they hold, mm. Every format is read. */
export function wallDiagnostics(
  wanted: WantedWalls,
  files: readonly WrittenFile[],
  width: number,
): readonly Diagnostic[] {
  const formats = ['.dxf', '.svg'].map((ending) => files.filter(({ name }) => name.endsWith(ending)));
  const whole = formats.filter((own) => own.length > 0 && missingFiles(wanted.cut, own).length === 0);
  // A template whose parts stand in different formats is read as it is.
  return (whole.length > 0 ? whole : [files]).flatMap((own) => inOneFormat(wanted, own, width));
}

function inOneFormat(
  { cut, radius, waste, stock }: WantedWalls,
  files: readonly WrittenFile[],
  width: number,
): readonly Diagnostic[] {
  const read = readTemplate(cut, files, width, true);
  if (!read.ok) return read.diagnostics;
  const drawing = placedDrawing(read.value, cut.placed);
  const stops: Stops = cut.stops ? stopsOf(cut.stops, cut.leaveOut) : { at: [0] };
  const plate = evenOdd(drawing.layers.CUT ?? []);
  return stock.flatMap(({ board, outline }) => {
    const wood = [ringOf(outline)];
    const centres = centresAtStops(plate, wood, cut.bushing, radius, stops);
    const done = intersection(cutAt(centres, radius), wood);
    const should = intersection(reachedOf({ waste, radius }, stops, extents(wood)), wood);
    return [
      ...stockDiagnostics(drawing, wood),
      ...strips(difference(done, should), { board, cut: 'too far' }, drawing.name),
      ...strips(difference(should, done), { board, cut: 'too little' }, drawing.name),
    ];
  });
}

/** The board's end as it is drawn, that of several that lies nearest: people set boards to it. */
function stockDiagnostics({ name, layers }: WrittenDrawing, wood: Polygons): readonly Diagnostic[] {
  const wanted = extents(wood);
  const sides = ['minX', 'maxX', 'minY', 'maxY'] as const;
  const off = (box: Box): number => Math.max(...sides.map((side) => Math.abs(box[side] - wanted[side])));
  const drawn = (layers.STOCK ?? []).map((ring) => extents([ring])).sort((one, two) => off(one) - off(two));
  const [box] = drawn;
  const side = box && sides.find((one) => Math.abs(box[one] - wanted[one]) > SAME_SIZE);
  if (!box || side === undefined) return [];
  const read = { side: SIDES[side], read: box[side], wanted: wanted[side] };
  return [diagnostic('stock-differs', 'refused', name, read)];
}

/** How far the drawn board may differ from the job's, mm: written coordinates are rounded. */
const SAME_SIZE = 0.002;

const SIDES = {
  minX: 'left edge',
  maxX: 'right edge',
  minY: 'near face',
  maxY: 'back face',
} as const;

interface Wrong {
  readonly board: string;
  readonly cut: 'too far' | 'too little';
}

/** The widest strip between a wall and where it should be; none where all of them are narrow enough. */
function strips(between: Polygons, wrong: Wrong, file: string): readonly Diagnostic[] {
  if (erode(between, WALL_WITHIN / 2).length === 0) return [];
  const { width: by, at } = widest(between);
  if (!at || by <= WALL_WITHIN) return [];
  return [diagnostic('wall-off', 'refused', file, { ...wrong, by, x: at.x, y: at.y })];
}

/** What the bit reaches of the waste, at every stop, as seen from the board. */
function reachedOf(
  { waste, radius }: Pick<WantedWalls, 'waste' | 'radius'>,
  { at, leaveOut }: Stops,
  board: Box,
): Polygons {
  const centres = erode(waste.map(ringOf), radius - BUSHING_EASE);
  const box = extents(centres);
  const all = at.flatMap((stop, i) => {
    const used =
      leaveOut && i > 0
        ? difference(centres, [rectangle({ ...box, minX: leaveOut[0], maxX: leaveOut[1] })])
        : centres;
    return shifted(used, -stop, 0);
  });
  const near = rectangle(grow(board, 2 * radius));
  return cutAt({ polygons: intersection(union(all), [near]), stock: [] }, radius);
}

/** An outline with its arcs as chords, by the test cut's own arithmetic. */
function ringOf(one: Outline): Polygon {
  const corners = bulgesOf(one);
  return corners.flatMap((from, i) => flattenBulge(from, corners[i + 1] ?? corners[0] ?? from, from.bulge));
}
