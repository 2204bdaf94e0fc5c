import { extents } from '../geometry/outline.js';
import { boardOf } from '../joints/boards.js';
import type { Hold } from '../joints/contract.js';
import type { Cut, SolvedJoint } from '../joints/family.js';
import type { SheetInput } from './input.js';
import { sideOf } from './sides.js';

export type End = 'left' | 'right';
export type Corner = 1 | 2 | 3 | 4;

/** How one end of one board is held under its template. */
export interface Stand extends Hold {
  /** `tails`, `pins`, `one` or `two`. */
  readonly board: string;
  /** Written on the outside face: A front, B right, C back, D left. */
  readonly letter: 'A' | 'B' | 'C' | 'D';
  /** As seen on the outside face with the reference edge down. */
  readonly end: End;
  /** Seen from above with the reference edges down: 1 front left, 2 front right, 3 back right, 4 back left. */
  readonly corner: Corner;
  /** The pieces that have the joint at this corner; empty where the job gives no piece. */
  readonly pieces: readonly string[];
  /** Where the reference edge is. */
  readonly stop: End;
  /** Absent where the joint is cut by hand. */
  readonly template?: string;
  /** true when the plate is turned by half a turn, so that its far edge faces the operator. */
  readonly halfTurned: boolean;
  /** Set where a plate that carries every second slot cuts the board twice. */
  readonly twice?: TwoCuts;
}

/** A stop that stays, and a spacer before it for one of two cuts. */
export interface TwoCuts {
  /** Which of the two marks of this side the stop stays on: the one that is farther from the board. */
  readonly stopAt: 1 | 2;
  /** mm; between stop and board. */
  readonly spacer: number;
  /** The cut that the spacer is in place for. */
  readonly spacerFor: 1 | 2;
  /** true when an opening, marked with a cross, is left out at the second cut. */
  readonly leaveOut: boolean;
}

/**
 * Where the ends meet: tail boards (board one) are B and D, pin boards (board two) A and C. Left and right ends
 * are those of the outside face with the reference edge down, so the left ends of A, B, C, D are at corners 1 to 4.
 */
const meetings: Readonly<Record<Corner, { readonly first: Place; readonly second: Place }>> = {
  1: { first: { letter: 'D', end: 'right' }, second: { letter: 'A', end: 'left' } },
  2: { first: { letter: 'B', end: 'left' }, second: { letter: 'A', end: 'right' } },
  3: { first: { letter: 'B', end: 'right' }, second: { letter: 'C', end: 'left' } },
  4: { first: { letter: 'D', end: 'left' }, second: { letter: 'C', end: 'right' } },
};

type Place = Pick<Stand, 'letter' | 'end'>;

const FRONT: readonly Corner[] = [1, 2];
const BACK: readonly Corner[] = [3, 4];

/** The stand of every end of both boards, by corner. */
export function standsOf(input: SheetInput): readonly Stand[] {
  const [first = '', second = ''] = input.solved.boards.map(({ board }) => board);
  return cornersOf(input).flatMap(({ corner, pieces }) =>
    [[first, meetings[corner].first] as const, [second, meetings[corner].second] as const].map(
      ([board, place]): Stand => ({ board, ...place, corner, pieces, ...holdOf(input, board, place.end) }),
    ),
  );
}

/** The corners that have this joint; without pieces, those that its family says. */
export function cornersOf({ joint, solved, pieces }: SheetInput): readonly {
  readonly corner: Corner;
  readonly pieces: readonly string[];
}[] {
  if (pieces.length === 0) {
    const corners =
      solved.setUp.at === 'corners' && solved.setUp.corners === 'all' ? [...FRONT, ...BACK] : FRONT;
    return corners.map((corner) => ({ corner, pieces: [] }));
  }
  const at = (corners: readonly Corner[], has: (one: (typeof pieces)[number]) => boolean) => {
    const names = pieces.filter(has).map(({ piece }) => piece.name);
    return names.length === 0 ? [] : corners.map((corner) => ({ corner, pieces: names }));
  };
  return [
    ...at(FRONT, ({ front }) => front.joint.name === joint.name),
    ...at(BACK, ({ back }) => back?.joint.name === joint.name),
  ];
}

/** How a board is held, in words; of an asymmetric layout, for the first of its ends. */
export function lieWords(solved: SolvedJoint, board: string): string {
  const hold = boardOf(solved, board)?.hold;
  return hold ? faceWords(hold) : '';
}

/** `outside face toward you`, `inside face up`. */
export function faceWords({ face, shows }: Pick<Hold, 'face' | 'shows'>): string {
  return `${face} face ${shows}`;
}

/** A board whose family does not say how it is held: none that stands at a corner. */
const USUAL: Hold = { posture: 'on end', face: 'outside', shows: 'toward you' };

/**
 * A board that shows its outside face to the operator, left end up, has its reference edge at the left stop;
 * with its right end up, or its inside face shown, at the right one. Turned both ways, left again. Derivation:
 * an outside face with the reference edge down, turned clockwise by a quarter, has its left end up and its
 * reference edge at the left. A board that lies flat has its end toward the operator: left and right change once more.
 */
function holdOf(
  { solved, templates }: SheetInput,
  board: string,
  end: End,
): Omit<Stand, 'board' | 'letter' | 'end' | 'corner' | 'pieces'> {
  const hold = boardOf(solved, board)?.hold ?? USUAL;
  const changes = (hold.face === 'inside') !== (hold.posture === 'flat');
  const stop = changes ? otherEnd(end) : end;
  const cut = solved.cuts.find((one) => one.stock.some((stock) => stock.board === board));
  const place = cut && sideOf(templates, cut);
  if (!cut || !place) return { ...hold, stop, halfTurned: false };
  const held = { ...hold, template: place.plate.name, halfTurned: place.side.turned !== undefined };
  if (stop === 'left' || solved.symmetric) return { ...held, stop, ...twice(cut, stop, false) };
  if (cut.mirroredForSecondEnd) {
    return { ...held, stop, template: `${held.template}-mirrored`, ...twice(cut, stop, true) };
  }
  // Straight through and not its own mirror image: turned around, the reference edge is at the left again.
  return {
    ...held,
    face: hold.face === 'outside' ? 'inside' : 'outside',
    stop: 'left',
    ...twice(cut, 'left', false),
  };
}

const otherEnd = (end: End): End => (end === 'left' ? 'right' : 'left');

function twice({ secondStop }: Cut, stop: End, mirrored: boolean): { readonly twice?: TwoCuts } {
  if (!secondStop) return {};
  const toRight = mirrored ? -secondStop.x : secondStop.x;
  const stopAt = toRight < 0 === (stop === 'left') ? 2 : 1;
  return {
    twice: {
      stopAt,
      spacer: Math.abs(toRight),
      spacerFor: stopAt === 2 ? 1 : 2,
      leaveOut: secondStop.leaveOut !== undefined,
    },
  };
}

/** How far the first board under a template stands to the right of the second one, mm; 0 where there is one board. */
export function standsApart({ stock }: Cut): number {
  const [one, other] = stock.map(({ outline }) => extents(outline).minX);
  return (one ?? 0) - (other ?? one ?? 0);
}
