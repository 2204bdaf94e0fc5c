import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { pieceSizes } from '../input/pieces.js';
import type { Piece } from '../input/types.js';
import { lipOf } from '../joints/boards.js';
import type { JointBoard } from '../joints/contract.js';
import type { Place } from '../set-up/ends.js';
import type { MadeJoint, PieceJoints } from './input.js';

/** One line of a cut list: parts of one size, ready for the joint. mm. */
export interface CutPart {
  readonly piece: string;
  /** Plain words: `side`, `front`. */
  readonly part: string;
  /** The letters chalked on the outside faces; none of a bottom. */
  readonly letters: string;
  readonly count: number;
  /** Cut besides: one of each kind, for trial cuts and accidents. */
  readonly spare: number;
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
  readonly material?: string;
  /** How the length comes about, in plain words. */
  readonly because: string;
}

/**
 * The parts of a piece from its finished outside size, with what the joint takes or needs at each end and what is sanded off
 * the outside faces afterwards.
 */
export function cutListOf({ piece: asked, letters, front, back }: PieceJoints): readonly CutPart[] {
  const sanded = 2 * (asked.sanding ?? 0);
  const piece = { ...asked, sides: asked.sides + sanded, ends: asked.ends + sanded };
  const [sides, ends] = boardsOf(front);
  const far = back ? boardsOf(back)[1] : undefined;
  const shared = { piece: piece.name, spare: 1 };
  const sideLength = piece.sides + reachOf(sides) + (back ? reachOf(boardsOf(back)[0]) : 0);
  const backBoard = far ?? sides;
  const lip = lipOf(front.solved);
  const alike = back !== undefined && back.joint.name === front.joint.name && !lip;
  const side: CutPart = {
    ...shared,
    part: 'side',
    letters: lettersAt(letters, 'right', 'left'),
    count: 2 * piece.count,
    ...sizeOf(sides, front.joint.width, sideLength),
    because: whySide(piece.kind, front, back),
  };
  const frontPart: CutPart = {
    ...shared,
    part: alike ? (piece.kind === 'case' ? 'top and bottom' : 'end') : 'front',
    letters: alike ? lettersAt(letters, 'front', 'back') : lettersAt(letters, 'front'),
    count: (alike ? 2 : 1) * piece.count,
    ...sizeOf(
      ends,
      front.joint.width + (lip?.lower ?? 0) + (lip?.upper ?? 0),
      piece.ends + 2 * reachOf(ends),
    ),
    because: whyEnd(ends),
  };
  const backPart: CutPart = {
    ...shared,
    part: 'back',
    letters: lettersAt(letters, 'back'),
    count: piece.count,
    ...sizeOf(
      backBoard,
      front.joint.width,
      far ? piece.ends + 2 * reachOf(far) : piece.ends - 2 * sides.material.thickness,
    ),
    because: far ? whyEnd(far) : 'between the sides',
  };
  return [
    side,
    frontPart,
    ...(alike ? [] : [backPart]),
    ...bottomOf({ piece, letters, front, ...(back && { back }) }),
  ];
}

/** `B, D, F, H`: of every copy. */
const lettersAt = (letters: PieceJoints['letters'], ...places: readonly Place[]): string =>
  letters.flatMap((one) => places.map((place) => one[place])).join(', ');

/** Parts of one wood and thickness taken together. */
export interface StockTotal {
  readonly thickness: number;
  readonly material?: string;
  /** Spares counted. */
  readonly parts: number;
  /** Of one face of all of them, mm². */
  readonly area: number;
}

