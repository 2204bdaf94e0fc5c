import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Assembly, WantedWaste } from '../joints/contract.js';
import { type Breakthrough, breakthroughOf, type Front } from './cut/breakthrough.js';
import { assembleCrossed } from './cut/crossed.js';
import type { ClosedJoint, ClosedLevel, GlueLine } from './cut/level.js';
import { assemblePlaced } from './cut/placed.js';
import { area, type Box, difference, evenOdd, extents, type Polygons, union } from './cut/polygons.js';
import { type Cutter, centresAtStops, cutAt, type RoutedBoard, type Stops } from './cut/route.js';
import { crossedSeat, type Seat, type Way } from './cut/seat.js';
import { type Strength, strengthOf, thinnestWood } from './cut/strength.js';
import { assembleSunk } from './cut/sunk.js';
import { type LaidSpan, type Unreached, unreachedBy } from './cut/unreached.js';
import type { WrittenDrawing } from './files/read.js';

/** One board's cut: what the report says of it and the written template it is routed under. Lengths in mm, angles in radians. */
export interface TestCutBoard {
  /** `tails`, `pins`, `one` or `two`. */
  readonly board: string;
  readonly cutter: Cutter;
  /** Outside diameter of the bushing. */
  readonly bushing: number;
  /** Depth of cut below the surface that the template lies on. */
  readonly depth: number;
  readonly thickness: number;
  /** Where the board lies under its template, as the report has it. */
  readonly rectangle?: Box;
  readonly drawing: WrittenDrawing;
  /** Where the board is held in turn, if not only with its reference edge at 0. */
  readonly stops?: Stops;
  /** Thickness of the backing behind a board on end, before the fence. */
  readonly backing?: number;
}

export interface TestCutRequest {
  readonly joint: string;
  readonly assembly: Assembly;
  /** Joint width. */
  readonly width: number;
  readonly boards: readonly TestCutBoard[];
  /** Spans at the baseline; without them nothing is said of what the bit could not reach. */
  readonly layout?: readonly LaidSpan[];
  /** What the joint wants away from each board; nothing is looked for where it does not say. */
  readonly wanted?: Readonly<Record<string, WantedWaste>>;
  /** The front whose sockets hide behind its face. */
  readonly front?: Front;
  /** No template finger may be thinner. */
  readonly leastFinger?: number;
  /** Number of levels, nine unless said. */
  readonly levels?: number;
}

/** Where something is worst: x from the reference edge, z from the first board's end. */
export interface CutPlace {
  readonly x: number;
  readonly z: number;
}

/** What a pin, tail or finger has between both of its walls, mm, below 0 where it is too wide: the pair's slack. */
export interface Play {
  readonly play: number;
  readonly at: CutPlace;
}

export interface TestCutLevel {
  readonly z: number;
  readonly gap: number;
  readonly overlap: number;
}

/** What the joint turned out to be. Widths and lengths in mm, areas in mm². */
export interface TestCut extends Seat {
  /** The widest gap and overlap of any level, as thickness across the glue line in the plane of the level. */
  readonly worstGap: number;
  readonly worstOverlap: number;
  readonly gapAt?: CutPlace;
  readonly overlapAt?: CutPlace;
  readonly levels: readonly TestCutLevel[];
  /** The least and the most play of any pin, tail or finger; absent where the boards have no upright walls. */
  readonly tightest?: Play;
  readonly loosest?: Play;
  /** Long grain against long grain. */
  readonly glueArea: number;
  /** Shoulders and socket bottoms, end grain. */
  readonly shoulderArea: number;
  /** Of boards that are placed, z counts from the first one's upper face, and nothing is a pair with play. */
  readonly way: Way;
  /** Wood that the layout wants away and that the bit left in its corners, of each board, at the bit's tip. */
  readonly unreached: Readonly<Record<string, Unreached>>;
  readonly strength: Strength;
  readonly breakthrough: Breakthrough;
  /** Names of the boards that each level's `first` and `second` are of. */
  readonly boards: readonly [first: string, second: string];
  /** The levels as polygons, for the picture. */
  readonly sections: readonly ClosedLevel[];
}

/** Levels at which boards are compared when nothing else is asked. */
export const DEFAULT_LEVELS = 9;

/** How far the drawn board may differ from the job's, mm: written coordinates are rounded. */
const SAME_SIZE = 0.002;

