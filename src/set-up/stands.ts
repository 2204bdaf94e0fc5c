import { extents } from '../geometry/outline.js';
import type { Extents } from '../geometry/types.js';
import type { Bit, Bushing, Piece, Shop } from '../input/types.js';
import { boardOf } from '../joints/boards.js';
import type { BoardStand, Face, Hold } from '../joints/contract.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import { passDepths } from '../joints/measure.js';
import { ON_END } from '../joints/search/holds.js';
import { bitExtension } from '../joints/tools.js';
import type { FingerTemplate } from '../template/finger-template.js';
import type { PlateSide } from '../template/plate.js';
import { templateOf } from '../template/side-of.js';
import { type Corner, type End, endsOf, type PieceEnd, type Place, trialCorner } from './ends.js';

/**
 * How one end of one board is held for one cut, mm. Coordinates are those of the template's written file, with its parts laid
 * together: x to the operator's right, y away from the operator. See README.md for what each field means at the bench.
 */
export interface Stand {
  /** Place in the order of work, from 1; stands of one number are held and cut at once. */
  readonly order: number;
  /** The board's letter; of a joint that makes no corner the family's name for it, or the board's key. */
  readonly piece: string;
  readonly of?: string;
  readonly copy: number;
  /** This and `end`, `corner`: absent where the joint makes no corner. */
  readonly place?: Place;
  readonly end?: End;
  readonly corner?: Corner;
  readonly board: string;
  /** `finger-template-tails`, `finger-template-pins-mirrored`. */
  readonly template: string;
  /** The files of a template that is longer than the bed: a point (x, y) of a part's is the template's (x + shift, y). */
  readonly parts?: readonly { readonly template: string; readonly shift: number }[];
  /** `turned` where the plate lies upside down, its marks underneath: x of the file is at W − x. */
  readonly plateSide: 'up' | 'turned';
  /** Of a plate with two working edges, turned by half a turn in its plane: (x, y) of the file is at (x − x, y − y). */
  readonly placed?: { readonly x: number; readonly y: number };
  readonly posture: Hold['posture'];
  /** The face at y0; of a board that lies flat, the face upward. */
  readonly faceToOperator: Face;
  /** The reference edge is at x0, or at x1. */
  readonly referenceEdge: 'left-stop' | 'right-stop';
  /** Thickness of the spacer between the board and its stop, which is in `rect`; 0 for none. */
  readonly along: number;
  /** Thickness of the spacer between the board and what it is pushed back against, or forward to; in `rect`. */
  readonly across: number;
  /** Of a template that carries every second slot: which of an end's two cuts this is, and the mark its stop stays on. */
  readonly everySecond?: {
    readonly cut: 1 | 2;
    readonly mark: 1 | 2;
    /** From and to, along x: an opening, marked with a cross, that isn't used at this cut. */
    readonly leaveOut?: readonly [number, number];
  };
  readonly bit: Bit;
  readonly bushing: Bushing;
  /** How far the bit stands out below the router's base: plate and `depth`. */
  readonly extension: number;
  /** Of the bit's tip, below the surface that the plate lies on. */
  readonly depth: number;
  /** Depths of the passes in turn; the last is `depth`. */
  readonly passes: readonly number[];
  /** Past the near edge of the work and into every opening: against the turn of the bit. */
  readonly feed: 'left-to-right';
  /** The part of the board under the plate. */
  readonly rect: Rect;
}

