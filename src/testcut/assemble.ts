import { type Finding, finding, given, isRefused, type Result, refused } from '../findings/finding.js';
import {
  assembleCrossed,
  type CrossedBoard,
  type CrossedJoint,
  type CrossedLevel,
  type GlueLine,
} from './crossed.js';
import { area, type Box, difference, evenOdd, extents, type Polygons, union } from './polygons.js';
import type { WrittenDrawing } from './read.js';
import type { Cutter, Stops } from './route.js';
import { assembleSunk } from './sunk.js';

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
  readonly drawing: WrittenDrawing;
  /** Where the board is held in turn, if not only with its reference edge at 0. */
  readonly stops?: Stops;
}

export interface TestCutRequest {
  readonly joint: string;
  readonly kind: string;
  /** Joint width. */
  readonly width: number;
  readonly boards: readonly TestCutBoard[];
  /** true where square tails are pared by hand to the round of their sockets; see sunk.ts. */
  readonly pared?: boolean;
  /** Number of levels, nine unless said. */
  readonly levels?: number;
}

/** Where something is worst: x from the reference edge, z from the first board's end. */
export interface Place {
  readonly x: number;
  readonly z: number;
}

/** What a pin, tail or finger has between both of its walls, mm, below 0 where it is too wide: the pair's slack. */
export interface Play {
  readonly play: number;
  readonly at: Place;
}

export interface TestCutLevel {
  readonly z: number;
  readonly gap: number;
  readonly overlap: number;
}

/** What the joint turned out to be. Widths and lengths in mm, areas in mm². */
export interface TestCut {
  /** The widest gap and overlap of any level, as thickness across the glue line in the plane of the level. */
  readonly worstGap: number;
  readonly worstOverlap: number;
  readonly gapAt?: Place;
  readonly overlapAt?: Place;
  readonly levels: readonly TestCutLevel[];
  /** The least and the most play of any pin, tail or finger; absent where the boards have no upright walls. */
  readonly tightest?: Play;
  readonly loosest?: Play;
  /** Long grain against long grain. */
  readonly glueArea: number;
  /** Shoulders and socket bottoms, end grain. */
  readonly shoulderArea: number;
  /** How far each board's end stands out of the other's face when the shoulders touch: below 0 it stands back. */
  readonly proud: Readonly<Record<string, number>>;
  /** The levels as polygons, for the picture. */
  readonly sections: readonly CrossedLevel[];
}

/** Levels at which boards are compared when nothing else is asked. */
export const USUAL_LEVELS = 9;

/** How far the drawn board may differ from the job's, mm: written coordinates are rounded. */
const SAME_SIZE = 0.002;

/** The first and second board of each kind whose boards cross at the corner (see crossed.ts). */
const CROSSED: Readonly<Record<string, readonly [string, string]>> = {
  'through-dovetail': ['tails', 'pins'],
  box: ['one', 'two'],
};

/** The board that goes into the other's sockets, and the one that has them (see sunk.ts). */
const SUNK: Readonly<Record<string, readonly [string, string]>> = {
  'half-blind-dovetail': ['tails', 'pins'],
};

/** Kinds of joint that can be cut and assembled on paper. */
export function canTestCut(kind: string): boolean {
  return kind in CROSSED || kind in SUNK;
}

/**
 * Cuts both boards of a joint on paper under their written templates, closes the joint and measures it.
 * Refuses drawings whose board is not the job's size, and boards that no bit reaches. A kind that
 * `canTestCut` does not know, or a board missing from the request, is a mistake of the caller's.
 */
export function testCut(request: TestCutRequest): Result<TestCut> {
  const names = CROSSED[request.kind] ?? SUNK[request.kind];
  if (!names) throw new Error(`no test cut for joints of kind "${request.kind}"`);
  const first = boardNamed(request, names[0]);
  const second = boardNamed(request, names[1]);
  const crossed = request.kind in CROSSED;
  // A board that lies flat, or half a pitch along, has its rectangle from the report.
  const findings = !crossed ? [] : [first, second].flatMap((board) => stockFindings(request, board));
  if (isRefused(findings)) return refused(findings);
  const joint = assembled(request, crossedBoard(first), crossedBoard(second));
  const uncut = [
    ...(joint.levels.every((level) => isWhole(level.first, level.second)) ? [first] : []),
    ...(joint.levels.every((level) => isWhole(level.second, level.first)) ? [second] : []),
  ].map(({ board, bushing, drawing }) => finding('board-uncut', 'refused', drawing.name, { board, bushing }));
  return uncut.length > 0
    ? refused(uncut)
    : given(
        {
          ...reportOf(joint, crossed ? proudOf(first, second) : {}),
          ...extremesOf(joint.levels.flatMap(playsOf)),
        },
        findings,
      );
}