/**
 * Cuts both boards of a joint on paper under their written templates, closes the joint and measures it.
 * Refuses drawings whose board is not the job's size, and boards that no bit reaches. A board missing from the request
 * is a mistake of the caller's.
 */
export function testCut(request: TestCutRequest): Result<TestCut> {
  const { assembly } = request;
  const { way, boards } = assembly;
  const first = boardNamed(request, boards[0]);
  const second = isUncut(assembly) ? undefined : boardNamed(request, boards[1]);
  const diagnostics = [first, ...(second ? [second] : [])].flatMap((board) =>
    stockDiagnostics(request, way, board),
  );
  if (hasErrors(diagnostics)) return err(diagnostics);
  const routedFirst = routedBoard(first);
  const routed = second && ([second, routedBoard(second)] as const);
  const joint = assembled(request, routedFirst, routed?.[1]);
  const uncut = [
    ...(joint.levels.every((level) => isWhole(level.first, level.second)) ? [first] : []),
    ...(second && joint.levels.every((level) => isWhole(level.second, level.first)) ? [second] : []),
  ].map(({ board, bushing, drawing }) =>
    diagnostic('board-uncut', 'refused', drawing.name, { board, bushing }),
  );
  return uncut.length > 0
    ? err(uncut)
    : ok(
        {
          ...reportOf(joint),
          boards,
          way,
          ...(way === 'placed' || !routed
            ? {
                ...FLAT,
                unreached: unreachedOf(request, [[first, routedFirst], ...(routed ? [routed] : [])]),
              }
            : aroundJoint(request, way, joint, [first, routedFirst], routed)),
        },
        diagnostics,
      );
}

/** Of boards that lie flat nothing stands out, hides, or is a finger; what a bend leaves shows as an overlap. */
const FLAT = {
  proud: {},
  strength: {},
  breakthrough: { intoBacking: {}, toFence: {}, intoPlate: {} },
} as const;

type Routed = readonly [asked: TestCutBoard, cut: RoutedBoard];

/** What is measured beside gaps and overlaps: seat, corners left, strength, and where the bit comes through. */
function aroundJoint(request: TestCutRequest, way: Way, joint: ClosedJoint, first: Routed, second: Routed) {
  const { width, front, leastFinger } = request;
  const both = [first, second].map(([asked, cut]) => ({
    ...asked,
    plate: cut.plate,
    stock: cut.stock,
    swept: cutAt(cut.centres, cut.cutter.diameter / 2),
  }));
  const slope = Math.max(...both.map(({ cutter }) => Math.tan(cutter.angle)));
  const wood = thinnestWood(joint.levels, [first[0].board, second[0].board], joint.woodLines);
  return {
    ...extremesOf(joint.levels.flatMap(playsOf)),
    ...(way === 'sunk' ? sunkSeat(joint, first[0], second[0]) : crossedSeat(first[0], second[0])),
    unreached: unreachedOf(request, [first, second]),
    strength: strengthOf(
      // Pins that a straight bit cuts taper as the dovetail bit's tails do; other fingers have straight sides.
      both.map((one) => ({ ...one, taper: one.cutter.angle === 0 ? 2 * slope : 0 })),
      wood,
      leastFinger,
    ),
    breakthrough: breakthroughOf(both, width, front),
  };
}

/** What the bit left of the waste that the joint's layout wants away. */
function unreachedOf({ layout, wanted }: TestCutRequest, boards: readonly Routed[]): TestCut['unreached'] {
  return Object.fromEntries(
    boards.flatMap(([{ board }, { stock, centres, cutter }]) => {
      const waste = wanted?.[board];
      if (!layout || !waste) return [];
      const left = difference(stock, cutAt(centres, cutter.diameter / 2));
      return [[board, unreachedBy({ board, stock, left, cutter }, { layout, waste })]];
    }),
  );
}

function sunkSeat({ pastEnds }: ClosedJoint, side: TestCutBoard, front: TestCutBoard): Seat {
  return {
    proud: pastEnds === undefined ? {} : { [side.board]: pastEnds },
    underTails: front.depth - side.depth,
  };
}

function assembled(
  { width, levels = DEFAULT_LEVELS, assembly }: TestCutRequest,
  first: RoutedBoard,
  second: RoutedBoard | undefined,
): ClosedJoint {
  if (assembly.way === 'placed') return assemblePlaced(first, second, levels, assembly);
  if (!second) throw new Error('both boards of such a joint are cut');
  if (assembly.way === 'sunk') return assembleSunk(width, first, second, levels, assembly.pared);
  return assembleCrossed(width, first, second, levels);
}

