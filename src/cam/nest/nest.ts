/**
 * Plates laid out on sheets in rows. Sheets for templates have no grain that matters, so a plate may lie or be
 * turned by a quarter. A plate counts as the rectangle around it. All in mm, from a sheet's lower left corner.
 */

export interface PlateSize {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly copies: number;
}

export interface SheetSize {
  readonly width: number;
  readonly height: number;
  /** Left free along every edge. */
  readonly edge: number;
  /** Left free between two plates. */
  readonly spacing: number;
}

/** One plate on a sheet by the lower left corner of its rectangle, after it was turned. */
export interface PlacedPlate {
  /** Index among the plates given. */
  readonly plate: number;
  /** 1 for the first copy. */
  readonly copy: number;
  /** By a quarter turn, counter-clockwise. */
  readonly turned: boolean;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Nest {
  readonly sheets: readonly (readonly PlacedPlate[])[];
  /** Indexes of plates that no sheet takes, either way round. */
  readonly tooLarge: readonly number[];
}

/**
 * Every copy of every plate, the deepest first, each in the first row with room; of the ways to lay plates
 * (lying, standing, as they are drawn) the one that takes the fewest sheets, then the least of the last of
 * them. The same plates give the same nest.
 */
export function nest(plates: readonly PlateSize[], sheet: SheetSize): Nest {
  const fits = (width: number, height: number): boolean =>
    width <= sheet.width - 2 * sheet.edge + NEST_ROUNDING &&
    height <= sheet.height - 2 * sheet.edge + NEST_ROUNDING;
  const tooLarge = plates.flatMap(({ width, height }, i) =>
    fits(width, height) || fits(height, width) ? [] : [i],
  );
  const ways = turns.map((wish) => {
    const pieces = plates.flatMap((one, plate) =>
      tooLarge.includes(plate) ? [] : copiesOf(one, plate, turnFor(one, wish, fits)),
    );
    return inRows(pieces, sheet);
  });
  const best = ways.reduce((least, one) => (isSmaller(one, least) ? one : least));
  return { sheets: best.map((rows) => rows.flatMap(({ plates: row }) => row)), tooLarge };
}

/** The share of a sheet that plates of this area (mm², their own, not their rectangles') are made of. */
export const usedShare = (areas: readonly number[], { width, height }: SheetSize): number =>
  areas.reduce((sum, one) => sum + one, 0) / (width * height);

/** Sizes that come from inches differ in the last digit, mm. */
const NEST_ROUNDING = 1e-6;

const turns = ['lying', 'standing', 'as drawn'] as const;
type Turn = (typeof turns)[number];

function turnFor(
  { width, height }: PlateSize,
  wish: Turn,
  fits: (width: number, height: number) => boolean,
): boolean {
  const wanted = wish === 'lying' ? height > width : wish === 'standing' ? width > height : false;
  return (wanted ? fits(height, width) : fits(width, height)) ? wanted : !wanted;
}

type NestPiece = Omit<PlacedPlate, 'x' | 'y'>;

function copiesOf(
  { width, height, copies }: PlateSize,
  plate: number,
  turned: boolean,
): readonly NestPiece[] {
  const size = turned ? { width: height, height: width } : { width, height };
  return Array.from({ length: copies }, (_, i) => ({ plate, copy: i + 1, turned, ...size }));
}

interface NestRow {
  readonly y: number;
  readonly height: number;
  /** Where the next plate of the row begins. */
  readonly x: number;
  readonly plates: readonly PlacedPlate[];
}

type Rows = readonly NestRow[];

/** The first plate of a row is its deepest, as the deepest come first. */
function inRows(pieces: readonly NestPiece[], sheet: SheetSize): readonly Rows[] {
  const order = [...pieces].sort(
    (a, b) => b.height - a.height || b.width - a.width || a.plate - b.plate || a.copy - b.copy,
  );
  const sheets: Rows[] = [];
  for (const piece of order) {
    const tried = [...sheets, []].map((rows) => rowsWith(rows, piece, sheet));
    const found = tried.findIndex((rows) => rows !== undefined);
    const filled = tried[found];
    if (filled) sheets[found] = filled;
  }
  return sheets;
}

/** The rows of a sheet with one plate more, or undefined where there is no room for it. */
function rowsWith(
  rows: Rows,
  piece: NestPiece,
  { width, height, edge, spacing }: SheetSize,
): Rows | undefined {
  const room = (x: number): boolean => x + piece.width <= width - edge + NEST_ROUNDING;
  const found = rows.findIndex((row) => room(row.x) && piece.height <= row.height + NEST_ROUNDING);
  const row = rows[found];
  if (row) return rows.with(found, added(row, piece, spacing));
  const last = rows.at(-1);
  const y = last ? last.y + last.height + spacing : edge;
  if (!room(edge) || y + piece.height > height - edge + NEST_ROUNDING) return undefined;
  return [...rows, added({ y, height: piece.height, x: edge, plates: [] }, piece, spacing)];
}

const added = (row: NestRow, piece: NestPiece, spacing: number): NestRow => ({
  ...row,
  x: row.x + piece.width + spacing,
  plates: [...row.plates, { ...piece, x: row.x, y: row.y }],
});

function isSmaller(one: readonly Rows[], other: readonly Rows[]): boolean {
  const depth = (sheets: readonly Rows[]): number => {
    const last = sheets.at(-1)?.at(-1);
    return last ? last.y + last.height : 0;
  };
  return one.length !== other.length ? one.length < other.length : depth(one) < depth(other) - NEST_ROUNDING;
}
