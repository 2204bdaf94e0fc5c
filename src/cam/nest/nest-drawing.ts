import { type Diagnostic, diagnostic, err, ok, type Result } from '../../diagnostics/diagnostic.js';
import { closed, extentsOf, movedItem } from '../../drawing/drawing.js';
import type { Drawing, Item, Layer } from '../../drawing/model.js';
import { areaOfRegion, rectangle } from '../../geometry/outline.js';
import { rotate, translate } from '../../geometry/transform.js';
import type { Outline, Path, Region } from '../../geometry/types.js';
import type { Shop } from '../../input/types.js';
import { type CutPath, plateOf } from '../compensated.js';
import { nest, type PlacedPlate, type SheetSize, usedShare } from './nest.js';

/** A plate to be laid on sheets, in its nominal size. */
export interface NestingPlate {
  readonly joint: string;
  readonly name: string;
  readonly drawing: Drawing;
  /** What cuts it, as it lies in its drawing. */
  readonly path: CutPath;
  readonly copies: number;
}

/** One sheet with its plates; x and y from its lower left corner, its own edge on REF. */
export interface NestedSheet {
  /** `nest-1`. */
  readonly name: string;
  readonly drawing: Drawing;
  /** The paths of all plates where they lie. */
  readonly path: CutPath;
  readonly placed: readonly (PlacedPlate & { readonly joint: string; readonly name: string })[];
  /** Share of the sheet that plates are made of, 0 to 1. */
  readonly used: number;
}

/** Left free between what the tool takes of two plates, and at the sheet's edges, mm; common practice, no source. */
const BETWEEN_CUTS = 6;
const EDGE = 10;

/**
 * The sheet that plates are laid on: the stock, or as much of it as goes on the bed of the machine that cuts it.
 * Refused where the shop gives no sheet, or a spacing or an edge that the tool alone takes.
 */
export function sheetOf({ plate, laser, cnc }: Shop): Result<SheetSize> {
  if (!plate.sheet) return err([diagnostic('nest-no-sheet', 'refused', 'shop.plate.sheet', {})]);
  const machines = { laser: [laser?.kerf, laser?.bed], cnc: [cnc?.cutter, cnc?.bed] } as const;
  const [tool = 0, bed] =
    plate.cutFor === undefined
      ? [Math.max(laser?.kerf ?? 0, cnc?.cutter ?? 0), undefined]
      : machines[plate.cutFor];
  const spacing = plate.spacing ?? tool + BETWEEN_CUTS;
  if (spacing < tool + MIN_WEB) {
    return err([diagnostic('nest-spacing', 'refused', 'shop.plate.spacing', { spacing, tool })]);
  }
  const [width, height] = plate.sheet;
  const edge = plate.edge ?? Math.max(EDGE, tool);
  // The tool's middle, and the lead-in beside it, stay on the sheet: its corner is the program's zero.
  const least = tool / 2 + (plate.cutFor === 'laser' ? (laser?.leadIn ?? 0) : 0);
  if (edge < least) return err([diagnostic('nest-edge', 'refused', 'shop.plate.edge', { edge, least })]);
  const room = bed ? onBed([width, height], bed) : ([width, height] as const);
  const sheet = { width: room[0], height: room[1], spacing, edge };
  const cutDown = room[0] < width || room[1] < height;
  const data = { width, height, roomX: room[0], roomY: room[1] };
  return ok(sheet, cutDown ? [diagnostic('nest-sheet-cut-down', 'ok', 'shop.plate.sheet', data)] : []);
}

/** Between two cuts something has to stay standing, or the second runs in the first, mm. */
const MIN_WEB = 0.5;

/** The larger of the two pieces that a bed takes of a sheet laid along it or across. */
function onBed(
  [width, height]: readonly [number, number],
  [along, across]: readonly [number, number],
): readonly [number, number] {
  const straight = [Math.min(width, along), Math.min(height, across)] as const;
  const turned = [Math.min(height, along), Math.min(width, across)] as const;
  return turned[0] * turned[1] > straight[0] * straight[1] ? turned : straight;
}

