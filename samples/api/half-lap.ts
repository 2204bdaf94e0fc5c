/**
 * A second joint of one's own, of quite another shape: the half-lap at a corner of a frame. Both boards are equally wide and
 * lie flat; each loses half of its thickness over the width of the other, board one on its inside face, board two on
 * its outside face. Closed, board two is turned over and stands across: `Placement` says so in five numbers, and halfpin
 * makes plates, patterns, set-up sheet, test cut, solids and the page's drawing of it.
 *
 *   npm install halfpin zod typescript
 *   npm install manifold-3d @gltf-transform/core    (for the solids)
 *   npx tsc --module nodenext --target es2023 half-lap.ts && node half-lap.js out
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import {
  type Bit,
  type Board,
  type BoardMarking,
  type BoardStand,
  type Bushing,
  type Cut,
  type FieldKit,
  type Diagnostic,
  formatDiagnostics,
  ok,
  type Hold,
  type Joint,
  type JointFamily,
  judgeTools,
  type MadeFile,
  makeFiles,
  rectangle,
  readJob,
  err,
  type Result,
  formatterFor,
  type SetUp,
  type Shop,
  type SolvedJoint,
  solidFiles,
  solidJob,
  solidsOf,
  solveJob,
  testCutJob,
} from 'halfpin';
import type { z } from 'zod';

/** A half-lap as the job file gives it. `width` is that of both boards, mm; x runs across them from the outer edge. */
interface HalfLap extends Joint {
  readonly kind: 'half-lap';
  readonly boards: { readonly one: Board; readonly two: Board };
  readonly cutter: Bit;
  readonly bushing: Bushing;
}

type Side = 'one' | 'two';
const sides: readonly Side[] = ['one', 'two'];

export const halfLap: JointFamily<HalfLap> = {
  kind: 'half-lap',
  summary: 'two boards of a frame that cross flat at a corner, half and half',
  starter: '',
  fields,
  solve,
};

function fields(kit: FieldKit): z.ZodType<Omit<HalfLap, 'name' | 'kind'>> {
  return kit
    .object({
      width: kit.length(),
      boards: kit.object({ one: kit.board(), two: kit.board() }),
      layout: kit.layout([]),
      cutter: kit.bit('straight'),
      bushing: kit.bushing(),
      fit: kit.fit(0.2),
      template: kit.template(),
    })
    .transform(({ fit, ...rest }) => ({ ...rest, slack: fit.slack, slackFrom: fit.from }));
}

/** Both depths together are board two's thickness, so that the inside faces come flush. */
function depthOf(side: Side, { boards: { one, two } }: HalfLap): number {
  const first = Math.min(one.thickness, two.thickness) / 2;
  return side === 'one' ? first : two.thickness - first;
}

function solve(joint: HalfLap, shop: Shop): Result<SolvedJoint> {
  const { name, kind, width, boards, cutter: bit, bushing } = joint;
  const at = `joints.${name}`;
  const tools = sides.flatMap((side) =>
    judgeTools(
      { bit, bushing, depth: depthOf(side, joint), bitAt: `${at}.cutter`, bushingAt: `${at}.bushing` },
      shop,
    ),
  );
  if (tools.some(({ level }) => level === 'refused')) return err(tools);
  const shoulder = width + joint.slack / 2;
  const solved: SolvedJoint = {
    name,
    kind,
    words: 'half-lap',
    width,
    layout: { width, spans: [] },
    boards: sides.map((side) => ({ board: side, material: boards[side], hold: holdOf(side) })),
    assembly: {
      way: 'placed',
      boards: ['one', 'two'],
      // Turned over and a quarter round, so that its outer edge lies along board one's end; inside faces level.
      second: { turned: true, angle: Math.PI / 2, x: 0, y: 0, u: boards.two.thickness },
      room: {
        x: [0, width + BEHIND],
        y: [0, width + BEHIND],
        u: [0, boards.one.thickness],
        // The corner between the shoulders is open air.
        open: [square(width, width + BEHIND)],
      },
      glued: 'floors',
    },
    setUp: setUpOf(joint),
    symmetric: true,
    cuts: sides.map((side) => cutOf(side, joint, shoulder)),
    markings: sides.map((side) => markingOf(side, joint)),
  };
  return ok(solved, tools);
}

/** Wood behind each shoulder that the test cut looks at, mm. */
const BEHIND = 3;

function square(from: number, to: number) {
  return [
    { x: from, y: from },
    { x: to, y: from },
    { x: to, y: to },
    { x: from, y: to },
  ];
}

function holdOf(side: Side): Hold {
  return { posture: 'flat', face: side === 'one' ? 'inside' : 'outside', shows: 'up' };
}

