import { type PaperSize, paperSize } from '../../../shared/paper.js';
import type { Extents } from '../../geometry/types.js';
import { type Contour, contoursOf, drawnExtents } from '../contours.js';
import type { Drawing, KeepClear } from '../model.js';
import { pens } from '../styles.js';
import { clipToWindow } from './clip.js';
import { frameMarks, frameOf, hasSpace, joining, labelMarks, madeFor, printing } from './frame.js';
import { mapItems } from './map.js';
import { cellsAlong } from './seams.js';
import { sharedCrosses, type TilePlace, tileItems } from './tile.js';
import {
  defaultOverlap,
  type Frame,
  type Page,
  type PaperOptions,
  type PrintOptions,
  type Tile,
  type TiledPages,
} from './types.js';

/**
 * A drawing at true size on as many pages as it needs: the orientation that takes fewer, no page without
 * something of the drawing, neighbours sharing an overlap and crosses, a map of the whole in front when there
 * is more than one. Every page has scale bars along both edges, outside the drawing. Pure: the same drawing
 * and paper give the same pages. The paper must have room (see `judgePaper`); throws if it has not.
 */
export function tileDrawing(drawing: Drawing, paper: PaperSize, options: PrintOptions): TiledPages {
  const contours = contoursOf(drawing);
  const whole = drawnExtents(drawing) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const plans = [false, true].flatMap((turned) => planOn(drawing, contours, whole, paper, turned, options));
  const [first, second] = plans;
  if (!first) throw new Error(`no room on ${paper.width} × ${paper.height} mm; judgePaper comes first`);
  return pagesOf(drawing, contours, whole, second && suitsBetter(second, first, whole) ? second : first);
}

/** The same on the paper that a shop names; throws where nobody knows its size. */
export function pagesOn(drawing: Drawing, options: PaperOptions): TiledPages {
  const size = paperSize(options.paper);
  if (!size)
    throw new Error(`paper without a size: ${JSON.stringify(options.paper)}; judgePaper comes first`);
  return tileDrawing(drawing, size, options);
}

/** One orientation: where the pages lie over the drawing. */
interface Plan {
  readonly frame: Frame;
  readonly rows: number;
  readonly columns: number;
  readonly places: readonly TilePlace[];
}

/** One page if the drawing goes on one, else tiles with the words for joining them; none without room. */
function planOn(
  drawing: Drawing,
  contours: readonly Contour[],
  whole: Extents,
  paper: PaperSize,
  turned: boolean,
  options: PrintOptions,
): readonly Plan[] {
  const single = { title: drawing.title, instructions: [...printing, ...madeFor(options)] };
  const several = { title: drawing.title, instructions: [...printing, joining, ...madeFor(options)] };
  for (const words of [single, several]) {
    const frame = frameOf(paper, turned, options, words);
    if (!hasSpace(frame, options.overlap ?? defaultOverlap)) return [];
    const plan = { frame, ...placesOn(frame, contours, whole, drawing.keepClear, options) };
    if (words === several || plan.places.length <= 1) return [plan];
  }
  return [];
}

function placesOn(
  { area }: Frame,
  contours: readonly Contour[],
  whole: Extents,
  keepClear: KeepClear | undefined,
  { overlap = defaultOverlap }: PrintOptions,
): Pick<Plan, 'rows' | 'columns' | 'places'> {
  const columns = cellsAlong(whole.minX, whole.maxX, {
    longest: area.maxX - area.minX - pens.drawing,
    overlap,
    keepClear: keepClear?.x ?? [],
  });
  const rows = cellsAlong(whole.minY, whole.maxY, {
    longest: area.maxY - area.minY - pens.drawing,
    overlap,
    keepClear: keepClear?.y ?? [],
  }).toReversed();
  const places = rows.flatMap((row, i) =>
    columns.map(
      (column, k): TilePlace => ({
        row: i + 1,
        column: k + 1,
        cell: { minX: column.from, maxX: column.to, minY: row.from, maxY: row.to },
        shown: { minX: column.shownFrom, maxX: column.shownTo, minY: row.shownFrom, maxY: row.shownTo },
      }),
    ),
  );
  const holding = places.filter((place) => holdsInk(contours, ownPart(place.cell, whole)));
  return {
    rows: rows.length,
    columns: columns.length,
    places: contours.length === 0 ? places.slice(0, 1) : holding,
  };
}

/** What lies on a seam belongs to the cell after it, so that it keeps one page and not two from being empty, mm. */
const ON_SEAM = 1e-6;

function ownPart(cell: Extents, whole: Extents): Extents {
  return {
    ...cell,
    maxX: cell.maxX === whole.maxX ? cell.maxX : cell.maxX - ON_SEAM,
    maxY: cell.maxY === whole.maxY ? cell.maxY : cell.maxY - ON_SEAM,
  };
}

const holdsInk = (contours: readonly Contour[], cell: Extents): boolean =>
  contours.some((one) => clipToWindow(one.line, cell).length > 0);

/** Fewer pages; when both take as many, the page that lies as the drawing does. */
function suitsBetter(one: Plan, other: Plan, whole: Extents): boolean {
  if (one.places.length !== other.places.length) return one.places.length < other.places.length;
  const wide = whole.maxX - whole.minX > whole.maxY - whole.minY;
  return one.frame.turned === wide;
}

function pagesOf(drawing: Drawing, contours: readonly Contour[], whole: Extents, plan: Plan): TiledPages {
  const { frame, places, rows, columns } = plan;
  const mapped = places.length > 1;
  const count = places.length + (mapped ? 1 : 0);
  const crosses = sharedCrosses(places);
  const tiles = places.map((place, i): Tile => {
    const number = `page ${i + (mapped ? 2 : 1)} of ${count}`;
    const label = mapped ? `row ${place.row}, column ${place.column} - ${number}` : number;
    const tile = tileItems(place, places, crosses, contours, frame);
    return {
      kind: 'tile',
      ...place,
      ...tile,
      items: [...tile.items, ...labelMarks(frame, label)],
    };
  });
  const map = (): Page => ({
    kind: 'map',
    items: [
      ...mapItems({ frame, places, contours, whole, notes: drawing.notes }),
      ...labelMarks(frame, `map - page 1 of ${count}`),
    ],
  });
  return {
    title: drawing.title,
    notes: drawing.notes,
    frame,
    extents: whole,
    rows,
    columns,
    tiles,
    onEveryPage: frameMarks(frame),
    pages: mapped ? [map(), ...tiles] : tiles,
  };
}
