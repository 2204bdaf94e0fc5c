import {
  type Diagnostic,
  diagnostic,
  err,
  hasErrors,
  ok,
  type Result,
} from '../../diagnostics/diagnostic.js';
import type { Assembly } from '../../joints/contract.js';
import { assembleCrossed } from '../cut/crossed.js';
import type { ClosedJoint } from '../cut/level.js';
import { assemblePlaced } from '../cut/placed.js';
import { difference, evenOdd, extents, type Polygons, rectangle, union } from '../cut/polygons.js';
import { bushingCentres, type RoutedBoard } from '../cut/route.js';
import { assembleSunk } from '../cut/sunk.js';
import { missingFiles, readTemplate } from '../files/read-template.js';
import type { ReportedJoint, WrittenFile } from '../files/reported.js';
import { CLOSED_WITHIN } from '../judge.js';
import { cornersOf, cutOf, heldProblems, type ProvenStand, problem, type SetUpProblem } from './held.js';

/**
 * The whole-piece proof: every end of every board is cut from the written plates as its stand says, carried on its board to
 * its place in the piece, and every corner is closed. README.md of this folder has the derivation.
 */

/** What was proven, mm. */
export interface SetUpProof {
  /** Corners of all pieces, or pairs of boards where the joint makes none. */
  readonly closed: number;
  readonly worstGap: number;
  readonly worstOverlap: number;
  /** How far the outside size of a piece is from the one asked for, at worst. */
  readonly offSize: number;
}

export interface ProofRequest {
  readonly report: ReportedJoint & { readonly setUp?: { readonly stands: readonly ProvenStand[] } };
  readonly files: readonly WrittenFile[];
  /** What every plate was drawn for, those for second ends too: by it, plates that lie elsewhere on their sheet are put back. */
  readonly plates?: ReportedJoint['cuts'];
  /** The clearance of one pair, mm. */
  readonly slack: number;
  /** What the test cut of the same files found: corners whose boards lie just as drawn are closed already. */
  readonly cut: { readonly worstGap: number; readonly worstOverlap: number };
  /** By how much each board is longer at an end than the outside of the piece, mm; 0 when left out. */
  readonly reach: Readonly<Record<string, number>>;
}

/** Levels at which a corner is compared: both ends of its walls, and the middle for a round. */
const LEVELS = 3;

/** A piece may be off by twice this, mm. */
const OFF_AT_END = 0.01;

/** Proves the stands of a report; a joint without any, or that doesn't close, has nothing to be proven. */
export function proveSetUp({
  report,
  files,
  plates = [],
  slack,
  cut,
  reach,
}: ProofRequest): Result<SetUpProof | undefined> {
  const { assembly, setUp } = report;
  if (!assembly || !setUp) return ok(undefined);
  const at = `joints.${report.joint}`;
  const { stands } = setUp;
  const missing = [...new Set(stands.flatMap((one) => missingFiles(one, files)))];
  if (missing.length > 0) {
    return err(missing.map((template) => diagnostic('template-missing', 'refused', at, { template })));
  }
  const held = heldProblems(report, stands);
  if (held.length > 0) return err([wrong(held, at)]);
  const bench = benchFor({ report, files, plates, cut }, assembly);
  const { pairs, problems } = pairsOf(stands, assembly);
  const closings = pairs.map((pair) => ({ ...pair, ...bench.close(pair.first, pair.second) }));
  const unreadable = closings.flatMap(({ diagnostics }) => diagnostics);
  if (hasErrors(unreadable)) return err(unreadable);
  const found = [
    ...problems,
    ...closings.flatMap(({ shown, gap, overlap }) => [
      ...(gap > slack / 2 + CLOSED_WITHIN ? [problem('gap', shown, gap)] : []),
      ...(overlap > CLOSED_WITHIN ? [problem('overlap', shown, overlap)] : []),
    ]),
  ];
  const off = stands.map((stand) => ({ stand, by: offSize(report, assembly, reach, stand) }));
  const sizes = off
    .filter(({ by }) => Math.abs(by) > OFF_AT_END)
    .map(({ stand, by }) => problem('size', stand, by));
  if (found.length + sizes.length > 0) return err([wrong([...found, ...sizes], at)]);
  const worst = (numbers: readonly number[]) => Math.max(0, ...numbers);
  return ok({
    closed: closings.length,
    worstGap: worst(closings.map(({ gap }) => gap)),
    worstOverlap: worst(closings.map(({ overlap }) => overlap)),
    offSize: 2 * worst(off.map(({ by }) => Math.abs(by))),
  });
}

