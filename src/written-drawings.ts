import type { Product } from './asked.js';
import type { Drawing, Layer } from './drawing/model.js';
import { sayIn } from './findings/say.js';
import type { Job } from './job/types.js';
import { cuttingOf, plateDrawing } from './plate-drawings.js';
import { type Format, loadWriter } from './writers/list.js';

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
  format: Format,
  drawings: readonly NamedDrawing[],
  job: Job,
): Promise<readonly MadeFile[]> {
  const writer = await loadWriter(format);
  const cutting = cuttingOf(job.shop);
  const files: MadeFile[] = [];
  for (const { name, product, drawing } of drawings) {
    const isPlate = product !== 'pattern';
    const made =
      isPlate && cutting.ok ? plateDrawing(name, drawing, cutting.value, sayIn(job.units)) : undefined;
    const whole = made === undefined ? drawing : made.ok ? made.value : undefined;
    if (!whole) continue;
    const options = {
      ...job.shop.printer,
      colours: job.shop.colours as Readonly<Record<Layer, string>>,
      thickness: job.shop.plate.thickness,
    };
    files.push({ path: `${name}.${writer.extension}`, content: await writer.write(whole, options) });
  }
  return files;
}