/** The waste is as wide as the board and open on three sides; the plate guides the bushing along the shoulder alone. */
function cutOf(side: Side, joint: HalfLap, shoulder: number): Cut {
  const { boards, width, cutter: bit, bushing } = joint;
  const [past, nearEdge] = [bit.diameter + 2, -bushing.outside];
  return {
    board: side,
    bit,
    bushing,
    depth: depthOf(side, joint),
    cutterRadius: bit.diameter / 2,
    waste: [rectangle(-past, nearEdge - 4 * bushing.outside, width + past, shoulder)],
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: side, outline: rectangle(0, 0, width, 2 * width), thickness: boards[side].thickness }],
    mirroredForSecondEnd: false,
  };
}

function setUpOf({ boards: { one, two }, width }: HalfLap): SetUp {
  const stands = sides.flatMap((side) =>
    (['left', 'right'] as const).map(
      (stop): BoardStand => ({
        board: side,
        name: `${stop === 'left' ? 'first' : 'second'} end of board ${side}`,
        ...holdOf(side),
        toward: 'end',
        against: 'outer edge',
        stop,
        trial: ['clear the waste from the end inward, last along the plate'],
      }),
    ),
  );
  return {
    at: 'boards',
    stands,
    prepare: [
      'Cut the boards of the frame to its outside size, with one spare of each kind; all are ',
      width,
      ' wide. Mark outside faces and outer edges.',
    ],
    close: ['Lay board one on the bench, outside face down, and board two across it, outside face down. Push both shoulders home.'],
    glue: ['Glue the laps, clamp each from face to face; both diagonals must be equal.'],
    sizes: ['Boards one ', one.thickness, ' thick, boards two ', two.thickness, ' thick; all as long as the frame outside.'],
    corrections: [
      ['faces not flush', 'turn the depth in by half of the step on both boards, or out where the laps do not touch'],
      ['a gap at the shoulder', 'move the plate toward the end by the gap and cut that board again'],
    ],
  };
}

function markingOf(side: Side, joint: HalfLap): BoardMarking {
  const { boards, width } = joint;
  const material = boards[side];
  const depth = depthOf(side, joint);
  const plain = { lines: [], waste: [] };
  const lap = { lines: [], waste: [rectangle(0, 0, width, width)] };
  const inward = side === 'one' ? material.thickness - depth : 0;
  return {
    board: side,
    material,
    width,
    depth: width,
    faceUpright: side === 'one' ? 'inside' : 'outside',
    outsideFace: side === 'one' ? plain : lap,
    endGrain: { lines: [], waste: [rectangle(0, inward, width, inward + depth)] },
    insideFace: side === 'one' ? lap : plain,
  };
}

const job = `
title: Specimen cabinet, door frame
units: mm
shop:
  units: mm
  bits: { twelve: { kind: straight, diameter: 12, height: 20 } }
  bushings: { sixteen: { outside: 16, bore: 13.5 } }
  plate: { material: plywood, thickness: 12, least-finger: 5 }
joints:
  corner:
    kind: half-lap
    width: 50
    boards: { one: { thickness: 20 }, two: { thickness: 20 } }
    cutter: twelve
    bushing: sixteen
`;

interface Made {
  readonly files: readonly MadeFile[];
  /** What the test cut and everything else has to say. */
  readonly diagnostics: readonly Diagnostic[];
  /** The boards as the page draws them. */
  readonly boards: ReturnType<typeof solidsOf>;
}

/** Everything of a job that may have half-laps in it, proven; an error that says all that speaks against it, and where. */
export async function make(text: string): Promise<Made> {
  const known = [halfLap];
  const { result, units, locate } = readJob({ name: 'frame.yaml', text }, known, () => undefined);
  const fail = (diagnostics: readonly Diagnostic[]): Error =>
    new Error(formatDiagnostics(diagnostics, locate, formatterFor(units)).join('\n'));
  if (!result.ok) throw fail(result.diagnostics);
  const made = await makeFiles(result.value, { as: ['svg', 'dxf'], known });
  if (!made.ok) throw fail(made.diagnostics);
  const outcomes = solveJob(result.value, undefined, known);
  const cuts = await testCutJob(result.value, outcomes);
  const solids = await solidJob(outcomes, cuts);
  return {
    files: [
      ...made.value,
      ...(await Promise.all(solids.map((one) => solidFiles(result.value, one)))).flat(),
    ],
    diagnostics: cuts.flatMap(({ diagnostics }) => diagnostics),
    boards: cuts.flatMap(({ request }) => (request ? solidsOf(request) : [])),
  };
}

const [, , folder] = process.argv;
if (folder !== undefined) {
  const { files, diagnostics, boards } = await make(job);
  for (const { path, content } of files) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), content);
    console.log(path);
  }
  console.log(JSON.stringify({ codes: diagnostics.map(({ code }) => code), boards: boards.map(({ board }) => board) }));
}