/** All that is wrong, by the first of it. */
function wrong(problems: readonly SetUpProblem[], at: string): Diagnostic {
  const [{ what, piece, corner, by } = { what: 'corner', piece: '', by: 0 } as const] = problems;
  const data = { what, piece, ...(corner !== undefined && { corner }), by, count: problems.length };
  return diagnostic('set-up-wrong', 'refused', at, data);
}

// What meets

interface Pair {
  readonly first: readonly ProvenStand[];
  readonly second: readonly ProvenStand[];
  readonly shown: ProvenStand;
}

/** The ends that meet at corners; of boards that make none, every way of the first with every way of the second at that stop. */
function pairsOf(stands: readonly ProvenStand[], assembly: Assembly) {
  const problems: SetUpProblem[] = [];
  const pairs: Pair[] = [];
  for (const { here, first, second } of cornersOf(stands, assembly.boards)) {
    const [shown] = here;
    if (!shown) continue;
    if (first.length === 0 || second.length === 0) problems.push(problem('corner', shown));
    else pairs.push({ first, second, shown });
  }
  const loose = stands.filter(({ corner }) => corner === undefined);
  const uncut = assembly.way === 'placed' && 'uncut' in assembly.second;
  for (const first of loose.filter(({ board }) => board === assembly.boards[0])) {
    if (uncut) pairs.push({ first: [first], second: [], shown: first });
    const others = loose.filter(
      ({ board, referenceEdge }) => board === assembly.boards[1] && referenceEdge === first.referenceEdge,
    );
    if (!uncut && others.length === 0) problems.push(problem('corner', first));
    for (const second of others) {
      if (outsidesApart(first, second, assembly)) problems.push(problem('face', second));
      pairs.push({ first: [first], second: [second], shown: second });
    }
  }
  return { pairs, problems };
}

/** Of boards that are moved onto one another: whether an outside face ends up where the other one has its inside face. */
function outsidesApart(first: ProvenStand, second: ProvenStand, assembly: Assembly): boolean {
  const turned = assembly.way === 'placed' && !('uncut' in assembly.second) && assembly.second.turned;
  return (first.faceToOperator !== second.faceToOperator) !== turned;
}

/** How far one end leaves the outside of the piece from where it is asked, mm: shoulders seat on the mate's inside face. */
function offSize(
  { thickness, lip }: ReportedJoint,
  { way, boards }: Assembly,
  reach: ProofRequest['reach'],
  { board, depth }: ProvenStand,
): number {
  const own = reach[board] ?? 0;
  const isFirst = board === boards[0];
  if (way === 'placed') return 0;
  if (way === 'sunk' && !isFirst) return own - (lip?.end ?? 0);
  return own + (thickness?.[boards[isFirst ? 1 : 0]] ?? 0) - depth;
}

// Cutting and closing

interface Closing {
  readonly gap: number;
  readonly overlap: number;
  readonly diagnostics: readonly Diagnostic[];
}

