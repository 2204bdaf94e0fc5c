import { type Colours, defaultColours } from '../../shared/operations.js';
import { paperSize } from '../../shared/paper.js';
import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Edit } from '../diagnostics/fix.js';
import type { Locator } from '../diagnostics/position.js';
import { judgePaper } from '../drawing/tiling/paper.js';
import { readBar } from '../drawing/tiling/printer-scale.js';
import { scalePage } from '../drawing/tiling/scale-page.js';
import { pagesOn } from '../drawing/tiling/tiling.js';
import type { FileUnits } from '../input/fields/read-value.js';
import { PRINTER_SCALES } from '../input/limits.js';
import { readShop, unitReader } from '../input/shop.js';
import type { Printer } from '../input/types.js';
import { editYaml } from '../input/yaml/edit-yaml.js';
import { besideFile } from '../input/yaml/file-path.js';
import { locator } from '../input/yaml/locate.js';
import { readTree, type Source } from '../input/yaml/tree.js';
import type { LengthUnit } from '../units/length.js';

/** How true a printer prints: the page that shows it, and the factors that cure it. No disk, no terminal. */

/** The printer of a shop file, or of a job that holds its shop, and where in the text its keys stand. */
export interface ShopPrinter {
  readonly printer: Printer;
  readonly units: LengthUnit;
  /** Where the section stands: `printer` in a shop file, `shop.printer` in a job. */
  readonly path: readonly string[];
}

/** A shop's printer, or every reason why it cannot be told; and the places of keys, for messages. */
export interface PrinterReading {
  readonly result: Result<ShopPrinter>;
  readonly locate: Locator;
}

export function readPrinter(source: Source): PrinterReading {
  const bare = readTree(source, '');
  const isJob = isMap(bare.value) && ('joints' in bare.value || 'shop' in bare.value);
  const tree = isJob ? bare : readTree(source, 'shop');
  const locate = locator({ job: { name: source.name, places: tree.places } });
  return { result: printerOf(source, tree.value, tree.diagnostics, isJob), locate };
}

function printerOf(
  { name }: Source,
  value: unknown,
  faults: readonly Diagnostic[],
  isJob: boolean,
): Result<ShopPrinter> {
  if (hasErrors(faults)) return err(faults);
  const shop: unknown = isJob && isMap(value) ? value.shop : value;
  if (typeof shop === 'string' && isJob) {
    return err([diagnostic('shop-elsewhere', 'refused', 'shop', { path: besideFile(name, shop) })]);
  }
  if (isJob && shop === undefined) return err([diagnostic('printer-no-shop', 'refused', '', {})]);
  const units = unitsOf(shop) ?? (isJob ? unitsOf(value) : undefined) ?? { units: 'in', known: false };
  const reading = readShop(shop, units);
  const about = reading.diagnostics.filter(({ at }) => /^shop($|@|\.printer\b)/.test(at));
  if (hasErrors(about)) return err(about);
  const path = isJob ? ['shop', 'printer'] : ['printer'];
  return ok({ printer: reading.printer, units: units.units, path });
}

function unitsOf(value: unknown): FileUnits | undefined {
  const read = isMap(value) && value.units !== undefined ? unitReader.read(value.units) : undefined;
  return read?.ok ? { units: read.value, known: true } : undefined;
}

function isMap(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The bars that a page has along the short and the long edge of its paper, mm. */
export interface CheckPage {
  readonly content: Uint8Array;
  readonly bars: { readonly x?: number; readonly y?: number };
}

/** The scale-check page as PDF: made with the printer's factors, plain where they are 1. */
export async function printerPage(printer: Printer): Promise<Result<CheckPage>> {
  const size = paperSize(printer.paper);
  if (!size) throw new Error(`paper without a size: ${JSON.stringify(printer.paper)}`);
  const diagnostics = judgePaper(size, printer, 'shop.printer');
  if (hasErrors(diagnostics)) return err(diagnostics);
  const { drawing, frame } = scalePage(size, printer);
  const { pdfWriter } = await import('../writers/pdf/pdf.js');
  const colours: Colours = { ...defaultColours, REF: '#000000' };
  const content = await pdfWriter.write(pagesOn(drawing, printer), { colours });
  const [x, y] = frame.turned ? [frame.barY, frame.barX] : [frame.barX, frame.barY];
  return ok({
    content: typeof content === 'string' ? new TextEncoder().encode(content) : content,
    bars: { ...(x && { x: x.length }), ...(y && { y: y.length }) },
  });
}

/** Measured lengths of the scale bars along the short (x) and the long (y) edge of the paper, mm. */
export interface MeasuredBars {
  readonly x?: number;
  readonly y?: number;
  /** Whether the page that they are on was made without factors or with those of the shop. */
  readonly page?: 'plain' | 'corrected';
}

export interface FactorChange {
  readonly axis: 'x' | 'y';
  readonly nominal: number;
  readonly measured: number;
  readonly before: number;
  readonly after: number;
}

export interface FactorsSet {
  readonly text: string;
  readonly changes: readonly FactorChange[];
}

/**
 * The text of a shop file with the factors that the measured bars ask for; all else in it stays as it is,
 * byte for byte. On a plain page a factor is nominal ÷ measured; on a corrected one that, times the factor
 * that the page was made with. An axis that was not measured keeps its factor. Refused when it is not known
 * which page was measured, and when a measurement is no bar.
 */
export function setFactors(
  text: string,
  { printer, path }: ShopPrinter,
  measured: MeasuredBars,
): Result<FactorsSet> {
  const { scaleX, scaleY } = printer;
  if (measured.page === undefined && (scaleX !== 1 || scaleY !== 1)) {
    return err([diagnostic('factors-at-page', 'refused', '', { x: scaleX, y: scaleY })]);
  }
  const results = (['x', 'y'] as const).flatMap((axis) => {
    const length = measured[axis];
    if (length === undefined) return [];
    const before = axis === 'x' ? scaleX : scaleY;
    return [changeOf(axis, length, before, measured.page === 'corrected' ? before : 1)];
  });
  const diagnostics = results.flatMap((one) => one.diagnostics);
  const changes = results.flatMap((one) => (one.ok ? [one.value] : []));
  if (changes.length < results.length) return err(diagnostics);
  const edits = changes
    .filter(({ before, after }) => before !== after)
    .map(({ axis, after }): Edit => ({ set: [...path, `scale-${axis}`], to: `${after}` }));
  return ok({ text: edited(text, edits), changes }, diagnostics);
}

function changeOf(axis: 'x' | 'y', length: number, before: number, made: number): Result<FactorChange> {
  const read = readBar(length, made, `--${axis}`);
  if (!read.ok) return read;
  const { nominal, measured, factor: after } = read.value;
  const { least, most } = PRINTER_SCALES;
  if (after < least || after > most) {
    return err([diagnostic('factor-range', 'refused', `--${axis}`, { factor: after, before, least, most })]);
  }
  return ok({ axis, nominal, measured, before, after }, read.diagnostics);
}

/** Edits without the byte order mark, which is no part of the YAML but stays in the file. */
function edited(text: string, edits: readonly Edit[]): string {
  const mark = text.startsWith('\u{feff}') ? '\u{feff}' : '';
  return mark + editYaml(text.slice(mark.length), edits);
}
