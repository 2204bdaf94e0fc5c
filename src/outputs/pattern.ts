import { formatterFor } from '../diagnostics/formatter.js';
import { patterns } from '../template/patterns/pattern.js';
import { type Format, isMachineFormat } from '../writers/list.js';
import { type Outputs, once, outputs, ownerOf } from './artifact.js';
import type { MadeContext } from './context.js';
import { drawnArtifact } from './drawn.js';

/** Full-size patterns, which are of paper and never compensated. */
export function patternOutputs({ job, joint, made }: MadeContext) {
  const owner = ownerOf('pattern', joint.name);
  const drawn = once(() => patterns(made.solved, job.title, formatterFor(job.units)));
  return async (format: Format): Promise<Outputs> =>
    isMachineFormat(format)
      ? outputs([])
      : outputs(drawn().map((one) => drawnArtifact(format, one, owner, job)));
}
