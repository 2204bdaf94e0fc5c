import type { Stand } from '../../set-up/stands.js';
import type { ReportedJoint } from '../files/reported.js';

/** What can be wrong with stands before anything is cut: boards that can't lie so, corners that lack one, numbers that don't agree. */

/** A stand as report.json has it: the bit's angle in degrees, the bushing by its outside diameter. */
export interface ProvenStand extends Omit<Stand, 'bit' | 'bushing'> {
  readonly bit: ReportedJoint['cuts'][number]['bit'];
  readonly bushing: number;
}

/** What the proof found wrong. `by` in mm where it is a length. */
export interface SetUpProblem {
  readonly what:
    | 'numbers'
    | 'order'
    | 'board'
    | 'face'
    | 'letters'
    | 'corner'
    | 'stop'
    | 'gap'
    | 'overlap'
    | 'size';
  readonly piece: string;
  readonly corner?: number;
  readonly by: number;
}

type Direction = readonly [number, number, number];

const X: Direction = [1, 0, 0];
const Y: Direction = [0, 1, 0];
const Z: Direction = [0, 0, 1];

const minus = ([a, b, c]: Direction): Direction => [-a, -b, -c];

const dot = (one: Direction, other: Direction): number =>
  one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0);

const cross = ([a, b, c]: Direction, [d, e, f]: Direction): Direction => [
  b * f - c * e,
  c * d - a * f,
  a * e - b * d,
];

/**
 * Whether there is a board that lies so. u runs along it to its right end, v from the reference edge and n out of the outside
 * face, each seen on that face with the reference edge down; at the bench x is right, y away, z up. The end that is cut is up,
 * of a flat board toward the operator. Of a real board u × v = n; any other would be its mirror image.
 */
export function canLie({ end, posture, faceToOperator, referenceEdge }: ProvenStand): boolean {
  if (end === undefined) return true;
  const [toEnd, shown] = posture === 'flat' ? [minus(Y), Z] : [Z, minus(Y)];
  const u = end === 'left' ? minus(toEnd) : toEnd;
  const v = referenceEdge === 'left-stop' ? X : minus(X);
  const n = faceToOperator === 'outside' ? shown : minus(shown);
  return dot(cross(u, v), n) > 0;
}

/** Where the ends of a piece meet: the first board of the joint, then the second. */
const MEETINGS = {
  1: ['left right', 'front left'],
  2: ['right left', 'front right'],
  3: ['right right', 'back left'],
  4: ['left left', 'back right'],
} as const;

/** Everything that can be seen without cutting. */
export function heldProblems(report: ReportedJoint, stands: readonly ProvenStand[]): readonly SetUpProblem[] {
  return [
    ...stands.flatMap((stand) => numberProblems(report, stand)),
    ...orderProblems(report, stands),
    ...stands.filter((stand) => !canLie(stand)).map((stand) => problem('face', stand)),
    ...letterProblems(stands),
    ...stopProblems(report, stands),
  ];
}

export function problem(what: SetUpProblem['what'], { piece, corner }: ProvenStand, by = 0): SetUpProblem {
  return { what, piece, ...(corner && { corner }), by };
}

/** Lengths that agree within this are one, mm: written coordinates are rounded. */
const SAME = 0.002;

const isSame = (one: number, other: number): boolean => Math.abs(one - other) <= SAME;

/** The reported cut and the board of it that a stand is for. */
export function cutOf({ cuts }: ReportedJoint, { board }: Pick<ProvenStand, 'board'>) {
  const cut = cuts.find(({ boards }) => boards.some((one) => one.board === board));
  const under = cut?.boards.find((one) => one.board === board);
  return cut && under && { cut, under };
}

function numberProblems(report: ReportedJoint, stand: ProvenStand): readonly SetUpProblem[] {
  const found = cutOf(report, stand);
  const { bit, bushing, depth, extension, passes, rect } = stand;
  if (!found) return [problem('board', stand)];
  const { cut, under } = found;
  const numbers = [
    extension - depth - (report.plate?.thickness ?? extension - depth),
    (passes.at(-1) ?? 0) - depth,
    bushing - cut.bushing,
    depth - cut.depth,
    ...passes.map((to, i) => deeper(to - (passes[i - 1] ?? 0), stand)),
  ];
  const tools = JSON.stringify(bit) === JSON.stringify(cut.bit) && stand.feed === 'left-to-right';
  const [width, height] = [under.to[0] - under.from[0], under.to[1] - under.from[1]];
  const worst = numbers.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
  return [
    ...(!tools || !isSame(worst, 0) ? [problem('numbers', stand, worst)] : []),
    ...(isSame(rect.x1 - rect.x0, width) && isSame(rect.y1 - rect.y0, height)
      ? []
      : [
          problem(
            'board',
            stand,
            Math.max(Math.abs(rect.x1 - rect.x0 - width), Math.abs(rect.y1 - rect.y0 - height)),
          ),
        ]),
    ...(stand.posture === 'on end' && !isSame(rect.y1 - rect.y0, report.thickness?.[stand.board] ?? height)
      ? [problem('face', stand)]
      : []),
  ];
}

