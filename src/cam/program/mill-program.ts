import { type Diagnostic, diagnostic, ok, type Result } from '../../diagnostics/diagnostic.js';
import type { Drawing, Item, Layer } from '../../drawing/model.js';
import type { ToolMove, ToolProgram } from '../../drawing/tool-moves.js';
import { extents, reversed } from '../../geometry/outline.js';
import { nested } from '../../geometry/regions/nesting.js';
import type { Outline, Region } from '../../geometry/types.js';
import { type Blank, bedDiagnostics, blankOf, mm, movedBy } from '../blank.js';
import { CNC_CAUTIONS, MACHINE_FIRST } from '../cautions.js';
import type { CutPath, PlateSource } from '../compensated.js';
import type { MillSettings } from '../settings.js';
import { contour } from './contour.js';
import { markLines, startOf } from './marks.js';
import { profile } from './profile.js';
import { circleOf, roundHole, widestHelix } from './round-hole.js';
import { gapsFor } from './tabs.js';

/** A program and what its file's name ends with: nothing, or `-engrave` for marks with a tool of their own. */
export interface NamedProgram {
  readonly suffix: '' | '-engrave';
  readonly program: ToolProgram;
}

/**
 * The programs that mill a drawing's plate out of a sheet along the path of the end mill's middle: scores and lettering, then holes, then the rest from
 * the inside outward. Marks get a program of their own when an engraving bit cuts them. x and y are from the lower
 * left corner of the drawing's sheet, or else of the smallest blank: the plate and a cutter's width all round.
 */
export function millPrograms(
  drawing: Drawing,
  { plate, path }: CutPath,
  settings: MillSettings,
  source: PlateSource,
): Result<readonly NamedProgram[]> {
  const sheet = blankOf(drawing, plate, settings.cutter);
  const blank = { ...sheet, drawing, settings };
  const cut = throughCuts(path, settings, source);
  const marks = marksOf(drawing, settings, source);
  const { ownTool, tip, depth } = settings.marks;
  const engraving = marks.moves.length > 0;
  const milling: NamedProgram = {
    suffix: '',
    program: program([...(ownTool ? [] : marks.moves), ...cut.moves], blank, [
      `Tool: end mill ${mm(settings.cutter)} in diameter. The program holds the path of its middle: do not compensate it again.`,
      `Sheet ${mm(settings.thickness)}, cut to ${mm(settings.through)} below it. Passes: ${settings.pass} mm at most.`,
      ...(cut.tabs > 0
        ? [
            `Holding tabs: ${cut.tabs}, each ${mm(settings.tabs.width)} wide, ${mm(settings.tabs.height)} high.`,
          ]
        : []),
      ...(ownTool && engraving ? ['Run the engraving program first, with the same zero in x and y.'] : []),
    ]),
  };
  const engraved: NamedProgram = {
    suffix: '-engrave',
    program: program(marks.moves, blank, [
      `Tool: engraving bit, tip ${mm(tip)}. Depth ${mm(depth)}.`,
      'Run this first, then change the tool and set z again; keep x and y.',
    ]),
  };
  return ok(
    [...(ownTool && engraving ? [engraved] : []), milling],
    [...cut.diagnostics, ...marks.diagnostics, ...bedDiagnostics(sheet, settings, source)],
  );
}

// Through the sheet