/** The sheets that hold every copy of the plates, or the plates that no sheet takes. */
export function nestedSheets(
  plates: readonly NestingPlate[],
  sheet: SheetSize,
  jobTitle: string,
): Result<readonly NestedSheet[]> {
  const boxes = plates.map(({ drawing }) => extentsOf(drawing, ['CUT']) ?? NOTHING);
  const sizes = plates.map(({ name, copies }, i) => {
    const { minX, minY, maxX, maxY } = boxes[i] ?? NOTHING;
    return { name, copies, width: maxX - minX, height: maxY - minY };
  });
  const { sheets, tooLarge } = nest(sizes, sheet);
  if (tooLarge.length > 0) return err(tooLarge.map((i) => overSheet(plates[i], sizes[i], sheet)));
  const areas = plates.map(({ drawing }) => areaOfRegion(plateOf(drawing)));
  const drawn = sheets.map((placed, i): NestedSheet => {
    const items = placed.flatMap((one) => {
      const plate = plates[one.plate];
      return plate
        ? plate.drawing.items.filter(isOnSheet).map((item) => laid(item, one, boxes[one.plate] ?? NOTHING))
        : [];
    });
    const along = (which: keyof CutPath): Region =>
      placed.flatMap((one) =>
        (plates[one.plate]?.path[which] ?? []).map((outline) =>
          laidLine(outline, one, boxes[one.plate] ?? NOTHING),
        ),
      );
    const notes = placed.flatMap(({ plate }) => plates[plate]?.drawing.notes ?? []);
    return {
      name: `nest-${i + 1}`,
      path: { plate: along('plate'), path: along('path') },
      used: usedShare(
        placed.map(({ plate }) => areas[plate] ?? 0),
        sheet,
      ),
      placed: placed.map((one) => {
        const { joint = '', name = '' } = plates[one.plate] ?? {};
        return { ...one, joint, name };
      }),
      drawing: {
        title: `${jobTitle}: plates, sheet ${i + 1} of ${sheets.length}`,
        notes: [...new Set(notes)],
        sheet: { width: sheet.width, height: sheet.height },
        items: [closed('REF', rectangle(0, 0, sheet.width, sheet.height)), ...items],
      },
    };
  });
  return ok(
    drawn,
    drawn.map(({ placed, used }, i) => sheetDiagnostic(i, placed.length, used, sheet)),
  );
}

const NOTHING = { minX: 0, minY: 0, maxX: 0, maxY: 0 };

function overSheet(
  plate: NestingPlate | undefined,
  size: { readonly width: number; readonly height: number } = { width: 0, height: 0 },
  { width, height, edge }: SheetSize,
): Diagnostic {
  return diagnostic('nest-plate-over-sheet', 'refused', `joints.${plate?.joint ?? ''}.template`, {
    name: plate?.name ?? '',
    width: size.width,
    height: size.height,
    roomX: width - 2 * edge,
    roomY: height - 2 * edge,
    edge,
  });
}

const sheetDiagnostic = (
  index: number,
  plates: number,
  used: number,
  { width, height }: SheetSize,
): Diagnostic =>
  diagnostic('nest-used', 'ok', 'shop.plate.sheet', {
    name: `nest-${index + 1}`,
    plates,
    used,
    width,
    height,
  });

/** What is done to the sheet; boards under the plates mean nothing here. */
const isOnSheet = ({ layer }: Item): boolean => onSheet.includes(layer);
const onSheet: readonly Layer[] = ['CUT', 'SCORE', 'ENGRAVE'];

type PlateCorner = { readonly minX: number; readonly minY: number; readonly maxY: number };

/** How far a plate is moved to its place, once it is turned: a quarter turn takes (x, y) to (−y, x). */
const placeOnSheet = (
  { turned, x, y }: PlacedPlate,
  { minX, minY, maxY }: PlateCorner,
): readonly [number, number] => (turned ? [x + maxY, y - minX] : [x - minX, y - minY]);

function laidLine<T extends Outline | Path>(line: T, placed: PlacedPlate, box: PlateCorner): T {
  const [dx, dy] = placeOnSheet(placed, box);
  return translate(placed.turned ? rotate(line, Math.PI / 2) : line, dx, dy);
}

/** An item of a plate where the plate lies on the sheet. */
function laid(item: Item, placed: PlacedPlate, box: PlateCorner): Item {
  const [dx, dy] = placeOnSheet(placed, box);
  return movedItem(item, {
    line: (line) => laidLine(line, placed, box),
    at: ({ x, y }) => (placed.turned ? { x: dx - y, y: x + dy } : { x: x + dx, y: y + dy }),
    turn: placed.turned ? Math.PI / 2 : 0,
  });
}