/** Cuts each way of holding a board once, and closes each two of them once. */
function benchFor(
  { report, files, plates: drawnFor = [], cut: asDrawn }: Omit<ProofRequest, 'slack' | 'reach'>,
  assembly: Assembly,
) {
  const plates = new Map<string, Result<Polygons>>();
  const cut = new Map<string, Result<RoutedBoard>>();
  const centres = new Map<string, Result<Polygons>>();
  const closed = new Map<string, Closing>();
  const once = <T>(known: Map<string, T>, key: string, make: () => T): T => {
    const value = known.get(key) ?? make();
    known.set(key, value);
    return value;
  };
  const plateOf = (stand: ProvenStand) =>
    once(plates, JSON.stringify([stand.template, stand.parts]), () => {
      const { rect, placed, template, parts } = stand;
      const under = { board: stand.board, from: [rect.x0, rect.y0], to: [rect.x1, rect.y1] } as const;
      const plate = drawnFor.find(
        (one) => one.template === template && one.boards.some(({ board }) => board === stand.board),
      );
      const read = readTemplate(
        plate ?? { template, ...(parts && { parts }), ...(placed && { placed }), boards: [under] },
        files,
        report.holds?.width,
        plate !== undefined,
      );
      return read.ok ? ok(evenOdd(read.value.layers.CUT ?? [])) : read;
    });
  const centresOf = (stand: ProvenStand): Result<Polygons> => {
    const { template, plateSide, placed, rect, bushing, bit, everySecond } = stand;
    const key = JSON.stringify([template, plateSide, placed, rect, bushing, bit, everySecond?.leaveOut]);
    return once(centres, key, () => {
      const plate = plateOf(stand);
      return plate.ok ? ok(centresUnder(asItLies(plate.value, stand, report.width), stand)) : plate;
    });
  };
  const routed = (stands: readonly ProvenStand[]) => {
    const [stand] = stands;
    if (!stand) return undefined;
    return once(cut, keyOf(stands), (): Result<RoutedBoard> => {
      const places = stands.map((one) => ({ one, at: centresOf(one) }));
      const unread = places.flatMap(({ at }) => (at.ok ? [] : at.diagnostics));
      if (unread.length > 0) return err(unread);
      const moved = places.flatMap(({ one, at }) => (at.ok ? onBoard(report, assembly, one)(at.value) : []));
      return ok(routedBoard(report, assembly, stand, stands.length > 1 ? union(moved) : moved));
    });
  };
  const close = (first: readonly ProvenStand[], second: readonly ProvenStand[]): Closing =>
    once(closed, `${keyOf(first)}\n${keyOf(second)}`, () => {
      if ([...first, ...second].every((one) => liesAsDrawn(report, assembly, one))) {
        return { gap: asDrawn.worstGap, overlap: asDrawn.worstOverlap, diagnostics: [] };
      }
      const [one, other] = [routed(first), routed(second)];
      const diagnostics = [
        ...(one?.ok ? [] : (one?.diagnostics ?? [])),
        ...(other?.ok === false ? other.diagnostics : []),
      ];
      if (!one?.ok || other?.ok === false) return { gap: 0, overlap: 0, diagnostics };
      const { levels } = assembled(report, assembly, one.value, other?.value);
      const worst = (of: 'gap' | 'overlap') => Math.max(0, ...levels.map((level) => level[of].width));
      return { gap: worst('gap'), overlap: worst('overlap'), diagnostics };
    });
  return { close };
}

/** Whatever changes what is cut, and what doesn't: stands of one key cut the same. */
const keyOf = (stands: readonly ProvenStand[]): string =>
  JSON.stringify(
    stands.map(
      ({
        board,
        template,
        plateSide,
        placed,
        posture,
        faceToOperator,
        referenceEdge,
        everySecond,
        rect,
        bit,
        bushing,
        depth,
      }) => [
        board,
        template,
        plateSide,
        placed,
        posture,
        faceToOperator,
        referenceEdge,
        everySecond?.leaveOut,
        rect,
        bit,
        bushing,
        depth,
      ],
    ),
  );

function assembled(
  { width }: ReportedJoint,
  assembly: Assembly,
  first: RoutedBoard,
  second: RoutedBoard | undefined,
): Pick<ClosedJoint, 'levels'> {
  if (assembly.way === 'placed') return assemblePlaced(first, second, LEVELS, assembly);
  if (!second) throw new Error('both boards of such a joint are cut');
  if (assembly.way === 'sunk') return assembleSunk(width, first, second, LEVELS, assembly.pared);
  return assembleCrossed(width, first, second, LEVELS);
}

/** Where the bushing's middle can be over the board of one stand, on the bench. */
function centresUnder(plate: Polygons, { rect, bushing, bit, everySecond }: ProvenStand): Polygons {
  const { polygons } = bushingCentres(plate, [boardOf(rect)], bushing, bit.diameter / 2);
  const leaveOut = everySecond?.leaveOut;
  if (!leaveOut) return polygons;
  const box = { ...extents(polygons), minX: leaveOut[0], maxX: leaveOut[1] };
  return difference(polygons, [rectangle(box)]);
}