/** How much a pass takes more than it can, or less than something. */
function deeper(by: number, { bit, depth }: ProvenStand): number {
  const most = (bit.angle ?? 0) > 0 ? depth : bit.diameter;
  return by <= SAME ? Number.POSITIVE_INFINITY : Math.max(0, by - most);
}

/** In steps of one from 1; boards that one plate cuts at once share a step, and no others do. */
function orderProblems(report: ReportedJoint, stands: readonly ProvenStand[]): readonly SetUpProblem[] {
  const setting = ({ template, of, copy, corner }: ProvenStand) => [template, of, copy, corner].join();
  return stands.flatMap((stand, i) => {
    const step = stand.order - (stands[i - 1]?.order ?? 0);
    const atOnce = stands.filter(({ order }) => order === stand.order);
    const boards = cutOf(report, stand)?.cut.boards.length ?? 1;
    const together =
      new Set(atOnce.map(setting)).size === 1 && new Set(atOnce.map(({ board }) => board)).size === boards;
    return (step === 0 || step === 1) && atOnce.length === boards && together
      ? []
      : [problem('order', stand)];
  });
}

/** One letter, one board: always the same piece, place and key. */
function letterProblems(stands: readonly ProvenStand[]): readonly SetUpProblem[] {
  const placed = stands.filter(({ corner }) => corner !== undefined);
  const boardKey = ({ of = '', copy, place, board }: ProvenStand) => [of, copy, place, board].join('\n');
  return placed.flatMap((stand) => {
    const clash = placed.find((one) => (one.piece === stand.piece) !== (boardKey(one) === boardKey(stand)));
    return clash ? [problem('letters', stand)] : [];
  });
}

/** A stop stays where it is for all ends of one kind, a spacer takes up the rest, and none is wanted somewhere. */
function stopProblems(report: ReportedJoint, stands: readonly ProvenStand[]): readonly SetUpProblem[] {
  const keyOf = ({ template, board, referenceEdge }: ProvenStand) => [template, board, referenceEdge].join();
  return stands.flatMap((stand) => {
    const alike = stands.filter((one) => keyOf(one) === keyOf(stand));
    const [first = stand] = alike;
    const apart = stopOf(stand) - stopOf(first);
    // The plate's marks across allow for the board as it is drawn.
    const back = stand.rect.y0 - stand.across - (cutOf(report, stand)?.under.from[1] ?? 0);
    const least = Math.min(...alike.map(({ along }) => along));
    const off = [apart, back, stand.across, least].find((one) => !isSame(one, 0));
    return off === undefined && isMarked(stand, stands) ? [] : [problem('stop', stand, off ?? 0)];
  });
}

const stopOf = ({ referenceEdge, rect, along }: ProvenStand): number =>
  referenceEdge === 'left-stop' ? rect.x0 - along : rect.x1 + along;

/** Of two cuts of one end, the stop's mark is that of the cut without a spacer. */
function isMarked(stand: ProvenStand, stands: readonly ProvenStand[]): boolean {
  const both = stands.filter((one) => endKey(one) === endKey(stand));
  const cuts = both.map(({ everySecond }) => everySecond?.cut ?? 0).toSorted((one, other) => one - other);
  if (!stand.everySecond) return both.length === 1;
  const bare = both.find(({ along }) => isSame(along, 0));
  return cuts.join() === '1,2' && bare?.everySecond?.cut === stand.everySecond.mark;
}

/** What one end of one board is called by. */
export const endKey = ({
  piece,
  of = '',
  copy,
  board,
  end,
  corner,
  referenceEdge,
  faceToOperator,
}: ProvenStand) =>
  corner === undefined
    ? [piece, board, referenceEdge, faceToOperator].join('\n')
    : [piece, of, copy, board, end].join('\n');

/** The two ends that meet at each corner of each piece, the first board's and the second's, or what is missing there. */
export function cornersOf(stands: readonly ProvenStand[], boards: readonly [string, string]) {
  const placed = stands.filter(({ corner }) => corner !== undefined);
  const keyOf = ({ of = '', copy, corner }: ProvenStand) => [of, copy, corner].join('\n');
  return [...new Set(placed.map(keyOf))].map((key) => {
    const here = placed.filter((one) => keyOf(one) === key);
    const ends = boards.map((board, i) => {
      const own = here.filter((one) => one.board === board);
      const one = new Set(own.map(endKey)).size === 1;
      const meets = own.every(
        ({ corner, place, end }) => MEETINGS[corner ?? 1][i === 0 ? 0 : 1] === `${place} ${end}`,
      );
      return one && meets ? own : [];
    });
    return { here, first: ends[0] ?? [], second: ends[1] ?? [] };
  });
}
