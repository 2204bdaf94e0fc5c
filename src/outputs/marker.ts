import { plateNote } from '../cam/plate-note.js';
import { type Diagnostic, diagnostic, hasErrors } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import { markerOf } from '../template/patterns/marker.js';
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
  const fmt = formatterFor(job.units);
  const cutting = cuttingOf(shop);
  const drawn = once(() =>
    markerOf(
      made.solved,
      joint.marker ?? {},
      job.title,
      fmt,
      cutting.ok ? plateNote(cutting.value, fmt).label : undefined,
    ),
  );
  const prepared = once(() => {
    if (!cutting.ok) return { plates: [], diagnostics: cutting.diagnostics };
    const { plates, diagnostics } = preparePlates(drawn(), cutting.value, fmt);
    return {
      plates,
      diagnostics: hasErrors(diagnostics) ? diagnostics.map((one) => (isNamed ? one : softened(one))) : [],
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
      const { plates, diagnostics } = prepared();
      return outputs(drawnPlates(format, plates, owner, job), diagnostics);
    }
    if (joint.marker?.form === 'hook') return (await printed())(format);
    const at = `joints.${joint.name}.marker.form`;
    return outputs([], drawn().length > 0 ? [diagnostic('marker-not-printed', 'ok', at, { format })] : []);
  };
}

/** The other files can be made all the same: a marker that can't be cut stops the work only where it is asked for by name. */
const softened = (one: Diagnostic): Diagnostic =>
  one.level === 'refused' ? { ...one, level: 'caution' } : one;
