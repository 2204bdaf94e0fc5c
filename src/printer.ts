import { type Colours, usualColours } from '../shared/operations.js';
import { paperSize } from '../shared/paper.js';
import { readBar } from './drawing/printer-scale.js';
import { scalePage } from './drawing/scale-page.js';
import { judgePaper } from './drawing/tiling-paper.js';
import { type Finding, finding, given, isRefused, type Result, refused } from './findings/finding.js';
import type { Edit } from './findings/fix.js';
import type { Locator } from './findings/place.js';
import { editYaml } from './job/edit-yaml.js';
import { besideFile } from './job/file-path.js';
import { PRINTER_SCALES } from './job/limits.js';
import { locator } from './job/locate.js';
import type { FileUnits } from './job/read-value.js';
import { readShop, unitReader } from './job/shop.js';
import { readTree, type Source } from './job/tree.js';
import type { Printer } from './job/types.js';
import type { LengthUnit } from './units/length.js';

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
  return { result: printerOf(source, tree.value, tree.findings, isJob), locate };
}

function printerOf(
  { name }: Source,
  value: unknown,
  faults: readonly Finding[],
  isJob: boolean,
): Result<ShopPrinter> {
  if (isRefused(faults)) return refused(faults);
  const shop: unknown = isJob && isMap(value) ? value.shop : value;
  if (typeof shop === 'string' && isJob) {
    return refused([finding('shop-elsewhere', 'refused', 'shop', { path: besideFile(name, shop) })]);
  }
  if (isJob && shop === undefined) return refused([finding('printer-no-shop', 'refused', '', {})]);
  const units = unitsOf(shop) ?? (isJob ? unitsOf(value) : undefined) ?? { units: 'in', known: false };
  const reading = readShop(shop, units);
  const about = reading.findings.filter(({ at }) => /^shop($|@|\.printer\b)/.test(at));
  if (isRefused(about)) return refused(about);
  const path = isJob ? ['shop', 'printer'] : ['printer'];
  return given({ printer: reading.printer, units: units.units, path });
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
  const findings = judgePaper(size, printer, 'shop.printer');
  if (isRefused(findings)) return refused(findings);
  const { drawing, frame } = scalePage(size, printer);
  const { pdfWriter } = await import('./writers/pdf.js');
  const colours: Colours = { ...usualColours, REF: '#000000' };
  const content = await pdfWriter.write(drawing, { ...printer, colours });
  const [x, y] = frame.turned ? [frame.barY, frame.barX] : [frame.barX, frame.barY];
  return given({
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
    return refused([finding('factors-at-page', 'refused', '', { x: scaleX, y: scaleY })]);
  }
  const results = (['x', 'y'] as const).flatMap((axis) => {
    const length = measured[axis];
    if (length === undefined) return [];
    const before = axis === 'x' ? scaleX : scaleY;
    return [changeOf(axis, length, before, measured.page === 'corrected' ? before : 1)];
  });
  const findings = results.flatMap((one) => one.findings);
  const changes = results.flatMap((one) => (one.ok ? [one.value] : []));
  if (changes.length < results.length) return refused(findings);
  const edits = changes
    .filter(({ before, after }) => before !== after)
    .map(({ axis, after }): Edit => ({ set: [...path, `scale-${axis}`], to: `${after}` }));
  return given({ text: edited(text, edits), changes }, findings);
}

function changeOf(axis: 'x' | 'y', length: number, before: number, made: number): Result<FactorChange> {
  const read = readBar(length, made, `--${axis}`);
  if (!read.ok) return read;
  const { nominal, measured, factor: after } = read.value;
  const { least, most } = PRINTER_SCALES;
  if (after < least || after > most) {
    return refused([finding('factor-range', 'refused', `--${axis}`, { factor: after, before, least, most })]);
  }
  return given({ axis, nominal, measured, before, after }, read.findings);
}

/** Edits without the byte order mark, which is no part of the YAML but stays in the file. */
function edited(text: string, edits: readonly Edit[]): string {
  const mark = text.startsWith('\u{feff}') ? '\u{feff}' : '';
  return mark + editYaml(text.slice(mark.length), edits);
}