/** Whether the second board is one that no template cuts. */
export function isUncut(assembly: Assembly): boolean {
  return assembly.way === 'placed' && 'uncut' in assembly.second;
}

/** true when a board fills its frame, so that all of the other board is in its way. */
function isWhole(board: Polygons, other: Polygons): boolean {
  return area(difference(other, board)) === 0;
}

function boardNamed(request: TestCutRequest, name: string): TestCutBoard {
  const board = request.boards.find((one) => one.board === name);
  if (!board) throw new Error(`the joint ${request.joint} needs a board "${name}"`);
  return board;
}

/** A board as its written template lets the router at it. */
export function routedBoard({
  drawing,
  cutter,
  bushing,
  depth,
  thickness,
  stops,
}: TestCutBoard): RoutedBoard {
  const plate = evenOdd(drawing.layers.CUT ?? []);
  const stock = stockOf(drawing);
  const at = stops ?? { at: [0] };
  const centres = centresAtStops(plate, stock, bushing, cutter.diameter / 2, at);
  return { plate, stock, cutter, bushing, depth, thickness, stops: at, centres };
}

function stockOf(drawing: WrittenDrawing) {
  return union(evenOdd(drawing.layers.STOCK ?? []));
}

/**
 * The drawn board is where the report says. Where that is not known, one that crosses the other has the joint's
 * width, from 0, and the board's thickness, to 0 where the fence stands.
 */
function stockDiagnostics({ width }: TestCutRequest, way: Way, board: TestCutBoard): readonly Diagnostic[] {
  const { thickness, drawing, rectangle } = board;
  const box: Box = extents(stockOf(drawing));
  const onEnd: Box = { minX: 0, maxX: width, minY: -thickness, maxY: 0 };
  const wanted = rectangle ?? (way === 'crossed' ? onEnd : box);
  const sides = [
    { side: 'width', read: box.maxX - box.minX, wanted: wanted.maxX - wanted.minX },
    { side: 'thickness', read: box.maxY - box.minY, wanted: wanted.maxY - wanted.minY },
    { side: 'reference edge', read: box.minX, wanted: wanted.minX },
    { side: 'back face', read: box.maxY, wanted: wanted.maxY },
  ];
  return sides
    .filter(({ read, wanted }) => Math.abs(read - wanted) > SAME_SIZE)
    .map(({ side, read, wanted }) =>
      diagnostic('stock-differs', 'refused', board.drawing.name, { side, read, wanted }),
    );
}

function reportOf(joint: ClosedJoint) {
  const { levels, sideArea, shoulderArea } = joint;
  const gap = worstOf(levels, 'gap');
  const overlap = worstOf(levels, 'overlap');
  return {
    worstGap: gap.width,
    worstOverlap: overlap.width,
    ...(gap.at ? { gapAt: gap.at } : {}),
    ...(overlap.at ? { overlapAt: overlap.at } : {}),
    levels: levels.map((level) => ({
      z: level.z,
      gap: level.gap.width,
      overlap: level.overlap.width,
    })),
    glueArea: sideArea,
    shoulderArea,
    sections: levels,
  };
}

function extremesOf(plays: readonly Play[]): Pick<TestCut, 'tightest' | 'loosest'> {
  const sorted = [...plays].sort((one, two) => one.play - two.play);
  const [tightest, loosest] = [sorted[0], sorted.at(-1)];
  return tightest && loosest ? { tightest, loosest } : {};
}

/** A piece at the board's edge has one wall: its play is twice the gap there, as if it had the other. */
function playsOf({ z, glueLines }: ClosedLevel): readonly Play[] {
  const pieces = new Set(glueLines.map(({ piece }) => piece));
  return [...pieces].map((piece) => {
    const lines = glueLines.filter((line) => line.piece === piece);
    const mean = (of: (line: GlueLine) => number): number =>
      lines.reduce((sum, line) => sum + of(line), 0) / lines.length;
    return { play: 2 * mean(({ gap }) => gap), at: { x: mean(({ x }) => x), z } };
  });
}

function worstOf(levels: readonly ClosedLevel[], what: 'gap' | 'overlap') {
  let worst: { width: number; at?: CutPlace } = { width: 0 };
  for (const level of levels) {
    const { width, at } = level[what];
    if (at && width > worst.width) worst = { width, at: { x: at.x, z: level.z } };
  }
  return worst;
}
