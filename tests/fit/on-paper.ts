import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import type { TestCut, TestCutBoard } from '../../src/verify/assemble.js';
import { type TestCutRequest, testCut } from '../../src/verify/assemble.js';
import { dilate, erode, evenOdd, type Polygons } from '../../src/verify/cut/polygons.js';
import { type ReportedJoint, requestOf } from '../../src/verify/files/from-report.js';
import { settled } from '../support/hand-testcut.js';
import { makeFiles } from '../support/made.js';

/** A trial piece on paper: the written templates of a job, routed with tools and settings that are a little off. */
export interface Off {
  /** Added to the diameters of the bits and the bushing that the job has, mm. */
  readonly dovetail?: number;
  readonly straight?: number;
  /** Of the bit of board two alone, where two straight bits cut one joint. */
  readonly second?: number;
  readonly bushing?: number;
  /** By what share the plates came out larger than drawn. */
  readonly scale?: number;
  /** Added to the width of every opening in the plates, both walls together. */
  readonly kerf?: number;
  /** Added to the dovetail bit's angle, radians. */
  readonly angle?: number;
  /** Added to the depth of cut, of every board or of the one named. */
  readonly depth?: number | Readonly<Record<string, number>>;
  /** How far the fence is set back under a board's template, mm. */
  readonly back?: Readonly<Record<string, number>>;
  /** How far a board is held off its stop, mm. */
  readonly along?: Readonly<Record<string, number>>;
  /** Levels to compare at; an odd number has the middle among them. */
  readonly levels?: number;
}

export async function trialPiece(job: Job, off: Off): Promise<TestCut> {
  return cutAs(await trialRequest(job), off);
}

/** What is to be cut, from the written templates. */
export async function trialRequest(job: Job): Promise<TestCutRequest> {
  const outcomes = solveJob(job);
  const report = outcomes[0]?.made?.report;
  if (!report) throw new Error('the job is refused');
  const made = await makeFiles(job, outcomes, { only: ['finger'], as: ['dxf'] });
  const files = made.map(({ path, content }) => ({
    name: path.split('/').at(-1) ?? path,
    text: typeof content === 'string' ? content : '',
  }));
  return settled(requestOf(report as ReportedJoint, files));
}

export function cutAs(request: TestCutRequest, off: Off): TestCut {
  const boards = request.boards.map((board) => offBoard(board, off));
  return settled(testCut({ ...request, boards, levels: off.levels ?? 3 }));
}

function offBoard(board: TestCutBoard, off: Off): TestCutBoard {
  const { cutter, bushing, depth, drawing } = board;
  const second = board.board === 'two' ? off.second : undefined;
  const bit = (cutter.angle > 0 ? off.dovetail : (second ?? off.straight)) ?? 0;
  const deeper = typeof off.depth === 'number' ? off.depth : (off.depth?.[board.board] ?? 0);
  const back = off.back?.[board.board] ?? 0;
  const along = off.along?.[board.board] ?? 0;
  const size = 1 + (off.scale ?? 0);
  // The fence set back is the plate moved toward the operator over a board that stays; so it is with the stop.
  const plate = widened(drawing.layers.CUT ?? [], off.kerf ?? 0).map((ring) =>
    ring.map(({ x, y }) => ({ x: size * x - along, y: size * y - back })),
  );
  return {
    ...board,
    cutter: {
      ...cutter,
      diameter: cutter.diameter + bit,
      angle: cutter.angle + (cutter.angle > 0 ? (off.angle ?? 0) : 0),
    },
    bushing: bushing + (off.bushing ?? 0),
    depth: depth + deeper,
    drawing: { ...drawing, layers: { ...drawing.layers, CUT: plate } },
  };
}

/** A plate whose openings are wider than drawn, or narrower. */
function widened(rings: Polygons, kerf: number): Polygons {
  if (kerf === 0) return rings;
  const plate = evenOdd(rings);
  return kerf > 0 ? erode(plate, kerf / 2) : dilate(plate, -kerf / 2);
}

/** Play of each tail or finger at the middle level, both sides together; below 0 the boards overlap. */
export function playOf(cut: TestCut): readonly number[] {
  const level = cut.sections[Math.floor(cut.sections.length / 2)];
  if (!level) throw new Error('no level');
  const lines = [...level.glueLines].sort((one, other) => one.x - other.x);
  return lines.flatMap((line, index) => {
    const next = lines[index + 1];
    return index % 2 === 0 && next ? [line.gap + next.gap] : [];
  });
}

/** A measurement as it is typed, of a pair's play. */
export function felt(play: number): string {
  return play >= 0 ? `gap=${play} mm` : `overlap=${-play} mm`;
}
