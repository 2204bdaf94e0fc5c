import { boardColours } from '../drawing/styles.js';
import type { Job } from '../input/types.js';
import type { SolvedJoint } from '../joints/family.js';
import type { Blank, JointInSolid, JointVolumes } from '../verify/solid/joint.js';
import type { MadeFile } from './artifact.js';
import type { JointOutcome } from './joint.js';
import type { TestCutOutcome } from './testcut.js';

/** One joint as both of its boards come from the router, in solid wood. */
export interface SolidOutcome {
  readonly joint: string;
  readonly solid: JointInSolid;
  /** The same volumes by the slices of the test cut. */
  readonly slices: Omit<JointVolumes, 'room'>;
}

/**
 * Builds every joint that the test cut could cut as a solid, under the very templates that it read: joints that do not
 * close as asked too, for there is something to see. Writes nothing.
 */
export async function solidJob(
  outcomes: readonly JointOutcome[],
  cuts: readonly TestCutOutcome[],
): Promise<readonly SolidOutcome[]> {
  const [{ jointInSolid }, { slicedVolumes }] = await Promise.all([
    import('../verify/solid/closed.js'),
    import('../verify/solid/sliced.js'),
  ]);
  const all: SolidOutcome[] = [];
  for (const { joint, made } of outcomes) {
    const { cut, request } = cuts.find((one) => one.joint === joint.name) ?? {};
    if (!made || !cut || !request) continue;
    const solid = await jointInSolid(request, blanksOf(made.solved));
    const [first, second] = solid.boards;
    if (!first || !second) continue;
    const slices = slicedVolumes(cut.sections, [first.board, second.board], solid.volumes.room);
    all.push({ joint: joint.name, solid, slices });
  }
  return all;
}

/**
 * Sizes of the boards, and the rabbet of a lipped front, which no template shows. Of boards that lie flat and are moved
 * onto one another the drawings show all that there is.
 */
export function blanksOf({ boards, assembly }: SolvedJoint): readonly Blank[] {
  const asDrawn = assembly?.way === 'placed' && !('uncut' in assembly.second);
  return boards.map(({ board, material: { thickness, length }, lip }) => ({
    board,
    thickness,
    ...(length !== undefined && !asDrawn && { length }),
    ...(lip && { lip }),
  }));
}

/** How far apart boards lie on the print bed, mm. */
const APART = 10;

/** A joint's solids as files: closed and with its boards laid apart, each as 3MF (mm) and as GLB (metres, as that format has it). */
export async function solidFiles(job: Job, { joint, solid }: SolidOutcome): Promise<readonly MadeFile[]> {
  const [{ threeMfWriter }, { glbWriter }] = await Promise.all([
    import('../writers/solids/threemf.js'),
    import('../writers/solids/glb.js'),
  ]);
  const views = [
    { name: 'closed', boards: solid.boards.map(({ board, closed }) => ({ name: board, solid: closed })) },
    { name: 'apart', boards: sideBySide(solid.boards) },
  ];
  const files = await Promise.all(
    views.map(async ({ name, boards }) => {
      const title = `${job.title}: ${joint}, boards as cut, ${name}`;
      const notes = [
        'Built from the written templates; rounds within 0.005 mm, plane faces exact; sizes in mm.',
      ];
      const coloured = boards.map((one, i) => ({ ...one, colour: boardColours[i] ?? boardColours[0] }));
      return [
        {
          path: `${joint}/solid-${name}.3mf`,
          content: threeMfWriter.write({ title, notes, objects: boards }),
        },
        { path: `${joint}/solid-${name}.glb`, content: await glbWriter.write({ title, parts: coloured }) },
      ];
    }),
  );
  return files.flat();
}

/** Boards on the bed, one behind the other along y, the first at y = 0. */
function sideBySide(boards: JointInSolid['boards']) {
  let y = 0;
  return boards.map(({ board, laid }) => {
    const ys = laid.vertices.map(([, at]) => at);
    const [from, to] = ys.reduce(([low, high], at) => [Math.min(low, at), Math.max(high, at)], [
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
    ] as readonly [number, number]);
    const by = y - from;
    y += to - from + APART;
    return {
      name: board,
      solid: {
        ...laid,
        vertices: laid.vertices.map(([x, at, z]) => [x, at + by, z] as const),
      },
    };
  });
}
