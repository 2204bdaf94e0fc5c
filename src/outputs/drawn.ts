import type { Drawing, Layer } from '../drawing/model.js';
import type { Job } from '../job/types.js';
import { type Format, loadWriter, type MachineFormat } from '../writers/list.js';
import { type Artifact, artifact, type Owner } from './artifact.js';
import type { PreparedPlate } from './plates.js';

/** Formats that hold a drawing and nothing else, each with the ending of its files. */
export type DrawnFormat = Exclude<Format, MachineFormat>;

/** A drawing as a file of one format; the writer is read when the file is asked for. */
export function drawnArtifact(
  format: DrawnFormat,
  { name, drawing }: { readonly name: string; readonly drawing: Drawing },
  owner: Owner,
  { shop }: Job,
): Artifact {
  return artifact(owner, `${name}.${format}`, async () => {
    const writer = await loadWriter(format);
    return writer.write(drawing, {
      ...shop.printer,
      colours: shop.colours as Readonly<Record<Layer, string>>,
    });
  });
}

/** Plates as files of one format, each with the path that cuts it. */
export const drawnPlates = (
  format: DrawnFormat,
  plates: readonly PreparedPlate[],
  owner: Owner,
  job: Job,
): readonly Artifact[] =>
  plates.map(({ name, filed }) => drawnArtifact(format, { name, drawing: filed }, owner, job));
