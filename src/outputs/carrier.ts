import type { Cutting } from '../cam/compensated.js';
import { type Diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { type Formatter, formatterFor } from '../diagnostics/formatter.js';
import {
  type CarrierContext,
  type CarrierPiece,
  carrierDrawings,
  carrierPieces,
} from '../template/carrier/drawing.js';
import { carriersToCut } from '../template/carrier/list.js';
import { screwsNote } from '../template/carrier/screws.js';
import type { Carrier } from '../template/carrier/types.js';
import { bedOf } from '../template/seams.js';
import { type Format, isMachineFormat } from '../writers/list.js';
import { type Outputs, once, outputs, ownerOf } from './artifact.js';
import { type MadeContext, programCutting } from './context.js';
import { drawnPlates } from './drawn.js';
import { cuttingOf, type PreparedPlate, preparePlate, preparePlates } from './plates.js';

/** What carries a joint's plates: parts that are cut from the plates' own sheet, all those of a plate in one file. */

export const carriersOf = ({ made }: MadeContext): readonly Carrier[] => carriersToCut(made.templates);

function contextOf({ job, joint }: MadeContext, carrier: Carrier): CarrierContext {
  const bed = bedOf(job.shop);
  return {
    jobTitle: job.title,
    joint: joint.name,
    notes: notesOf(carrier, formatterFor(job.units)),
    ...(bed && { bed }),
  };
}

const notesOf = ({ template, thickness, screws }: Carrier, fmt: Formatter): readonly string[] => [
  `Parts that hang under ${template}, from the same sheet of ${fmt.length(thickness)}, lettering up; the line beside an edge marks the one that boards lie against.`,
  screwsNote(screws, fmt),
];

/** Carriers in the formats of plates. */
export function carrierOutputs(context: MadeContext) {
  const { job, joint } = context;
  const owner = ownerOf('carrier', joint.name);
  const drawn = once(() =>
    carriersOf(context).flatMap((one) => carrierDrawings(one, contextOf(context, one))),
  );
  const prepared = once(() => {
    const cutting = cuttingOf(job.shop);
    if (!cutting.ok) return { plates: [], diagnostics: cutting.diagnostics };
    return preparePlates(drawn(), cutting.value, formatterFor(job.units));
  });
  return async (format: Format): Promise<Outputs> => {
    if (drawn().length === 0) return outputs([]);
    if (!isMachineFormat(format)) {
      const { plates, diagnostics } = prepared();
      return outputs(drawnPlates(format, plates, owner, job), diagnostics);
    }
    if (format !== 'gcode') {
      const { printedOutputs } = await import('./printed.js');
      const plates = drawn().map(({ name, drawing }) => ({ name, nominal: drawing }));
      return printedOutputs(plates, job.shop.plate.thickness, job, owner)(format);
    }
    const cutting = programCutting(job.shop);
    if (!cutting.ok) return outputs([], cutting.diagnostics);
    const { programOutputs } = await import('./programs.js');
    const { plates, diagnostics } =
      job.shop.plate.cutFor === undefined
        ? preparePlates(drawn(), cutting.value, formatterFor(job.units))
        : prepared();
    if (hasErrors(diagnostics)) return outputs([], diagnostics);
    const programs = programOutputs(plates, job.shop, owner);
    return outputs(programs.artifacts, [...diagnostics, ...programs.diagnostics]);
  };
}

/** Every piece by itself, with the path that cuts it, to be laid on sheets. */
export function preparedPieces(
  context: MadeContext,
  cutting: Cutting,
): Result<readonly (PreparedPlate & Pick<CarrierPiece, 'copies'>)[]> {
  const fmt = formatterFor(context.job.units);
  const all = carriersOf(context)
    .flatMap((one) => carrierPieces(one, contextOf(context, one)))
    .map((piece) => ({ piece, result: preparePlate(piece, cutting, fmt) }));
  const diagnostics: readonly Diagnostic[] = all.flatMap(({ result }) => result.diagnostics);
  const pieces = all.flatMap(({ piece: { copies }, result }) =>
    result.ok ? [{ ...result.value, copies }] : [],
  );
  return pieces.length === all.length ? ok(pieces, diagnostics) : err(diagnostics);
}
