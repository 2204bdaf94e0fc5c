import { type Diagnostic, diagnostic, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Drawing } from '../../drawing/model.js';
import type { ToolMove, ToolProgram } from '../../drawing/tool-moves.js';
import { containsPoint } from '../../geometry/outline.js';
import { plus, times, turnedRight } from '../../geometry/point.js';
import { nested } from '../../geometry/regions/nesting.js';
import { tangentAt } from '../../geometry/segment.js';
import type { Outline, Path, Point, Region } from '../../geometry/types.js';
import { bedDiagnostics, blankOf, mm, movedBy } from '../blank.js';
import { PLATE_CAUTIONS } from '../cautions.js';
import type { CutPath, PlateSource } from '../compensated.js';
import type { BeamSettings } from '../settings.js';
import { markLines, startOf } from './marks.js';

/**
 * The program of a laser that follows the path of its beam's middle: lettering, scored lines, then what is cut through from the inside outward, with the
 * beam off on every way between. The beam starts on the line unless a lead-in is asked for. x and y are from the lower
 * left corner of the drawing's sheet, or else of the smallest that holds the plate, its kerf and the lead-in.
 */
export function beamProgram(
  drawing: Drawing,
  { path }: CutPath,
  settings: BeamSettings,
  source: PlateSource,
): Result<ToolProgram> {
  const { kerf, speed, power, leadIn, marks } = settings;
  const lines = markLines(drawing.items, ['ENGRAVE', 'SCORE']);
  const cuts = [...nested(path)].sort((a, b) => b.depth - a.depth).map(({ outline }) => outline);
  const moves = [
    ...(marks ? lines.flatMap((one) => burnt(one, marks.speed, marks.power)) : []),
    ...cuts.flatMap((one) => burnt(one, speed, power, leadStart(one, leadIn, path))),
  ];
  const blank = blankOf(drawing, path, leadIn + kerf / 2);
  const { dx, dy, width, height } = blank;
  const unmarked: readonly Diagnostic[] =
    marks || lines.length === 0
      ? []
      : [diagnostic('beam-marks-missing', 'caution', source.at, { name: source.name })];
  return ok(
    {
      remarks: [
        drawing.title,
        `Tool: laser, kerf ${mm(kerf)}. The program holds the path of the middle of its beam: do not compensate it again.`,
        `Zero: the lower left corner of a sheet ${mm(width)} by ${mm(height)}. The beam is off on every way between.`,
        ...PLATE_CAUTIONS,
      ],
      tool: { kind: 'beam' },
      blank: { width, height },
      moves: moves.map((move) => movedBy(move, dx, dy)),
    },
    [...unmarked, ...bedDiagnostics(blank, settings, source)],
  );
}

function burnt(line: Outline | Path, speed: number, power: number, lead?: Point): readonly ToolMove[] {
  const start = startOf(line);
  const cut = (along: Outline['segments'][number]): ToolMove => ({ kind: 'cut', along, z: 0, feed: speed });
  return [
    { kind: 'travel', to: lead ?? start },
    { kind: 'beam', power },
    ...(lead ? [cut({ kind: 'line', from: lead, to: start })] : []),
    ...line.segments.map(cut),
    { kind: 'beam', power: 0 },
  ];
}

/** Beside the start, in the waste, which lies to the right; the start itself where the waste is too narrow. */
function leadStart(one: Outline, leadIn: number, path: Region): Point | undefined {
  const [first] = one.segments;
  if (leadIn === 0 || !first) return undefined;
  const outward = turnedRight(tangentAt(first, 0));
  const tried = [0.25, 0.5, 0.75, 1].map((share) => plus(first.from, times(outward, leadIn * share)));
  return tried.some((at) => containsPoint(path, at)) ? undefined : tried.at(-1);
}
