import { extents } from '../geometry/outline.js';
import type { Cut } from '../joints/family.js';
import type { SheetInput } from './input.js';
import { sideOf } from './sides.js';

export type End = 'left' | 'right';
export type Corner = 1 | 2 | 3 | 4;

/** How one end of one board is held under its template. */
export interface Stand {
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
  /** The face toward the operator, or up for a board that lies flat. */
  readonly face: 'outside' | 'inside';
  readonly lies: 'on end' | 'flat';
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
  const [first = '', second = ''] = input.solved.markings.map(({ board }) => board);
  return cornersOf(input).flatMap(({ corner, pieces }) =>
    [[first, meetings[corner].first] as const, [second, meetings[corner].second] as const].map(
      ([board, place]): Stand => ({ board, ...place, corner, pieces, ...holdOf(input, board, place.end) }),
    ),
  );
}

/** The corners that have this joint; without pieces, the front of a drawer for a half-blind one, else all four. */
export function cornersOf({ joint, pieces }: SheetInput): readonly {
  readonly corner: Corner;
  readonly pieces: readonly string[];
}[] {
  if (pieces.length === 0) {
    const corners = joint.kind === 'half-blind-dovetail' ? FRONT : [...FRONT, ...BACK];
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

/** Which face of a board on end looks at the operator, and which face of a flat one is up, at a corner. */
function faceOf(kind: string, board: string): Pick<Stand, 'face' | 'lies'> {
  if (kind === 'half-blind-dovetail') return { face: 'inside', lies: board === 'pins' ? 'flat' : 'on end' };
  return { face: 'outside', lies: 'on end' };
}

/** How a kind of board lies under its plate, in words; of an asymmetric layout, for the first of its ends. */
export function lieWords(kind: string, board: string): string {
  // Board two of a drawn line is turned over about the joint, so that both reference edges meet one stop.
  if (kind === 'edge') return `outside face ${board === 'two' ? 'down' : 'up'}`;
  return faceWords(faceOf(kind, board));
}

/** `outside face toward you`, `inside face up`. */
export function faceWords({ face, lies }: Pick<Stand, 'face' | 'lies'>): string {
  return `${face} face ${lies === 'flat' ? 'up' : 'toward you'}`;
}

/**
 * A board that shows its outside face to the operator, left end up, has its reference edge at the left stop;
 * with its right end up, or its inside face shown, at the right one. Turned both ways, left again. Derivation:
 * an outside face with the reference edge down, turned clockwise by a quarter, has its left end up and its
 * reference edge at the left. A board that lies flat has its end toward the operator: left and right change once more.
 */
function holdOf(
  { joint, solved, templates }: SheetInput,
  board: string,
  end: End,
): Omit<Stand, 'board' | 'letter' | 'end' | 'corner' | 'pieces'> {
  const { face, lies } = faceOf(joint.kind, board);
  const changes = (face === 'inside') !== (lies === 'flat');
  const stop = changes ? otherEnd(end) : end;
  const cut = solved.cuts.find((one) => one.stock.some((stock) => stock.board === board));
  const place = cut && sideOf(templates, cut);
  if (!cut || !place) return { face, lies, stop, halfTurned: false };
  const held = { lies, template: place.plate.name, halfTurned: place.side.turned !== undefined };
  if (stop === 'left' || solved.symmetric) return { ...held, face, stop, ...twice(cut, stop, false) };
  if (cut.mirroredForSecondEnd) {
    return { ...held, face, stop, template: `${held.template}-mirrored`, ...twice(cut, stop, true) };
  }
  // Straight through and not its own mirror image: turned around, the reference edge is at the left again.
  return {
    ...held,
    face: face === 'outside' ? 'inside' : 'outside',
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
