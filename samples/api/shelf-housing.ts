/**
 * A joint of one's own, made with halfpin's API: a stopped housing for the shelf of a cabinet. The side lies flat,
 * its back edge toward the operator, and a straight bit cuts a slot as wide as the shelf is thick, from the back
 * edge to where it stops. The family tells where the waste is and how the boards lie and come together; halfpin makes
 * plates, patterns, set-up sheet, test cut and solids of it.
 *
 *   npm install halfpin zod typescript
 *   npm install manifold-3d @gltf-transform/core    (for the solids)
 *   npx tsc --module nodenext --target es2023 shelf-housing.ts && node shelf-housing.js out
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
  fixable,
  formatDiagnostics,
  ok,
  type Joint,
  type JointBoard,
  type JointFamily,
  judgeTools,
  type MadeFile,
  makeFiles,
  type Placed,
  raiser,
  rectangle,
  readJob,
  err,
  type Result,
  roundedRectangle,
  formatterFor,
  type SetUp,
  type Shop,
  solidFiles,
  solidJob,
  solidsOf,
  type SolvedJoint,
  solveJob,
  testCutJob,
} from 'halfpin';
import type { z } from 'zod';

/** A housing as the job file gives it. Lengths in mm, x along the side from its lower end. */
interface ShelfHousing extends Joint {
  readonly kind: 'shelf-housing';
  readonly boards: { readonly side: Board; readonly shelf: Board };
  /** Height of the shelf's lower face. */
  readonly height: number;
  /** How far the housing runs in from the back edge. */
  readonly run: number;
  readonly depth: number;
  readonly cutter: Bit;
  readonly bushing: Bushing;
}

/** What a housing alone has to say, and what answers it: a diagnostic `shelf-housing/bit-wide` is found here. */
const diagnostics = {
  'bit-wide': fixable(
    (d: { bit: string; diameter: number; wide: number; narrower: readonly string[] }, say) =>
      `${d.bit} is ${say.length(d.diameter)} wide and the housing ${say.length(d.wide)}; use a narrower bit`,
    (d, { at, word }) =>
      d.narrower.map((name) => ({ label: `use the bit ${name}`, edits: [{ set: at, to: word(name) }] })),
  ),
};
const raise = raiser('shelf-housing', diagnostics);

export const shelfHousing: JointFamily<ShelfHousing> = {
  kind: 'shelf-housing',
  summary: 'a stopped housing that holds the end of a shelf',
  starter: '',
  diagnostics,
  fields,
  solve,
};

function fields(kit: FieldKit): z.ZodType<Omit<ShelfHousing, 'name' | 'kind'>> {
  return kit
    .object({
      width: kit.length(),
      boards: kit.object({ side: kit.board(), shelf: kit.board() }),
      height: kit.length(),
      run: kit.length(),
      depth: kit.length(),
      layout: kit.layout([]),
      cutter: kit.bit('straight'),
      bushing: kit.bushing(),
      fit: kit.fit(0.2),
      template: kit.template(),
    })
    .transform(({ fit, ...rest }) => ({ ...rest, slack: fit.slack, slackFrom: fit.from }));
}

function solve(joint: ShelfHousing, shop: Shop): Result<SolvedJoint> {
  const { cutter: bit, bushing, depth, height, width, name, kind } = joint;
  const at = `joints.${name}`;
  const tools = judgeTools({ bit, bushing, depth, bitAt: `${at}.cutter`, bushingAt: `${at}.bushing` }, shop);
  const wide = joint.boards.shelf.thickness + joint.slack;
  const tooWide = bit.diameter > wide;
  if (tooWide || tools.some(({ level }) => level === 'refused')) {
    const narrower = Object.values(shop.bits)
      .filter((other) => other.kind === 'straight' && other.diameter <= wide)
      .map((other) => other.name);
    const data = { bit: bit.name, diameter: bit.diameter, wide, narrower };
    return err([...tools, ...(tooWide ? [raise('bit-wide', 'refused', `${at}.cutter`, data)] : [])]);
  }
  const [from, to] = [height - joint.slack / 2, height - joint.slack / 2 + wide];
  const solved: SolvedJoint = {
    name,
    kind,
    words: 'shelf housing',
    width,
    layout: {
      width,
      spans: [
        { part: 'finger', from: 0, to: from },
        { part: 'slot', from, to },
        { part: 'finger', from: to, to: width },
      ],
    },
    boards: boardsOf(joint),
    assembly: assemblyOf(joint, from, to),
    setUp: setUpOf(joint),
    symmetric: Math.abs(from - (width - to)) < 1e-6,
    cuts: [cutOf(joint, from, to)],
    markings: [markingOf(joint, from, to)],
  };
  return ok(solved, tools);
}

