import { offsetRegion } from '../../geometry/offset.js';
import { areaOfRegion, extents, rectangle } from '../../geometry/outline.js';
import { intersection } from '../../geometry/regions/boolean.js';
import { mirrorX } from '../../geometry/transform.js';
import type { Extents, Region } from '../../geometry/types.js';
import { overhang } from '../../joints/nose.js';
import { standsOf } from '../marks.js';
import type { PlateSide } from '../plate.js';
import { mirroredExtents, mirroredScrew, mirroredSide, sweptUnder, type Under } from './geometry.js';
import { registerHoles } from './register.js';
import { type CarrierLayer, type CarrierPart, isPart, type LackingPart } from './types.js';

/** Stops beside the boards' reference edges, clear of the bit, and the spacer for a second cut. */

/** No stop is longer than this along the plate, mm. */
const LONGEST_STOP = 60;

/** Between a stop's end and the fence's face, mm. */
const FENCE_GAP = 0.5;

/** What a stop keeps clear of the bit, to the side and below its tip, mm: more than a bushing's play. Common practice, no source. */
const BIT_CLEAR = 1;

/** A stop reaches this far below where a rabbet begins, mm. */
const PAST_RABBET = 3;

/** What parts are made from: one side of a plate and what is under it. */
export interface SideRequest {
  readonly side: PlateSide;
  /** Which of the plate's sides it is. */
  readonly index: number;
  /** What there is of the sheet, in the side's coordinates. */
  readonly sheet: Region;
  readonly under: readonly Under[];
  /** Thickness of the sheet. */
  readonly thickness: number;
  /** Of the holes. */
  readonly radius: number;
  readonly words: readonly Extents[];
  /** Set where another side has such parts, too: names then say which board a part is for. */
  readonly shared: boolean;
}

export const mirroredRequest = (request: SideRequest): SideRequest => {
  const { width } = request.side;
  return {
    ...request,
    side: mirroredSide(request.side),
    sheet: request.sheet.map((one) => mirrorX(one, width)),
    under: request.under.map((one) => ({ ...one, at: mirroredExtents(one.at, width) })),
    words: request.words.map((one) => mirroredExtents(one, width)),
  };
};

/** The stops that boards stand against under a side, at one hand or at both, and the spacer where there are two cuts. */
export function stopParts(request: SideRequest): readonly (CarrierPart | LackingPart)[] {
  const { side, under } = request;
  const { bothStops, referenceEdge, width, cut } = side;
  const boards = under.map(({ board }) => board);
  const left =
    referenceEdge === 0 || bothStops
      ? boards.map((board) => leftStop(request, board, linesOf(side, board, 'left')))
      : [];
  const mirrored = mirroredRequest(request);
  const right =
    referenceEdge !== 0 || bothStops
      ? boards.map((board) => {
          const lines = linesOf(side, board, 'right').map((x) => width - x);
          return mirroredPart(leftStop(mirrored, board, lines), width);
        })
      : [];
  const second = cut.secondStop;
  return [...left, ...right, ...(second ? [spacer(Math.abs(second.x), request)] : [])];
}

/** Every x that a board's edge stands at, at one hand. */
const linesOf = (side: PlateSide, board: string, hand: 'left' | 'right'): readonly number[] =>
  standsOf(side)
    .filter((one) => one.board === board)
    .map((one) => one[hand]);

/** Where the left stop of a board lies: before the fence beside a board on end, behind the openings beside a flat one. */
function placeFor({ side, under }: SideRequest, board: string, lines: readonly number[]) {
  const [x, nearest] = [Math.min(...lines), Math.max(...lines)];
  const { box, cut } = side;
  const minX = Math.max(box.minX, x - LONGEST_STOP);
  const own = under.find((one) => one.board === board);
  const swept = sweptUnder(side);
  const [minY, maxY] =
    own?.posture === 'flat'
      ? [Math.max(side.spineFrom, extents(...swept).maxY) + BIT_CLEAR, box.maxY]
      : [cut.nearEdge + Math.max(0, overhang(cut.bit, cut.bushing) + BIT_CLEAR), -FENCE_GAP];
  const taken = intersection(offsetRegion(swept, BIT_CLEAR), [rectangle(minX, minY, nearest, maxY)]);
  const cleared = areaOfRegion(taken) > 1e-3 ? Math.min(x, extents(...taken).minX) : undefined;
  return { own, x, box: { minX, maxX: x, minY, maxY }, cleared };
}

