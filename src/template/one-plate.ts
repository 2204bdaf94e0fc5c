import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { bushingOpening } from '../geometry/compensate.js';
import { extents, rectangle } from '../geometry/outline.js';
import { difference, union } from '../geometry/regions/boolean.js';
import { mirrorX, mirrorY } from '../geometry/transform.js';
import type { Extents, Outline, Path, Region } from '../geometry/types.js';
import type { Cut } from '../joints/family.js';
import { besideWood } from './beside-wood.js';
import {
  cutOutOf,
  eased,
  fingerDiagnostics,
  fitsSheet,
  frameOf,
  type HalfTurn,
  isOuter,
  lostDiagnostics,
  type Plate,
  type PlateRequest,
  type PlateSide,
  reachDiagnostics,
  type Screw,
  SPINE,
  screwsOf,
} from './plate.js';

/**
 * One plate for two cuts: the first at its near edge, the second at its far edge, to be used after the plate
 * is turned by half a turn in its plane. Both share the centre line x = W/2. The fence is as wide as the
 * distance of the two lines y = 0, so each of its sides is the place of one board's back face; a row of
 * screws along its middle holds it.
 *
 * The half turn takes (x, y) to (X − x, Y − y) with X = W, and Y the width of the fence.
 */
export function buildOnePlate(cuts: readonly [Cut, Cut], shared: Omit<PlateRequest, 'cut'>): Result<Plate> {
  const { width, options, holes, at, mirrored, bothStops } = shared;
  const name = `finger-template-both${mirrored ? '-mirrored' : ''}`;
  const near = edgeOf(cuts[0], shared);
  const far = edgeOf(cuts[1], shared);
  const spine = options.spine ?? SHARED_SPINE;
  const halfTurn: HalfTurn = { x: width, y: near.spineFrom + spine + far.spineFrom };
  const frame = sharedFrame(near.frame, far.frame, halfTurn);
  const openings = union(
    near.openings,
    far.openings.map((one) => turnedShape(one, halfTurn)),
  );
  const middle = near.spineFrom + spine / 2;
  const screws = screwsOf(frame, middle, holes);
  const parts = difference([rectangle(frame.minX, frame.minY, frame.maxX, frame.maxY)], openings);
  const blanks = parts.filter((one) => isOuter(one));
  const [blank] = blanks;
  const diagnostics = [
    ...near.diagnostics(name, frame),
    ...far.diagnostics(name, turnedExtents(frame, halfTurn)),
    ...sheetDiagnostics(frame, spine, shared),
    ...(blanks.length === 1
      ? []
      : [diagnostic('plate-in-parts', 'refused', at, { template: name, parts: blanks.length })]),
  ];
  if (!blank || hasErrors(diagnostics)) return err(diagnostics);
  const outline = eased(blank, frame);
  const referenceEdge = mirrored ? width : 0;
  const first: PlateSide = {
    cut: cuts[0],
    width,
    outline,
    screws,
    box: { ...frame, maxY: middle },
    spineFrom: near.spineFrom,
    referenceEdge,
    bothStops,
  };
  const second: PlateSide = {
    cut: cuts[1],
    width,
    outline: turnedShape(outline, halfTurn),
    screws: screws.map((one): Screw => ({ ...one, x: halfTurn.x - one.x, y: halfTurn.y - one.y })),
    box: { ...turnedExtents(frame, halfTurn), maxY: halfTurn.y - middle },
    spineFrom: far.spineFrom,
    referenceEdge,
    bothStops,
    turned: halfTurn,
  };
  const placed = diagnostic('one-plate-placed', 'ok', at, {
    near: cuts[0].board,
    far: cuts[1].board,
    fence: halfTurn.y,
  });
  const cutOut = cutOutOf(parts, screws);
  const plate = { name, holes: cutOut, pinHole: holes.pin, registers: [], sides: [first, second] };
  return ok({ ...first, ...plate }, [...diagnostics, placed]);
}

/** The spine between both edges: the marks and the label of each, and one row of screws, mm. */
const SHARED_SPINE = 2 * SPINE - 12;

/** A line, outline or path of a side as it lies on the plate, or the other way about. */
export function turnedShape<T extends Outline | Path>(shape: T, { x, y }: HalfTurn): T {
  return mirrorY(mirrorX(shape, x), y);
}

function turnedExtents({ minX, minY, maxX, maxY }: Extents, { x, y }: HalfTurn): Extents {
  return { minX: x - maxX, minY: y - maxY, maxX: x - minX, maxY: y - minY };
}

/** One working edge before the two are put together, in its own template coordinates. */
interface Edge {
  readonly openings: Region;
  readonly frame: Extents;
  readonly spineFrom: number;
  readonly diagnostics: (name: string, frame: Extents) => readonly Diagnostic[];
}

function edgeOf(cut: Cut, shared: Omit<PlateRequest, 'cut'>): Edge {
  const request: PlateRequest = { ...shared, cut };
  const openings = bushingOpening(cut.waste, cut.cutterRadius, cut.bushing.outside / 2);
  return {
    openings,
    frame: frameOf(openings, cut, shared.options),
    spineFrom: extents(...openings).maxY,
    diagnostics: (name, frame) => {
      const plate = difference([rectangle(frame.minX, frame.minY, frame.maxX, frame.maxY)], openings);
      return [
        ...reachDiagnostics(name, request),
        ...lostDiagnostics(name, openings, request),
        ...besideWood(frame, cut, shared.options, shared.at),
        ...fingerDiagnostics(name, plate, frame, request),
      ];
    },
  };
}

function sharedFrame(near: Extents, far: Extents, halfTurn: HalfTurn): Extents {
  const turned = turnedExtents(far, halfTurn);
  return {
    minX: Math.min(near.minX, turned.minX),
    maxX: Math.max(near.maxX, turned.maxX),
    minY: near.minY,
    maxY: turned.maxY,
  };
}

function sheetDiagnostics(
  frame: Extents,
  spine: number,
  { stock, at }: Omit<PlateRequest, 'cut'>,
): readonly Diagnostic[] {
  const width = frame.maxX - frame.minX;
  const height = frame.maxY - frame.minY;
  if (!stock.sheet || fitsSheet(width, height, stock)) return [];
  const [sheetWidth, sheetHeight] = stock.sheet;
  const data = { width, height, sheetWidth, sheetHeight, spine };
  return [diagnostic('one-plate-over-sheet', 'refused', `${at}.template.plate`, data)];
}
