import { polygon } from '../geometry/outline.js';
import type { Path, Point, Region } from '../geometry/types.js';
import type { MarkedPanel } from './family.js';
import type { WasteRun } from './row.js';

/** Marking out of a row of parts on one panel (a face or the end grain) of a board. */

/** How the walls of the waste stand on one panel. */
export interface PanelWalls {
  /** How far each wall stands outside its run where the waste begins; negative is inside. */
  readonly atStart: number;
  /** The same where the waste ends. */
  readonly atEnd: number;
  /** y where the waste begins, mm; 0, the panel's own beginning, when left out. */
  readonly start?: number;
  /** y where the waste ends, mm. */
  readonly length: number;
  /** true on a face, where the waste ends at the baseline; false on end grain, which it crosses. */
  readonly baseline: boolean;
}

/** The walls to mark and the waste between them; at an outer edge of the board there is no wall. */
export function markPanel(runs: readonly WasteRun[], walls: PanelWalls): MarkedPanel {
  const corners = runs.map((run) => cornersOf(run, walls));
  const waste: Region = corners.map(({ a, b, c, d }) => polygon([a, b, c, d]));
  const lines = runs.flatMap((run, i): readonly Path[] => {
    const at = corners[i];
    if (!at) return [];
    return [
      ...(walls.start === undefined ? [] : [stroke(at.a, at.b)]),
      ...(run.offNear ? [] : [stroke(at.a, at.d)]),
      ...(run.offFar ? [] : [stroke(at.b, at.c)]),
      ...(walls.baseline ? [stroke(at.d, at.c)] : []),
    ];
  });
  return { lines, waste };
}

/** Corners of one run, counter-clockwise from the wall nearer the reference edge at y = 0. */
function cornersOf(run: WasteRun, { atStart, atEnd, start = 0, length }: PanelWalls) {
  const near = (out: number) => (run.offNear ? run.from : run.from - out);
  const far = (out: number) => (run.offFar ? run.to : run.to + out);
  return {
    a: { x: near(atStart), y: start },
    b: { x: far(atStart), y: start },
    c: { x: far(atEnd), y: length },
    d: { x: near(atEnd), y: length },
  };
}

function stroke(from: Point, to: Point): Path {
  return { closed: false, segments: [{ kind: 'line', from, to }] };
}