/** What stock is wanted, by wood and thickness; no waste added. */
export function stockTotals(parts: readonly CutPart[]): readonly StockTotal[] {
  const keyOf = ({ material = '', thickness }: CutPart) => `${material} ${thickness.toFixed(3)}`;
  return [...new Set(parts.map(keyOf))].flatMap((key) => {
    const own = parts.filter((part) => keyOf(part) === key);
    const [first] = own;
    if (!first) return [];
    const pieces = (part: CutPart) => part.count + part.spare;
    return [
      {
        thickness: first.thickness,
        ...(first.material !== undefined && { material: first.material }),
        parts: own.reduce((sum, part) => sum + pieces(part), 0),
        area: own.reduce((sum, part) => sum + pieces(part) * part.width * part.length, 0),
      },
    ];
  });
}

/** What speaks against the pieces that have this joint at their corners: boards that leave no inside, or no corner. */
export function judgePieces(pieces: readonly Piece[], front: MadeJoint): readonly Diagnostic[] {
  const { name, kind } = front.joint;
  if (front.solved.setUp.at !== 'corners') {
    return pieces.flatMap((piece) =>
      (['corners', 'back'] as const)
        .filter((key) => piece[key] === name)
        .map((key) =>
          diagnostic('piece-no-corner', 'refused', `pieces.${piece.name}.${key}`, { joint: name, kind }),
        ),
    );
  }
  return pieces
    .filter(({ corners }) => corners === name)
    .flatMap((piece) => {
      const [sides, ends] = boardsOf(front);
      const names = pieceSizes[piece.kind];
      const checks = [
        { size: names.ends, outside: piece.ends, boards: 2 * sides.material.thickness },
        { size: names.sides, outside: piece.sides, boards: 2 * ends.material.thickness },
      ];
      return checks.flatMap(({ size, outside, boards }) => {
        const at = `pieces.${piece.name}.outside.${size}`;
        return outside > boards
          ? []
          : [diagnostic('piece-small', 'refused', at, { size, outside, boards, least: boards })];
      });
    });
}

/** The boards at a piece's sides, then those at its front and back. */
export function boardsOf({ solved }: MadeJoint): readonly [JointBoard, JointBoard] {
  const [first, second] = solved.boards;
  if (!first || !second) throw new Error(`the joint ${solved.name} does not tell of two boards`);
  return [first, second];
}

/** How far an end stands past the outside of the piece; below 0, short of it. */
export function reachOf({ reach }: JointBoard): number {
  return reach?.by ?? 0;
}

function sizeOf({ material }: JointBoard, width: number, length: number) {
  const { thickness } = material;
  return { thickness, width, length, ...(material.material && { material: material.material }) };
}

function whySide(kind: keyof typeof pieceSizes, front: MadeJoint, back: MadeJoint | undefined): string {
  const outside = `outside ${pieceSizes[kind].sides}`;
  const reaches = [front, ...(back ? [back] : [])].flatMap((one) => boardsOf(one)[0].reach ?? []);
  const [reach] = reaches;
  if (!reach) return `${outside} in full`;
  return `${outside} ${reach.by < 0 ? 'less' : 'and'} ${reaches.length > 1 ? reach.both : reach.one}`;
}

function whyEnd({ reach }: JointBoard): string {
  if (!reach) return 'outside width in full';
  return `outside width ${reach.by < 0 ? 'less' : 'and'} ${reach.both}`;
}

/** A bottom in grooves all round; none where the job gives no groove and no depth for it. */
function bottomOf({ piece, front, back }: PieceJoints): readonly CutPart[] {
  const groove = front.joint.layout.groove;
  if (!groove || piece.grooveDepth === undefined) return [];
  const [sides, ends] = boardsOf(front);
  const far = back ? boardsOf(back)[1] : sides;
  const into = 2 * piece.grooveDepth - piece.bottomClearance;
  return [
    {
      piece: piece.name,
      part: 'bottom',
      letters: '',
      count: piece.count,
      spare: 0,
      thickness: groove.width,
      width: piece.sides - ends.material.thickness - far.material.thickness + into,
      length: piece.ends - 2 * sides.material.thickness + into,
      because: 'inside size and both grooves, less the clearance',
    },
  ];
}