export interface Rect {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** The stands of one joint in the order of work. */
export interface Stands {
  /** The corner that the trial joint is; absent where the joint makes none. */
  readonly trial?: Corner;
  readonly stands: readonly Stand[];
}

export interface StandsInput {
  readonly solved: SolvedJoint;
  readonly templates: readonly FingerTemplate[];
  readonly shop: Shop;
  /** All pieces of the job, for the letters of one don't come back in another. */
  readonly pieces: readonly Piece[];
}

/** The stand of every end of every board that has this joint; none where no template cuts it. */
export function standsOf(input: StandsInput): Stands {
  const { solved, pieces } = input;
  const { setUp } = solved;
  const held =
    setUp.at === 'boards'
      ? setUp.stands.flatMap((stand, i) => heldAsSaid(input, stand, i))
      : endsOf(solved, pieces).flatMap((end, i) => heldAtCorner(input, end, i));
  const trial = trialCorner(held.map(({ stand }) => stand));
  return { ...(trial && { trial }), stands: inOrder(held, solved) };
}

/** x of the stop's edge, mm: where the board would be without the spacer. */
export function stopAt({ referenceEdge, rect, along }: Pick<Stand, 'referenceEdge' | 'rect' | 'along'>) {
  return referenceEdge === 'left-stop' ? rect.x0 - along : rect.x1 + along;
}

// Where a board lies

/** A stand, and what puts it in order. */
interface HeldStand {
  readonly stand: Omit<Stand, 'order'>;
  readonly cut: Cut;
  /** Whether the board lies the other way around than its family says, for its second end. */
  readonly around: boolean;
  /** Where it stands among all of them; ends of one corner share it where both boards are cut at once. */
  readonly rank: number;
}

/**
 * A board that shows its outside face to the operator, left end up, has its reference edge at the left stop; with its right
 * end up, or its inside face shown, at the right one. Turned both ways, left again. Derivation: an outside face with the
 * reference edge down, turned clockwise by a quarter, has its left end up and its reference edge at the left. A board that
 * lies flat has its end toward the operator: left and right change once more.
 *
 * At the right stop the layout is met from its other end: by the same plate where it is its own mirror image, by the plate's
 * mirror image where the family wants one, else by a board that is turned around, whose reference edge is then at the left
 * again: its cuts go straight through.
 */
function heldAtCorner(input: StandsInput, end: PieceEnd, index: number): readonly HeldStand[] {
  const { solved } = input;
  const hold = boardOf(solved, end.board)?.hold ?? ON_END;
  const cut = cutOf(solved, end.board);
  if (!cut) return [];
  const changes = (hold.face === 'inside') !== (hold.posture === 'flat');
  const stop = changes ? otherEnd(end.end) : end.end;
  const rank = cut.stock.length > 1 ? index - (index % 2) : index;
  const lies = { ...end, posture: hold.posture };
  const near = stop === 'left' || solved.symmetric;
  if (near || cut.mirroredForSecondEnd) {
    const held = { face: faceShown(hold), stop, mirrored: !near };
    return heldUnder(input, { ...lies, ...held }, { cut, rank, around: false });
  }
  const around = { face: otherFace(faceShown(hold)), stop: 'left', mirrored: false } as const;
  return heldUnder(input, { ...lies, ...around }, { cut, rank, around: true });
}

/** A joint that makes no corner: as its family says. */
function heldAsSaid(input: StandsInput, stand: BoardStand, rank: number): readonly HeldStand[] {
  const { board, name, posture, stop, mirrored = false } = stand;
  const cut = cutOf(input.solved, board);
  const held = { piece: name ?? board, copy: 1, board, posture, face: faceShown(stand), stop, mirrored };
  return cut ? heldUnder(input, held, { cut, rank, around: false }) : [];
}

type Held = Pick<Stand, 'piece' | 'of' | 'copy' | 'place' | 'end' | 'corner' | 'board' | 'posture'> & {
  readonly face: Face;
  readonly stop: End;
  /** Whether the plate's mirror image is used. */
  readonly mirrored: boolean;
};

/** The stand under a cut's plate; two of them under one that carries every second slot. */
function heldUnder(
  { solved, templates, shop }: StandsInput,
  { face, stop, mirrored, ...end }: Held,
  place: Omit<HeldStand, 'stand'>,
): readonly HeldStand[] {
  const { cut } = place;
  const own = templateOf(templates, cut);
  const used = own && mirrored ? mirrorImageOf(templates, own) : own;
  if (!used) return [];
  const { template, side } = used;
  const { parts } = template;
  const { secondStop } = side.cut;
  const at = placeUnder(solved, side, end.board, stop);
  if (!at) return [];
  const stand = {
    ...end,
    template: template.plate.name,
    ...(parts && { parts: parts.map(({ name, shift }) => ({ template: name, shift })) }),
    plateSide: 'up',
    ...(side.turned && { placed: side.turned }),
    faceToOperator: face,
    referenceEdge: stop === 'left' ? 'left-stop' : 'right-stop',
    bit: cut.bit,
    bushing: cut.bushing,
    extension: bitExtension(shop, cut.depth),
    depth: cut.depth,
    passes: passDepths(cut),
    feed: 'left-to-right',
    across: 0,
  } as const;
  if (!secondStop) return [{ stand: { ...stand, along: 0, rect: rectOf(at, 0) }, ...place }];
  // The stop stays where the board is nearer to it, and a spacer takes up the rest.
  const shifts = [0, secondStop.x];
  const nearest = stop === 'left' ? Math.min(...shifts) : Math.max(...shifts);
  const mark = nearest === 0 ? 1 : 2;
  return shifts.map((shift, i) => ({
    stand: {
      ...stand,
      along: Math.abs(shift - nearest),
      everySecond: {
        cut: i === 0 ? 1 : 2,
        mark,
        ...(i > 0 && secondStop.leaveOut && { leaveOut: secondStop.leaveOut }),
      },
      rect: rectOf(at, shift),
    },
    ...place,
  }));
}

const cutOf = ({ cuts }: SolvedJoint, board: string): Cut | undefined =>
  cuts.find(({ stock }) => stock.some((one) => one.board === board));

/** The same working edge of the plate's mirror image. */
function mirrorImageOf(
  templates: readonly FingerTemplate[],
  { template: { plate }, side }: { readonly template: FingerTemplate; readonly side: PlateSide },
) {
  const template = templates.find((one) => one.plate.name === `${plate.name}-mirrored`);
  const mirrored = template?.plate.sides[plate.sides.indexOf(side)];
  return template && mirrored && { template, side: mirrored };
}

/**
 * Where a board lies under a plate: as drawn, and at the other stop mirrored about the middle of the layout's own place, which
 * moves a front whose lips are unlike.
 */
function placeUnder(
  solved: SolvedJoint,
  { cut, referenceEdge }: PlateSide,
  board: string,
  stop: End,
): Extents | undefined {
  const stock = cut.stock.find((one) => one.board === board);
  if (!stock) return undefined;
  const at = extents(stock.outline);
  const drawnAt: End = referenceEdge === 0 ? 'left' : 'right';
  if (stop === drawnAt) return at;
  const ends = 2 * (boardOf(solved, board)?.wanted?.x ?? 0) + solved.width;
  return { ...at, minX: ends - at.maxX, maxX: ends - at.minX };
}

const rectOf = ({ minX, maxX, minY, maxY }: Extents, shift: number): Rect => ({
  x0: minX + shift,
  x1: maxX + shift,
  y0: minY,
  y1: maxY,
});

/** The face toward the operator, or upward. */
const faceShown = ({ face, shows }: Hold): Face => (shows === 'down' ? otherFace(face) : face);

const otherFace = (face: Face): Face => (face === 'outside' ? 'inside' : 'outside');

const otherEnd = (end: End): End => (end === 'left' ? 'right' : 'left');

// The order of work

/**
 * The set-up of the joint's last cut stands when the trial joint fits, so its work comes first. Under one cut the plate is
 * changed least, then the stop, then the face, then the spacer.
 */
function inOrder(held: readonly HeldStand[], { cuts }: SolvedJoint): readonly Stand[] {
  const keyed = held
    .map(({ stand, cut, around, rank }) => {
      const { template, referenceEdge, everySecond } = stand;
      const key = [-cuts.indexOf(cut), template, referenceEdge, Number(around), everySecond?.cut ?? 0, rank];
      return { stand, key };
    })
    .toSorted((one, other) => compare(one.key, other.key));
  let order = 0;
  return keyed.map(({ stand, key }, i) => {
    const before = keyed[i - 1];
    if (!before || compare(before.key, key) !== 0) order += 1;
    return { order, ...stand };
  });
}

function compare(one: readonly (string | number)[], other: readonly (string | number)[]): number {
  for (const [i, value] of one.entries()) {
    const against = other[i] ?? value;
    if (value < against) return -1;
    if (value > against) return 1;
  }
  return 0;
}
