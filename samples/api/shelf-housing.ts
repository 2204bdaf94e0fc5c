/**
 * A joint of one's own, drawn with halfpin's API: a stopped housing for the shelf of a cabinet. The side lies flat,
 * its back edge toward the operator, and a straight bit cuts a slot as wide as the shelf is thick, from the back
 * edge to where it stops. halfpin reads the job, moves the outline in for the bushing, draws the plate and writes it.
 *
 *   npm install halfpin zod typescript
 *   npx tsc --module nodenext --target es2023 shelf-housing.ts && node shelf-housing.js out
 */
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import {
  type Bit,
  type Board,
  type BoardMarking,
  type Bushing,
  type Cut,
  type FieldKit,
  fixable,
  given,
  type Joint,
  type JointFamily,
  judgeTools,
  type MadeFile,
  makeFiles,
  raiser,
  rectangle,
  readJob,
  refused,
  type Result,
  roundedRectangle,
  sayIn,
  sentence,
  type Shop,
  type SolvedJoint,
  solveJob,
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

/** What a housing alone has to say, and what answers it: a finding `shelf-housing/bit-wide` is found here. */
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
    return refused([...tools, ...(tooWide ? [raise('bit-wide', 'refused', `${at}.cutter`, data)] : [])]);
  }
  const [from, to] = [height - joint.slack / 2, height - joint.slack / 2 + wide];
  const solved: SolvedJoint = {
    name,
    kind,
    width,
    layout: {
      width,
      spans: [
        { part: 'finger', from: 0, to: from },
        { part: 'slot', from, to },
        { part: 'finger', from: to, to: width },
      ],
    },
    symmetric: Math.abs(from - (width - to)) < 1e-6,
    cuts: [cutOf(joint, from, to)],
    markings: [markingOf(joint, from, to)],
  };
  return given(solved, tools);
}

/** The waste is open toward the operator, past the back edge, and has corners of the bit's radius where it stops. */
function cutOf({ cutter: bit, bushing, depth, run, width }: ShelfHousing, from: number, to: number): Cut {
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
    stock: [{ board: 'side', outline: rectangle(0, -run, width, 80) }],
    mirroredForSecondEnd: true,
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

/** The files of a job that may have housings in it; an error that says everything that speaks against it. */
export async function make(text: string): Promise<readonly MadeFile[]> {
  const known = [shelfHousing];
  const { result, units } = readJob({ name: 'shelf.yaml', text }, known, () => undefined);
  if (!result.ok) throw new Error(result.findings.map((one) => sentence(one, sayIn(units), known)).join('\n'));
  const outcomes = solveJob(result.value, undefined, known);
  const wrong = outcomes.filter(({ made }) => !made).flatMap(({ findings }) => findings);
  if (wrong.length > 0) throw new Error(wrong.map((one) => sentence(one, sayIn(units), known)).join('\n'));
  return makeFiles(result.value, outcomes, { only: ['finger'], as: ['svg', 'dxf'] });
}

const [, , folder] = process.argv;
if (folder !== undefined) {
  for (const { path, content } of await make(job)) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), content);
    console.log(path);
  }
}