/** The waste is open toward the operator, past the back edge, and has corners of the bit's radius where it stops. */
function cutOf({ boards, cutter: bit, bushing, depth, run, width }: ShelfHousing, from: number, to: number): Cut {
  const nearEdge = -run - 12;
  return {
    board: 'side',
    bit,
    bushing,
    depth,
    cutterRadius: bit.diameter / 2,
    waste: [roundedRectangle(from, nearEdge - 4 * bushing.outside, to, 0, bit.diameter / 2)],
    nearEdge,
    narrowestAt: nearEdge,
    stock: [{ board: 'side', outline: rectangle(0, -run, width, 80), thickness: boards.side.thickness }],
    mirroredForSecondEnd: true,
  };
}

/** The side lies flat, inside face up; its slot is the span that the layout calls so. No template cuts the shelf. */
function boardsOf({ boards: { side, shelf }, run, cutter }: ShelfHousing): readonly JointBoard[] {
  const words = (name: string) => ({ name, the: `the ${name}`, many: `${name}s` });
  return [
    {
      board: 'side',
      words: words('side'),
      material: side,
      hold: { posture: 'flat', face: 'inside', shows: 'up' },
      wanted: { part: 'slot', x: 0, y: [-run, -cutter.diameter / 2], out: [0, 0] },
    },
    { board: 'shelf', words: { ...words('shelf'), many: 'shelves' }, material: shelf },
  ];
}

/** The shelf's end stands on the bottom of the housing. It is notched by the bit's radius where the housing ends round. */
function assemblyOf({ boards: { shelf }, height, run, depth, cutter }: ShelfHousing, from: number, to: number): Placed {
  const front = -cutter.diameter / 2;
  return {
    way: 'placed',
    boards: ['side', 'shelf'],
    second: {
      uncut: [
        { x: height, y: -run },
        { x: height + shelf.thickness, y: -run },
        { x: height + shelf.thickness, y: front },
        { x: height, y: front },
      ],
    },
    // With some of the wood on both sides of the shelf, so that a wall out of its place shows.
    room: { x: [from - 3, to + 3], y: [-run, front], u: [0, depth] },
    glued: 'walls',
  };
}

/** The two sides of a cabinet are mirror images: the plate is turned upside down for the right one. */
function setUpOf({ boards: { side, shelf }, width, depth, cutter }: ShelfHousing): SetUp {
  const stand = (name: string): BoardStand => ({
    board: 'side',
    name,
    posture: 'flat',
    face: 'inside',
    shows: 'up',
    toward: 'back edge',
    against: 'lower end',
    stop: name === 'left side' ? 'left' : 'right',
    ...(name === 'right side' && { mirrored: true }),
    trial: ['rout from left to right, the bushing against the plate, and stop at the end of the opening'],
  });
  return {
    at: 'boards',
    stands: [stand('left side'), stand('right side')],
    prepare: ['Cut sides and shelf to size, with one spare of each. Mark the back edge and the lower end of each side.'],
    close: [
      'Notch the front corners of the shelf, ',
      cutter.diameter / 2,
      ' back and ',
      depth,
      ' in from each end, so that it covers the round end of the housing. Push it in from behind.',
    ],
    glue: ['Glue the shelf in from behind, back edges flush, and clamp across the sides.'],
    sizes: [
      'Sides ',
      side.thickness,
      ' thick, ',
      width,
      ' or more high; shelf ',
      shelf.thickness,
      ' thick, as long as the cabinet is wide inside and ',
      2 * depth,
      ' more.',
    ],
    corrections: [['shelf too loose or too tight', 'set thickness of the shelf to what it measures and make a new plate']],
  };
}

function markingOf({ boards, run, depth, width }: ShelfHousing, from: number, to: number): BoardMarking {
  const inside = { lines: [], waste: [rectangle(from, 0, to, run)] };
  const edge = { lines: [], waste: [rectangle(from, boards.side.thickness - depth, to, boards.side.thickness)] };
  const plain = { lines: [], waste: [] };
  return {
    board: 'side',
    material: boards.side,
    width,
    depth: run,
    over: 'edge',
    faceUpright: 'inside',
    outsideFace: plain,
    endGrain: edge,
    insideFace: inside,
  };
}

const job = `
title: Specimen cabinet, shelf
units: mm
shop:
  units: mm
  bits: { twelve: { kind: straight, diameter: 12, height: 20 } }
  bushings: { sixteen: { outside: 16, bore: 13.5 } }
  plate: { material: plywood, thickness: 12, least-finger: 5 }
joints:
  shelf:
    kind: shelf-housing
    width: 240
    boards: { side: { thickness: 18 }, shelf: { thickness: 15 } }
    height: 90
    run: 120
    depth: 6
    cutter: twelve
    bushing: sixteen
    fit: { slack: 0.2 }
`;

interface Made {
  readonly files: readonly MadeFile[];
  /** What the test cut and everything else has to say. */
  readonly diagnostics: readonly Diagnostic[];
  /** The boards as the page draws them. */
  readonly boards: ReturnType<typeof solidsOf>;
}

/** Everything of a job that may have housings in it, proven; an error that says all that speaks against it, and where. */
export async function make(text: string): Promise<Made> {
  const known = [shelfHousing];
  const { result, units, locate } = readJob({ name: 'shelf.yaml', text }, known, () => undefined);
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