const boardOf = ({ x0, x1, y0, y1 }: ProvenStand['rect']) =>
  rectangle({ minX: x0, maxX: x1, minY: y0, maxY: y1 });

/** A board cut where the bushing's middle goes, in the frame that `assembled` wants of it. */
function routedBoard(
  report: ReportedJoint,
  assembly: Assembly,
  stand: ProvenStand,
  centres: Polygons,
): RoutedBoard {
  const { bit, bushing, depth, board } = stand;
  const cutter = { diameter: bit.diameter, angle: ((bit.angle ?? 0) * Math.PI) / 180 };
  const stock = onBoard(report, assembly, stand)([boardOf(stand.rect)]);
  const under = cutOf(report, stand)?.under;
  return {
    plate: [],
    stock,
    cutter,
    bushing,
    stops: { at: [0] },
    centres: { polygons: centres, stock },
    depth,
    thickness: under?.thickness ?? report.thickness?.[board] ?? 0,
  };
}

/** The plate on the bench: upside down, or turned by half a turn, as the stand says. */
function asItLies(plate: Polygons, { plateSide, placed }: ProvenStand, width: number): Polygons {
  const over =
    plateSide === 'turned' ? mapped(plate, { x: (x) => width - x, y: same, mirrors: true }) : plate;
  return placed ? mapped(over, { x: (x) => placed.x - x, y: (y) => placed.y - y, mirrors: false }) : over;
}

/**
 * From the bench onto the board: x from its reference edge, y from the face that the assembly counts from, or of a flat board
 * from its end; then to where the test cut has that board.
 */
function onBoard(report: ReportedJoint, assembly: Assembly, stand: ProvenStand) {
  const { rect, referenceEdge } = stand;
  const [x, y] = cutOf(report, stand)?.under.from ?? [0, 0];
  const left = referenceEdge === 'left-stop';
  const asCounted = isAsCounted(assembly, stand);
  return (polygons: Polygons): Polygons =>
    mapped(polygons, {
      x: left ? (at) => at - rect.x0 + x : (at) => rect.x1 - at + x,
      y: asCounted ? (at) => at - rect.y0 + y : (at) => rect.y1 - at + y,
      mirrors: left !== asCounted,
    });
}

/** Boards that cross show the first one's inside face and the second one's outside face, a sunk one its inside face. */
function isAsCounted({ way, boards }: Assembly, { posture, board, faceToOperator }: ProvenStand): boolean {
  const counted = way === 'crossed' && board === boards[1] ? 'outside' : 'inside';
  return posture === 'flat' || way === 'placed' || faceToOperator === counted;
}

/** Whether a board is cut just as the test cut cuts it. */
function liesAsDrawn(report: ReportedJoint, assembly: Assembly, stand: ProvenStand): boolean {
  const found = cutOf(report, stand);
  if (!found || stand.everySecond || !isAsCounted(assembly, stand)) return false;
  const { x0, x1, y0, y1 } = stand.rect;
  const [from, to] = [found.under.from, found.under.to];
  return (
    stand.referenceEdge === 'left-stop' &&
    stand.plateSide === 'up' &&
    stand.template === found.cut.template &&
    JSON.stringify([stand.placed, stand.parts]) === JSON.stringify([placedOf(found.cut), found.cut.parts]) &&
    [x0 - from[0], x1 - to[0], y0 - from[1], y1 - to[1]].every((by) => Math.abs(by) < 1e-6)
  );
}

const placedOf = ({ placed }: ReportedJoint['cuts'][number]) => placed && { x: placed.x, y: placed.y };

const same = (value: number): number => value;

interface Mapping {
  readonly x: (x: number) => number;
  readonly y: (y: number) => number;
  /** Rings then run the other way round. */
  readonly mirrors: boolean;
}

function mapped(polygons: Polygons, { x, y, mirrors }: Mapping): Polygons {
  return polygons.map((ring) => {
    const moved = ring.map((spot) => ({ x: x(spot.x), y: y(spot.y) }));
    return mirrors ? moved.reverse() : moved;
  });
}
