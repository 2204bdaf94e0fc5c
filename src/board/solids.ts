import type { Report, ReportedCut } from '../report.js';
import type { WrittenFile } from '../testcut/from-report.js';
import { evenOdd, type Polygons, rectangle, shifted } from '../testcut/polygons.js';
import { readTemplate } from '../testcut/read-template.js';
import { boardLeft, centresAtStops, radiusAt } from '../testcut/route.js';

/**
 * Both boards of a joint as the written templates cut them, in slabs along the router's axis. The joint's own
 * axes, mm: a along the joint from the reference edge, b from the outside of the pin board into the corner,
 * c across the tail board's thickness.
 */
export interface BoardSolid {
  readonly board: string;
  readonly slabs: readonly Slab[];
  /** Where a point of the cut (x, y in the plane of the template, u below its surface) stands in the joint. */
  readonly place: Placing;
  /** The way along c that this board is drawn out of the joint: −1, 0 or 1. */
  readonly pulls: number;
}

/** One layer of a board: what is left between two depths below the surface that the template lies on. */
export interface Slab {
  readonly from: number;
  readonly to: number;
  readonly polygons: Polygons;
}

/** b and c from y and u: b = b₀ + y·by + u·bu, and so for c. */
export interface Placing {
  readonly b: readonly [number, number, number];
  readonly c: readonly [number, number, number];
}

/** Layers that follow a tapered bit down its cut: steps of a few tenths of a mm, too small to see. */
const TAPER_SLABS = 28;

/** How much of a board is shown behind its joint, mm. */
const STUB = 45;

/** `lying` is how thick a board is that lies flat under its template, mm: the report gives its outline only. */
export function solidsOf(
  report: Report,
  written: readonly WrittenFile[],
  lying: number,
): readonly BoardSolid[] {
  return report.cuts.flatMap((cut) => {
    const drawing = readTemplate(cut, written, report.holds.width);
    if (!drawing.ok) return [];
    const plate = placedPlate(evenOdd(drawing.value.layers.CUT ?? []), cut);
    return cut.boards.map((board) => solidOf(board, cut, plate, { report, lying }));
  });
}

function solidOf(
  { board, from, to, thickness: through }: ReportedCut['boards'][number],
  cut: ReportedCut,
  plate: Polygons,
  { report, lying }: { readonly report: Report; readonly lying: number },
): BoardSolid {
  const stock: Polygons = [rectangle({ minX: from[0], minY: from[1], maxX: to[0], maxY: to[1] })];
  const cutter = { diameter: cut.bit.diameter, angle: ((cut.bit.angle ?? 0) * Math.PI) / 180 };
  const count = cutter.angle === 0 ? 1 : TAPER_SLABS;
  const { bushing, bit, stops: at = [0], leaveOut } = cut;
  const centres = centresAtStops(plate, stock, bushing, bit.diameter / 2, {
    at,
    ...(leaveOut && { leaveOut }),
  });
  const slabs = Array.from({ length: count }, (_, i): Slab => {
    const deep = through ?? cut.depth;
    const [top, bottom] = [(deep * i) / count, (deep * (i + 1)) / count];
    const radius = radiusAt(cutter, cut.depth - (top + bottom) / 2);
    return { from: top, to: bottom, polygons: shifted(boardLeft(centres, radius), -from[0], 0) };
  });
  if (through !== undefined) return { board, slabs, ...meeting(board, report, through) };
  const thickness = to[1] - from[1];
  const lies = from[1] >= -1e-6;
  const rest = lies ? lying : cut.depth + STUB;
  return {
    board,
    slabs: [...slabs, { from: cut.depth, to: rest, polygons: shifted(stock, -from[0], 0) }],
    ...standing(board, report, cut, thickness, lies),
  };
}

/** Of two boards that meet along a line: b from their outside faces inward, c across the joint from board one's edge. */
function meeting(
  board: string,
  { meeting: together = 0, cuts }: Report,
  thickness: number,
): Pick<BoardSolid, 'place' | 'pulls'> {
  if (board === cuts[0]?.board) return { place: { b: [0, 0, 1], c: [0, 1, 0] }, pulls: 1 };
  return { place: { b: [thickness, 0, -1], c: [together, -1, 0] }, pulls: 0 };
}

function standing(
  board: string,
  { kind, cuts }: Report,
  cut: ReportedCut,
  thickness: number,
  lies: boolean,
): Pick<BoardSolid, 'place' | 'pulls'> {
  if (kind === 'half-blind-dovetail') {
    // The front lies inside face up, its end in line with the side's outside face.
    return lies
      ? { place: { b: [cut.depth, 0, -1], c: [0, -1, 0] }, pulls: 0 }
      : { place: { b: [0, 0, 1], c: [0, 1, 0] }, pulls: 1 };
  }
  if (board === cuts[0]?.board) return { place: { b: [0, 0, 1], c: [0, 1, 0] }, pulls: -1 };
  const mate = cuts[0]?.boards[0];
  const mateThickness = mate ? mate.to[1] - mate.from[1] : 0;
  return { place: { b: [thickness, 1, 0], c: [-mateThickness, 0, 1] }, pulls: 0 };
}

function placedPlate(plate: Polygons, { placed }: ReportedCut): Polygons {
  if (!placed) return plate;
  return plate.map((ring) => ring.map(({ x, y }) => ({ x: placed.x - x, y: placed.y - y })));
}
