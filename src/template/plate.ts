import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { bushingOpening } from '../geometry/compensate.js';
import { roundCorners } from '../geometry/fillet.js';
import { offsetRegion } from '../geometry/offset.js';
import { unreachable } from '../geometry/opening.js';
import { area, areaOfRegion, circle, extents, rectangle } from '../geometry/outline.js';
import { difference, intersection } from '../geometry/regions/boolean.js';
import { clipLine } from '../geometry/regions/clip.js';
import { mirrorX } from '../geometry/transform.js';
import type { Extents, Outline, Region } from '../geometry/types.js';
import type { PlateStock, TemplateOptions } from '../input/types.js';
import type { Cut, SecondStop } from '../joints/family.js';
import { EASY_FINGER } from '../joints/nose.js';
import { besideWood } from './beside-wood.js';
import type { Holes } from './holes.js';

/**
 * A plate under which one cut is made: the complement of the bushing's openings inside the plate's outline.
 * Template coordinates, mm: x from the reference edge, y away from the operator, the fence at y = 0.
 */
export interface Plate extends PlateSide {
  /** `finger-template-tails`. */
  readonly name: string;
  /** Openings inside the plate, and screw holes: clockwise or not, each is cut out. */
  readonly holes: readonly Outline[];
  /** Diameter of the holes for pins beside a seam, mm. */
  readonly pinHole: number;
  /** Holes that register the carrier's parts, besides the screws; they are the last of `holes`. */
  readonly registers: readonly Screw[];
  /**
   * One for each board that is cut at an edge of its own, in the cut's own template coordinates; the first of
   * them is the plate itself.
   */
  readonly sides: readonly PlateSide[];
}

/** One working edge of a plate with its cut, in that cut's template coordinates. */
export interface PlateSide {
  readonly cut: Cut;
  readonly width: number;
  /** The plate's outer contour. */
  readonly outline: Outline;
  /** Screw holes alone, for the marks to keep clear of. */
  readonly screws: readonly Screw[];
  /** The part of the plate that belongs to this edge: all of it, or up to the middle of the spine. */
  readonly box: Extents;
  /** y where the spine begins: every opening ends before it. */
  readonly spineFrom: number;
  /** x of the reference edge: 0, or the width on the mirror image for a board's second end. */
  readonly referenceEdge: number;
  /** true when boards stand under it at either stop: a layout that is its own mirror image, at a corner. */
  readonly bothStops: boolean;
  /** Set where the plate is turned by half a turn to use this edge. */
  readonly turned?: HalfTurn;
}

