import type { Drawing } from '../drawing/model.js';
import { pagesOn } from '../drawing/tiling/tiling.js';
import type { Job, Printer, Shop } from '../input/types.js';
import { type DrawingFormat, loadWriter } from '../writers/list.js';
import { type Artifact, artifact, type Owner } from './artifact.js';
import type { PreparedPlate } from './plates.js';

/** A drawing as a file of one format; the writer is read when the file is asked for. */
export function drawnArtifact(
  format: DrawingFormat,
  { name, drawing }: { readonly name: string; readonly drawing: Drawing },
  owner: Owner,
  { shop }: Job,
): Artifact {
  return artifact(owner, `${name}.${format}`, () => written(format, drawing, shop));
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
      return (await loadWriter('pdf')).write(pagesOn(drawing, printOf(shop)), { colours });
  }
}

/** How drawings are put on the shop's paper. */
export const printOf = ({ printer, files }: Shop): Printer & { readonly overlap?: number } => ({
  ...printer,
  ...files?.pdf,
});

/** Plates as files of one format, each with the path that cuts it. */
export const drawnPlates = (
  format: DrawingFormat,
  plates: readonly PreparedPlate[],
  owner: Owner,
  job: Job,
): readonly Artifact[] =>
  plates.map(({ name, filed }) => drawnArtifact(format, { name, drawing: filed }, owner, job));
