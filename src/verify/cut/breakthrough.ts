import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Lip } from '../../joints/contract.js';
import {
  area,
  difference,
  extents,
  intersection,
  type Polygons,
  rectangle,
  runsAt,
  transposed,
} from './polygons.js';

/**
 * Where the bit comes out of the work, or into something that is none of the joint: the face or the lip of a
 * front, the fence behind the backing, the plate that guides it.
 */

/** The front of a drawer, whose face and lip are not to be cut. Lengths in mm. */
export interface Front {
  readonly board: string;
  readonly thickness: number;
  readonly lip?: Lip;
}

export interface SweptBoard {
  readonly board: string;
  readonly plate: Polygons;
  readonly stock: Polygons;
  /** Everything that the bit's tip sweeps near the work. */
  readonly swept: Polygons;
  readonly cutter: { readonly diameter: number; readonly angle: number; readonly height?: number };
  readonly bushing: number;
  readonly depth: number;
  /** What stands behind a board on end, before the fence: its thickness; absent where the report does not say. */
  readonly backing?: number;
}

/** Distances in mm; below 0 it comes through, or into, by that much. */
export interface Breakthrough {
  /** Wood left between the sockets' bottoms and the front's face. */
  readonly lap?: number;
  /** Room between the bit's tip and the lip, where it runs over it. */
  readonly overLip?: number;
  /** How far the bit runs on behind each board that stands on end, into its backing. */
  readonly intoBacking: Readonly<Record<string, number>>;
  /** What is left of the backing before the fence, where its thickness is known. */
  readonly toFence: Readonly<Record<string, number>>;
  /** How far the bit's edge stands out of its bushing where it rises above the work, into the plate. */
  readonly intoPlate: Readonly<Record<string, number>>;
}

/** A scrap of area smaller than this is what decimals leave, mm². */
const SCRAP = 0.01;

/** An edge that stands out of its bushing by less does no harm: that much play has a bushing in its bore, mm. */
const PLAY = 0.01;

/** A lap is refused from here down, mm: nothing that thin stays. */
const NO_LAP = 0.5;

export function breakthroughOf(
  boards: readonly SweptBoard[],
  width: number,
  front: Front | undefined,
): Breakthrough {
  const hidden = front && boards.find(({ board }) => board === front.board);
  const onEnd = boards.filter((board) => board !== hidden && Math.abs(extents(board.stock).maxY) < 1e-3);
  const behind = onEnd.map((board) => [board, reachBehind(board)] as const);
  return {
    ...(hidden && { lap: front.thickness - hidden.depth }),
    ...(hidden && overLip(hidden, width, front)),
    intoBacking: Object.fromEntries(behind.map(([{ board }, reach]) => [board, reach])),
    toFence: Object.fromEntries(
      behind.flatMap(([{ board, backing }, reach]) =>
        backing === undefined ? [] : [[board, backing - reach] as const],
      ),
    ),
    intoPlate: Object.fromEntries(
      boards.flatMap((board) => {
        const by = standsOut(board);
        return by > PLAY ? [[board.board, by] as const] : [];
      }),
    ),
  };
}

/** The lip lies a rabbet's depth below the joint, round the front: past its end and past both of its edges. */
function overLip({ stock, swept, depth }: SweptBoard, width: number, { lip }: Front) {
  if (!lip) return {};
  const joint = rectangle({ minX: 0, maxX: width, minY: 0, maxY: extents(stock).maxY });
  const lipPlan = difference(stock, [joint]);
  return area(intersection(swept, lipPlan)) > SCRAP ? { overLip: lip.rabbet - depth } : {};
}

/**
 * y of the farthest that the bit gets behind the back face at 0. An opening ends square or round; in its middle
 * the bushing comes to its very end.
 */
function reachBehind({ plate, stock, cutter, bushing }: SweptBoard): number {
  const { minX, maxX } = extents(stock);
  const turned = transposed(plate);
  const walls = runsAt(plate, 0);
  const ends = walls.slice(1).flatMap(([to], i) => {
    const middle = ((walls[i]?.[1] ?? to) + to) / 2;
    if (middle < minX || middle > maxX) return [];
    const end = runsAt(turned, middle).find(([from]) => from > 0)?.[0];
    return end === undefined ? [] : [end - bushing / 2 + cutter.diameter / 2];
  });
  return Math.max(0, ...ends);
}

/** By how much the cutting edge is wider than the bushing at the underside of the plate, if it rises that far. */
function standsOut({ cutter, depth, bushing }: SweptBoard): number {
  if (cutter.height === undefined || cutter.height <= depth) return 0;
  return cutter.diameter / 2 - depth * Math.tan(cutter.angle) - bushing / 2;
}

/** What comes through where nothing should. */
export function breakthroughDiagnostics(
  { lap, overLip: clear, toFence, intoPlate }: Breakthrough,
  at: string,
): readonly Diagnostic[] {
  return [
    ...(lap !== undefined && lap < NO_LAP ? [diagnostic('cut-through-face', 'refused', at, { lap })] : []),
    ...(clear !== undefined && clear < -1e-6
      ? [diagnostic('cut-into-lip', 'refused', at, { by: -clear })]
      : []),
    ...Object.entries(toFence)
      .filter(([, left]) => left < 0)
      .map(([board, left]) => diagnostic('cut-into-fence', 'refused', at, { board, by: -left })),
    ...Object.entries(intoPlate).map(([board, by]) =>
      diagnostic('cut-into-plate', 'refused', at, { board, by }),
    ),
  ];
}