export interface Screw {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A point (x′, y′) of the side stands on the plate at (x − x′, y − y′), and the other way about, mm. */
export interface HalfTurn {
  readonly x: number;
  readonly y: number;
}

/** Radius of the plate's four outer corners, mm. */
export const OUTER_CORNER = 6;

/** Radius that takes the edge off a finger's tip, mm; it stays in the nose. */
export const TIP_CORNER = 1.5;

/** Depth of the plate behind its openings: room for the fence's screws and the label, mm. */
export const SPINE = 55;

/** Plate left and right of the board, so that the router never tips at the ends, mm. */
const MARGIN = 45;

/** Plate that must stand beside an opening which runs past the board's edge, mm. */
const MIN_ARM = 15;

const SCREW_INSET = 12;
const SCREW_SPACING = 160;

/** Plate between the openings and the screws behind them, mm. */
const BEFORE_SCREWS = 5;

/** Depth that the marks of stops and edges take behind the openings, mm. */
const MARKS_DEPTH = 20;

/** The least spine that holds the screws and the marks; on a plate with two working edges, those of both. */
export function leastSpine({ plate }: TemplateOptions, { screw }: Holes): number {
  const one = Math.max(MARKS_DEPTH, SCREW_INSET + screw / 2 + BEFORE_SCREWS);
  return plate === 'one' ? 2 * one : one;
}

/** Waste that a bit leaves behind, mm², before it is spoken of: below what sandpaper does. */
const UNREACHED = 0.01;

export interface PlateRequest {
  readonly cut: Cut;
  readonly width: number;
  readonly options: TemplateOptions;
  readonly holes: Holes;
  readonly stock: PlateStock;
  /** Dotted path of the joint. */
  readonly at: string;
  /** true for the mirror image that a board's second end needs; `cut` is then mirrored already. */
  readonly mirrored: boolean;
  /** Whether boards stand at either stop. */
  readonly bothStops: boolean;
}

/** The plate of one cut, or every reason why there is none. */
export function buildPlate(request: PlateRequest): Result<Plate> {
  const { cut, width, options, holes, mirrored, bothStops } = request;
  const name = `finger-template-${cut.board}${mirrored ? '-mirrored' : ''}`;
  const openings = bushingOpening(cut.waste, cut.cutterRadius, cut.bushing.outside / 2);
  const frame = frameOf(openings, cut, options);
  const screws = screwsOf(frame, frame.maxY - SCREW_INSET, holes);
  const parts = difference([rectangle(frame.minX, frame.minY, frame.maxX, frame.maxY)], openings);
  const blanks = parts.filter((one) => isOuter(one));
  const [blank] = blanks;
  const diagnostics = [
    ...reachDiagnostics(name, request),
    ...lostDiagnostics(name, openings, request),
    ...besideWood(frame, cut, options, request.at),
    ...fingerDiagnostics(name, parts, frame, request),
    ...sheetDiagnostics(name, frame, request),
    ...(blanks.length === 1
      ? []
      : [diagnostic('plate-in-parts', 'refused', request.at, { template: name, parts: blanks.length })]),
  ];
  if (!blank || hasErrors(diagnostics)) return err(diagnostics);
  const outer = eased(blank, frame);
  const side: PlateSide = {
    cut,
    width,
    outline: outer,
    screws,
    box: frame,
    spineFrom: extents(...openings).maxY,
    referenceEdge: mirrored ? width : 0,
    bothStops,
  };
  const cutOut = cutOutOf(parts, screws);
  return ok({ ...side, name, holes: cutOut, pinHole: holes.pin, registers: [], sides: [side] }, diagnostics);
}

/** Everything inside the plate that is cut out. */
export function cutOutOf(parts: Region, screws: readonly Screw[]): readonly Outline[] {
  return [...parts.filter((one) => !isOuter(one)), ...screws.map((at) => circle(at, at.radius))];
}

/** The cut for a board's second end: the same waste seen from the other side. */
export function mirroredCut(cut: Cut, width: number): Cut {
  return {
    ...cut,
    waste: cut.waste.map((one) => mirrorX(one, width)),
    stock: cut.stock.map(({ board, outline }) => ({ board, outline: mirrorX(outline, width) })),
    ...(cut.secondStop && { secondStop: mirroredStop(cut.secondStop, width) }),
  };
}

function mirroredStop({ x, leaveOut }: SecondStop, width: number): SecondStop {
  return { x: -x, ...(leaveOut && { leaveOut: [width - leaveOut[1], width - leaveOut[0]] as const }) };
}

/** The boards where they lie under the plate, at the second stop, too. */
export function boardsUnder({ stock, secondStop }: Cut): Extents {
  const at = extents(...stock.map(({ outline }) => outline));
  const dx = secondStop?.x ?? 0;
  return { ...at, minX: Math.min(at.minX, at.minX + dx), maxX: Math.max(at.maxX, at.maxX + dx) };
}

// The plate's outline

export function frameOf(openings: Region, cut: Cut, options: TemplateOptions): Extents {
  const reach = extents(...openings);
  const boards = boardsUnder(cut);
  const past = Math.max(boards.minX - reach.minX, reach.maxX - boards.maxX, 0);
  const margin = options.margin ?? Math.max(MARGIN, past + MIN_ARM);
  return {
    minX: boards.minX - margin,
    maxX: boards.maxX + margin,
    minY: cut.nearEdge,
    maxY: reach.maxY + (options.spine ?? SPINE),
  };
}

export function isOuter(one: Outline): boolean {
  return area(one) > 0;
}

/** Takes the edge off the plate's corners and the finger tips; guiding edges are left alone. */
export function eased(outline: Outline, frame: Extents): Outline {
  return roundCorners(outline, (corner, turnsLeft) => {
    if (!turnsLeft) return 0;
    const atSide = corner.x < frame.minX + 1e-6 || corner.x > frame.maxX - 1e-6;
    if (atSide) return OUTER_CORNER;
    const atTip = corner.y < frame.minY + 1e-6 || corner.y > frame.maxY - 1e-6;
    return atTip ? TIP_CORNER : 0;
  });
}

/** A row of screw holes along the spine at height y, none where the diameter asked for is 0. */
export function screwsOf(frame: Extents, y: number, { screw }: Holes): readonly Screw[] {
  const radius = screw / 2;
  if (radius === 0) return [];
  const from = frame.minX + SCREW_INSET;
  const to = frame.maxX - SCREW_INSET;
  const gaps = Math.max(1, Math.ceil((to - from) / SCREW_SPACING));
  return Array.from({ length: gaps + 1 }, (_, i) => ({ x: from + ((to - from) * i) / gaps, y, radius }));
}

// What speaks against the plate

export function reachDiagnostics(template: string, { cut, at }: PlateRequest): readonly Diagnostic[] {
  if (cut.reachJudged) return [];
  const missed = intersection(
    unreachable(cut.waste, cut.cutterRadius),
    cut.stock.map(({ outline }) => outline),
  );
  const size = areaOfRegion(missed);
  if (size <= UNREACHED) return [];
  const { minX, minY } = extents(...missed);
  return [
    diagnostic('bit-cannot-reach', 'refused', at, {
      template,
      bit: cut.bit.name,
      area: size,
      x: minX,
      y: minY,
    }),
  ];
}

/**
 * Wood that no finger of the plate keeps the bit from: with δ = B/2 − r the openings, moved in by δ, are what is cut.
 * Where a finger is narrower than what the bushing asks for, nothing of it is left in the plate to be measured.
 */
export function lostDiagnostics(
  template: string,
  openings: Region,
  { cut, stock, at }: PlateRequest,
): readonly Diagnostic[] {
  const inside = cut.bushing.outside / 2 - cut.cutterRadius;
  if (cut.reachJudged || inside <= 0) return [];
  const boards = cut.stock.map(({ outline }) => outline);
  const lost = intersection(difference(offsetRegion(openings, -inside), cut.waste), boards);
  if (areaOfRegion(lost) <= UNREACHED) return [];
  const { minX: from, maxX: to } = extents(...lost);
  const data = { template, least: stock.leastFinger, tapers: false, from, to, width: 0 };
  return [diagnostic('finger-thin', 'refused', `${at}.bushing`, data)];
}

export function fingerDiagnostics(
  template: string,
  plate: Region,
  frame: Extents,
  request: PlateRequest,
): readonly Diagnostic[] {
  const { cut, stock, at } = request;
  const widths = fingersOf(plate, frame, cut.narrowestAt);
  const least = stock.leastFinger;
  const thinnest = widths.reduce((thin, one) => (one.width < thin.width ? one : thin), {
    from: 0,
    to: 0,
    width: Number.POSITIVE_INFINITY,
  });
  if (thinnest.width >= EASY_FINGER * least) return [];
  const level = thinnest.width < least - 1e-6 ? 'refused' : 'caution';
  return [
    diagnostic('finger-thin', level, `${at}.bushing`, {
      template,
      least,
      tapers: cut.tapers ?? false,
      ...thinnest,
    }),
  ];
}

/** The fingers, and the arms at both ends, where a line at height y crosses them. */
function fingersOf(plate: Region, frame: Extents, y: number) {
  // A hair inside the plate, so that the line does not run along its edge.
  const inside = y + 1e-3;
  return clipLine({ x: frame.minX - 1, y: inside }, { x: frame.maxX + 1, y: inside }, plate).map((part) => {
    const { minX, maxX } = extents(part);
    return { from: minX, to: maxX, width: maxX - minX };
  });
}

function sheetDiagnostics(
  template: string,
  frame: Extents,
  { stock, at }: PlateRequest,
): readonly Diagnostic[] {
  if (!stock.sheet) return [];
  const [sheetWidth, sheetHeight] = stock.sheet;
  const width = frame.maxX - frame.minX;
  const height = frame.maxY - frame.minY;
  if (fitsSheet(width, height, stock)) return [];
  return [
    diagnostic('plate-over-sheet', 'caution', at, { template, width, height, sheetWidth, sheetHeight }),
  ];
}

/** Whether a plate fits the sheet, either way round; true where the sheet's size is not known. */
export function fitsSheet(width: number, height: number, { sheet }: PlateStock): boolean {
  if (!sheet) return true;
  const [w, h] = sheet;
  return (width <= w && height <= h) || (width <= h && height <= w);
}
