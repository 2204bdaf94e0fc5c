import { type Format, isMachineFormat } from '../writers/list.js';
import { type Outputs, once, outputs, ownerOf } from './artifact.js';
import type { MadeContext } from './context.js';
import { drawnPlates } from './drawn.js';

/** Finger templates: what the router's bushing runs along. */
export function fingerOutputs({ job, joint, made, programmed }: MadeContext) {
  const { plates } = made;
  const owner = ownerOf('finger', joint.name);
  const printed = once(async () => {
    const { printedOutputs } = await import('./printed.js');
    return printedOutputs(plates, job.shop.plate.thickness, job, owner);
  });
  return async (format: Format): Promise<Outputs> => {
    if (plates.length === 0) return outputs([]);
    if (!isMachineFormat(format)) {
      return outputs(drawnPlates(format, plates, owner, job));
    }
    if (format !== 'gcode') return (await printed())(format);
    const cut = programmed();
    if (!cut.ok) return outputs([], cut.diagnostics);
    const { programOutputs } = await import('./programs.js');
    const { artifacts, diagnostics } = programOutputs(cut.value, job.shop, owner);
    return outputs(artifacts, [...cut.diagnostics, ...diagnostics]);
  };
}