function assembled(
  { kind, width, levels = USUAL_LEVELS, pared }: TestCutRequest,
  first: CrossedBoard,
  second: CrossedBoard,
): CrossedJoint {
  if (kind in SUNK) return assembleSunk(width, first, second, levels, pared);
  return assembleCrossed(width, first, second, levels);
}

/** true when a board fills its frame, so that all of the other board is in its way. */
function isWhole(board: Polygons, other: Polygons): boolean {
  return area(difference(other, board)) === 0;
}

function boardNamed(request: TestCutRequest, name: string): TestCutBoard {
  const board = request.boards.find((one) => one.board === name);
  if (!board) throw new Error(`a ${request.kind} joint needs a board "${name}"`);
  return board;
}

function crossedBoard({ drawing, cutter, bushing, depth, thickness, stops }: TestCutBoard): CrossedBoard {
  return {
    plate: evenOdd(drawing.layers.CUT ?? []),
    stock: stockOf(drawing),
    cutter,
    bushing,
    depth,
    thickness,
    stops: stops ?? { at: [0] },
  };
}

function stockOf(drawing: WrittenDrawing) {
  return union(evenOdd(drawing.layers.STOCK ?? []));
}

/** The drawn board has the joint's width, from 0, and the board's thickness, to 0 where the fence stands. */
function stockFindings(request: TestCutRequest, board: TestCutBoard): readonly Finding[] {
  const box: Box = extents(stockOf(board.drawing));
  const sides = [
    { side: 'width', read: box.maxX - box.minX, wanted: request.width },
    { side: 'thickness', read: box.maxY - box.minY, wanted: board.thickness },
    { side: 'reference edge', read: box.minX, wanted: 0 },
    { side: 'back face', read: box.maxY, wanted: 0 },
  ];
  return sides
    .filter(({ read, wanted }) => Math.abs(read - wanted) > SAME_SIZE)
    .map(({ side, read, wanted }) =>
      finding('stock-differs', 'refused', board.drawing.name, { side, read, wanted }),
    );
}

/** How far each end stands out of the other board when the shoulders touch. */
function proudOf(first: TestCutBoard, second: TestCutBoard): TestCut['proud'] {
  return {
    [first.board]: first.depth - second.thickness,
    [second.board]: second.depth - first.thickness,
  };
}

function reportOf(joint: CrossedJoint, proud: TestCut['proud']): TestCut {
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
    proud,
    sections: levels,
  };
}

function extremesOf(plays: readonly Play[]): Pick<TestCut, 'tightest' | 'loosest'> {
  const sorted = [...plays].sort((one, two) => one.play - two.play);
  const [tightest, loosest] = [sorted[0], sorted.at(-1)];
  return tightest && loosest ? { tightest, loosest } : {};
}

/** A piece at the board's edge has one wall: its play is twice the gap there, as if it had the other. */
function playsOf({ z, glueLines }: CrossedLevel): readonly Play[] {
  const pieces = new Set(glueLines.map(({ piece }) => piece));
  return [...pieces].map((piece) => {
    const lines = glueLines.filter((line) => line.piece === piece);
    const mean = (of: (line: GlueLine) => number): number =>
      lines.reduce((sum, line) => sum + of(line), 0) / lines.length;
    return { play: 2 * mean(({ gap }) => gap), at: { x: mean(({ x }) => x), z } };
  });
}

function worstOf(levels: readonly CrossedLevel[], what: 'gap' | 'overlap') {
  let worst: { width: number; at?: Place } = { width: 0 };
  for (const level of levels) {
    const { width, at } = level[what];
    if (at && width > worst.width) worst = { width, at: { x: at.x, z: level.z } };
  }
  return worst;
}
