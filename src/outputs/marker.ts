import { type Finding, finding, isRefused } from '../findings/finding.js';
import { sayIn } from '../findings/say.js';
import { markerOf } from '../pattern/marker.js';
import { holdingOf } from '../plate-cut/holding.js';
import { type Format, isMachineFormat } from '../writers/list.js';
import { type Outputs, once, outputs, ownerOf } from './artifact.js';
import type { MadeContext } from './context.js';
import { drawnPlates } from './drawn.js';
import { cuttingOf, preparePlates } from './plates.js';

/** Thickness of a printed marker, mm, unless the shop says another: stiff enough, thin enough to mark along. */
const PRINTED_MARKER = 1.2;

/** Markers, which are plates too: cut as the shop cuts its plates, and printed where they hook, for a folded one is of card. */
export function markerOutputs({ job, joint, made }: MadeContext, isNamed: boolean) {
  const { shop } = job;
  const owner = ownerOf('marker', joint.name);
  const say = sayIn(job.units);
  const cutting = cuttingOf(shop);
  const drawn = once(() =>
    markerOf(
      made.solved,
      joint.marker ?? {},
      job.title,
      say,
      cutting.ok ? holdingOf(cutting.value, say).label : undefined,
    ),
  );
  const prepared = once(() => {
    if (!cutting.ok) return { plates: [], findings: cutting.findings };
    const { plates, findings } = preparePlates(drawn(), cutting.value, say);
    return {
      plates,
      findings: isRefused(findings) ? findings.map((one) => (isNamed ? one : softened(one))) : [],
    };
  });
  const printed = once(async () => {
    const { printedOutputs } = await import('./printed.js');
    const plates = drawn().map(({ name, drawing }) => ({ name, nominal: drawing }));
    return printedOutputs(plates, shop.print?.marker ?? PRINTED_MARKER, job, owner);
  });
  return async (format: Format): Promise<Outputs> => {
    if (format === 'gcode') return outputs([]);
    if (!isMachineFormat(format)) {
      const { plates, findings } = prepared();
      return outputs(drawnPlates(format, plates, owner, job), findings);
    }
    if (joint.marker?.form === 'hook') return (await printed())(format);
    const at = `joints.${joint.name}.marker.form`;
    return outputs([], drawn().length > 0 ? [finding('marker-not-printed', 'ok', at, { format })] : []);
  };
}

/** The other files can be made all the same: a marker that can't be cut stops the work only where it is asked for by name. */
const softened = (one: Finding): Finding => (one.level === 'refused' ? { ...one, level: 'caution' } : one);