function throughCuts(
  path: Region,
  settings: MillSettings,
  { name, at }: PlateSource,
): {
  readonly moves: readonly ToolMove[];
  readonly tabs: number;
  readonly diagnostics: readonly Diagnostic[];
} {
  const { tabs, cutter, direction } = settings;
  const diagnostics: Diagnostic[] = [];
  let placed = 0;
  const moves = nested(path)
    .map((one, index) => ({ ...one, index }))
    .sort((a, b) => b.depth - a.depth || a.index - b.index)
    .flatMap(({ outline, depth }): readonly ToolMove[] => {
      const hole = depth % 2 === 1 ? circleOf(outline) : undefined;
      if (hole && 2 * hole.radius + cutter <= widestHelix(cutter)) return roundHole(hole, settings);
      // Outlines come counter-clockwise and holes clockwise, which is conventional; a climb cut turns both round.
      const along = contour(direction === 'climb' ? reversed(outline) : outline);
      const gaps = tabs.count === 0 ? [] : gapsFor(along, tabs.count, tabs.width, cutter);
      if (gaps.length < tabs.count) {
        const data = { name, wanted: tabs.count, placed: gaps.length, gap: tabs.width + cutter };
        diagnostics.push(diagnostic('tabs-few', 'caution', at, data));
      }
      diagnostics.push(...smallPart(outline, depth, cutter, { name, at }));
      placed += gaps.length;
      return profile(along, gaps, settings);
    });
  if (tabs.count === 0) diagnostics.push(diagnostic('tabs-none', 'caution', at, { name }));
  return { moves, tabs: placed, diagnostics };
}

/** Parts narrower than this, mm, hang on their tabs by too little; common practice, no source. */
const SMALL_PART = 40;

/** The part, or what falls out of an opening, as the tool leaves it: inside its path by half a cutter, or without it. */
function smallPart(
  path: Outline,
  depth: number,
  cutter: number,
  { name, at }: PlateSource,
): readonly Diagnostic[] {
  const { minX, minY, maxX, maxY } = extents(path);
  const [width, height] = [maxX - minX - cutter, maxY - minY - cutter];
  // What is narrower than the cutter goes up in chips.
  if (Math.min(width, height) <= 0 || Math.min(width, height) >= SMALL_PART) return [];
  return depth % 2 === 0 || Math.min(width, height) > cutter
    ? [diagnostic('part-small', 'caution', at, { name, width, height })]
    : [];
}

// On the face of the sheet

/** Lettering lower than this many tool widths can't be read. */
const MIN_LETTERS = 4;

function marksOf(
  drawing: Drawing,
  settings: MillSettings,
  { name, at }: PlateSource,
): { readonly moves: readonly ToolMove[]; readonly diagnostics: readonly Diagnostic[] } {
  const { marks, cutter } = settings;
  const heights = drawing.items.flatMap((item) => (item.kind === 'text' ? [item.height] : []));
  const height = Math.min(...heights);
  const drowned = height < MIN_LETTERS * marks.tip;
  const layers: readonly Layer[] = drowned ? ['SCORE'] : ['ENGRAVE', 'SCORE'];
  return {
    moves: markMoves(drawing.items, layers, settings),
    diagnostics: drowned ? [diagnostic('letters-under-mill', 'caution', at, { name, height, cutter })] : [],
  };
}

function markMoves(
  items: readonly Item[],
  layers: readonly Layer[],
  settings: MillSettings,
): readonly ToolMove[] {
  const { safeHeight, plunge, feed, marks } = settings;
  const up: ToolMove = { kind: 'lift', z: safeHeight };
  return markLines(items, layers).flatMap((one): readonly ToolMove[] => [
    up,
    { kind: 'travel', to: startOf(one) },
    { kind: 'plunge', z: -marks.depth, feed: plunge },
    ...one.segments.map((along): ToolMove => ({ kind: 'cut', along, z: -marks.depth, feed })),
    up,
  ]);
}

// Around it all

function program(
  moves: readonly ToolMove[],
  {
    drawing,
    settings,
    dx,
    dy,
    width,
    height,
  }: Blank & { readonly drawing: Drawing; readonly settings: MillSettings },
  remarks: readonly string[],
): ToolProgram {
  const { rpm, safeHeight } = settings;
  return {
    remarks: [
      drawing.title,
      ...remarks,
      `Zero: x and y at the lower left corner of a blank ${mm(width)} by ${mm(height)}, z on top of the sheet. Travel at ${mm(safeHeight)} over it.`,
      ...CNC_CAUTIONS,
      MACHINE_FIRST,
    ],
    tool: { kind: 'spindle', rpm, safeHeight },
    blank: { width, height },
    moves: moves.map((move) => movedBy(move, dx, dy)),
  };
}
