import type { Product } from './asked.js';
import type { Drawing } from './drawing/model.js';
import { sayIn } from './findings/say.js';
import type { Job, Printer, Shop } from './job/types.js';
import { cuttingOf, plateDrawing } from './plate-drawings.js';
import { type DrawingFormat, loadWriter } from './writers/list.js';

/** Drawings as files of one format: plates as the shop wants them cut, patterns as they are. */

/** A file to be written: its path below the output folder, with forward slashes, and all of its content. */
export interface MadeFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

export interface NamedDrawing {
  readonly name: string;
  readonly product: Product;
  /** With nominal outlines. */
  readonly drawing: Drawing;
}

export async function writeDrawings(
  format: DrawingFormat,
  drawings: readonly NamedDrawing[],
  job: Job,
): Promise<readonly MadeFile[]> {
  const cutting = cuttingOf(job.shop);
  const files: MadeFile[] = [];
  for (const { name, product, drawing } of drawings) {
    const isPlate = product !== 'pattern';
    const made =
      isPlate && cutting.ok ? plateDrawing(name, drawing, cutting.value, sayIn(job.units)) : undefined;
    const whole = made === undefined ? drawing : made.ok ? made.value : undefined;
    if (!whole) continue;
    files.push({ path: `${name}.${format}`, content: await written(format, whole, job.shop) });
  }
  return files;
}

/** A drawing as a file of a format, as the shop wants its files. */
async function written(format: DrawingFormat, drawing: Drawing, shop: Shop): Promise<string | Uint8Array> {
  const { colours, files = {} } = shop;
  switch (format) {
    case 'svg':
      return (await loadWriter('svg')).write(drawing, { colours, ...files.svg });
    case 'dxf':
      return (await loadWriter('dxf')).write(drawing, { colours, ...files.dxf });
    case 'pdf':
      return (await loadWriter('pdf')).write(drawing, { colours, ...printOf(shop) });
  }
}

/** How drawings are put on the shop's paper. */
export const printOf = ({ printer, files }: Shop): Printer & { readonly overlap?: number } => ({
  ...printer,
  ...files?.pdf,
});