function leftStop(request: SideRequest, board: string, lines: readonly number[]): CarrierPart | LackingPart {
  const { side, index, thickness, sheet, words, radius, under, shared } = request;
  const { own, x, box, cleared } = placeFor(request, board, lines);
  const about = {
    name: shared || under.length > 1 ? `left stop, ${board}` : 'left stop',
    role: 'stop' as const,
    side: index,
  };
  const upper = cleared === undefined ? box : { ...box, maxX: cleared };
  const pair =
    box.maxY > box.minY
      ? registerHoles({ plate: sheet, part: upper, screws: side.screws, words, radius })
      : undefined;
  if (!pair) return about;
  const whole = outlineOf(box);
  // Past the depth of the bit the stop touches the board; where it would be in the bit's way, layers above it are cut back.
  const above = cleared === undefined ? 0 : layersAbove(side, thickness);
  const rabbet = own?.lip && own.lip.lower > 0 ? own.lip.rabbet + PAST_RABBET : 0;
  const touching = Math.max(1, Math.ceil(rabbet / thickness - 1e-9) - above);
  const layers: readonly CarrierLayer[] = [
    ...(above > 0 ? [{ outline: outlineOf(upper), copies: above, from: 0, clear: true as const }] : []),
    { outline: whole, copies: touching, from: above * thickness },
  ];
  return { ...about, stop: 'left', board, edges: [{ axis: 'x', at: x }], layers, holes: pair };
}

const outlineOf = ({ minX, minY, maxX, maxY }: Extents) => rectangle(minX, minY, maxX, maxY);

/** As wide as the board is moved; it lies where the stop touches the board, below the bit. */
function spacer(wide: number, request: SideRequest): CarrierPart {
  const { side, index, thickness, under, shared } = request;
  const board = under[0]?.board ?? '';
  const { box, cleared } = placeFor(request, board, linesOf(side, board, 'left'));
  const outline = rectangle(0, 0, wide, Math.max(box.maxY - box.minY, MIN_SPACER));
  const from = cleared === undefined ? 0 : layersAbove(side, thickness) * thickness;
  const layers = [{ outline, copies: 1, from }];
  const name = shared ? `spacer, ${board}` : 'spacer';
  return { name, role: 'spacer', side: index, edges: [], layers, holes: [] };
}

/** Layers down to where the bit doesn't reach. */
const layersAbove = ({ cut }: PlateSide, thickness: number): number =>
  Math.ceil((cut.depth + BIT_CLEAR) / thickness - 1e-9);

/** A spacer shorter than this is too small to hold, mm. */
const MIN_SPACER = 40;

/** The image of a part about the middle of the width; `left` and `right` change places. */
export function mirroredPart<T extends CarrierPart | LackingPart>(part: T, width: number): T {
  const name = part.name.startsWith('left')
    ? part.name.replace('left', 'right')
    : part.name.replace('right', 'left');
  if (!isPart(part) || part.role === 'spacer') return { ...part, name };
  return {
    ...part,
    name,
    ...(part.stop && { stop: part.stop === 'left' ? 'right' : 'left' }),
    edges: part.edges.map((one) => (one.axis === 'x' ? { ...one, at: width - one.at } : one)),
    layers: part.layers.map((layer) => ({ ...layer, outline: mirrorX(layer.outline, width) })),
    holes: part.holes.map((one) => mirroredScrew(one, width)),
  };
}
