import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { closed } from '../drawing/drawing.js';
import type { Drawing, Item } from '../drawing/model.js';
import { offsetRegion } from '../geometry/offset.js';
import { regionOf } from '../geometry/regions/nesting.js';
import { withoutShortPieces } from '../geometry/regions/short-pieces.js';
import { tidyRegion } from '../geometry/regions/tidy.js';
import { EXACT_FIT, SLIVER } from '../geometry/tolerance.js';
import type { Region } from '../geometry/types.js';
import { type Relief, relieved, widestMill } from './relief.js';

/**
 * What cuts the plate, and so where the lines of its file lie: on the plate's own outline (nominal), or on the
 * path of the middle of a laser's beam or of an end mill. That path lies half the kerf or half the cutter
 * outside of outlines and inside of holes. All in mm.
 */
export type Cutting =
  | { readonly for: 'nominal' }
  | { readonly for: 'laser'; readonly kerf: number }
  | { readonly for: 'cnc'; readonly cutter: number; readonly relief: Relief };

/** Where a drawing comes from, for diagnostics: its name, and the key of the job file that they concern. */
export interface PlateSource {
  readonly name: string;
  readonly at: string;
}

/** The drawing with its CUT outlines compensated. */
export function compensated(drawing: Drawing, cutting: Cutting, source: PlateSource): Result<Drawing> {
  const made = cutPathOf(drawing, cutting, source);
  return made.ok ? ok(withCuts(drawing, made.value.path), made.diagnostics) : made;
}

/** The plate that a drawing shows and the path that cuts it: its own outline where nobody compensates. */
export function cutPathOf(drawing: Drawing, cutting: Cutting, source: PlateSource): Result<CutPath> {
  const plate = plateOf(drawing);
  return cutting.for === 'nominal'
    ? ok({ plate, path: withoutShortPieces(plate) })
    : toolPath(plate, cutting, source);
}

/** The drawing with other CUT outlines, after all else. */
export function withCuts(drawing: Drawing, path: Region): Drawing {
  const others = drawing.items.filter((item) => !isCut(item));
  return { ...drawing, items: [...others, ...path.map((one) => closed('CUT', one))] };
}

/** What is left of the sheet when the drawing's CUT outlines are cut. */
export const plateOf = (drawing: Drawing): Region =>
  regionOf(drawing.items.flatMap((item) => (isCut(item) ? [item.outline] : [])));

const isCut = (item: Item): item is Extract<Item, { kind: 'closed' }> =>
  item.kind === 'closed' && item.layer === 'CUT';

export interface CutPath {
  /** What the tool makes: the plate, with its relieved corners. */
  readonly plate: Region;
  /** Where the tool's middle runs: outlines counter-clockwise, holes clockwise. */
  readonly path: Region;
}

/** The path of a tool around a plate, or the places where the tool is too wide. */
export function toolPath(
  plate: Region,
  cutting: Exclude<Cutting, { for: 'nominal' }>,
  source: PlateSource,
): Result<CutPath> {
  const width = cutting.for === 'laser' ? cutting.kerf : cutting.cutter;
  if (width === 0) return ok({ plate, path: withoutShortPieces(plate) });
  const relief = cutting.for === 'laser' ? 'none' : cutting.relief;
  const made = relieved(plate, width, relief);
  // A beam rounds an inside corner by half its kerf, which no one sees; a gap that it fills is another matter.
  const missed =
    cutting.for === 'laser' ? made.missed.filter((one) => one.radius === undefined) : made.missed;
  const diagnostics = missedDiagnostics(missed, plate, cutting, source);
  if (diagnostics.length > 0) return err(diagnostics);
  // A hair short for a mill, so that a gap as wide as it, and a bite, keep their one line.
  const step = cutting.for === 'laser' ? width / 2 : width / 2 - EXACT_FIT;
  const path = withoutShortPieces(tidyRegion(offsetRegion(made.plate, step), SLIVER / 10));
  const { name, at } = source;
  const count = made.corners.length;
  return ok(
    { plate: made.plate, path },
    count > 0 ? [diagnostic('corners-relieved', 'ok', at, { name, count, relief, cutter: width })] : [],
  );
}

/** One place of each kind is named and the others counted. */
function missedDiagnostics(
  missed: ReturnType<typeof relieved>['missed'],
  plate: Region,
  cutting: Exclude<Cutting, { for: 'nominal' }>,
  { name, at }: PlateSource,
): readonly Diagnostic[] {
  const gaps = missed.filter(({ radius }) => radius === undefined);
  const corners = missed.filter(({ radius }) => radius !== undefined);
  const [gap] = gaps;
  const [corner] = corners;
  const more = { gaps: gaps.length - 1, corners: corners.length - 1 };
  if (cutting.for === 'laser') {
    const { kerf } = cutting;
    return gap
      ? [diagnostic('kerf-fills-gap', 'refused', at, { name, ...gap.at, kerf, more: more.gaps })]
      : [];
  }
  if (missed.length === 0) return [];
  const { cutter, relief } = cutting;
  const largest = widestMill(plate, relief, cutter);
  const shared = { name, cutter, largest };
  return [
    ...(corner
      ? [
          diagnostic('corner-under-mill', 'refused', at, {
            ...shared,
            ...corner.at,
            radius: corner.radius ?? 0,
            more: more.corners,
          }),
        ]
      : []),
    ...(gap ? [diagnostic('gap-under-mill', 'refused', at, { ...shared, ...gap.at, more: more.gaps })] : []),
  ];
}
