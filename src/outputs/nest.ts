import type { Cutting } from '../cam/compensated.js';
import type { SheetSize } from '../cam/nest/nest.js';
import { type NestedSheet, nestedSheets, sheetOf } from '../cam/nest/nest-drawing.js';
import { type Diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import { reportedDiagnostics } from '../diagnostics/reported.js';
import type { Job, Joint } from '../input/types.js';
import { tidied } from '../units/tidied.js';
import { type Format, isMachineFormat } from '../writers/list.js';
import { artifact, type Outputs, type Owner, outputs, together } from './artifact.js';
import { preparedPieces } from './carrier.js';
import { type MadeContext, programCutting } from './context.js';
import { drawnPlates } from './drawn.js';
import { cuttingOf, type PreparedPlate, plateAlong } from './plates.js';

/** All plates of a job, and the carriers' parts where they are asked for, laid on as few sheets as rows make of them. */

const owner: Owner = { product: 'nest', folder: '' };

/** `nest-1` and so on in each format, with programs that cut a whole sheet where they are asked for, and `nest.json`. */
export async function nestOutputs(
  job: Job,
  contexts: readonly MadeContext[],
  as: readonly Format[],
  withCarriers: boolean,
): Promise<Outputs> {
  const [first] = contexts;
  const cutting = cuttingOf(job.shop);
  if (!first || !cutting.ok) return outputs([]);
  const carriers = withCarriers ? cutting.value : undefined;
  const nest = sheetsOfPlates(job, contexts, ({ made }) => ok(made.plates), carriers);
  if (!nest.ok || nest.value.sheets.length === 0) return outputs([], nest.diagnostics);
  const sheets = nest.value.sheets.map((sheet) => asPlate(sheet, cutting.value, job));
  const drawn = as.flatMap((format) =>
    isMachineFormat(format) ? [] : drawnPlates(format, sheets, owner, job),
  );
  const programs = as.includes('gcode') ? await programsOf(job, contexts, sheets, withCarriers) : outputs([]);
  const report = artifact(owner, 'nest.json', () => nestReport(nest.value, nest.diagnostics, job));
  return together([outputs(drawn, nest.diagnostics), programs, outputs([report])]);
}

async function programsOf(
  job: Job,
  contexts: readonly MadeContext[],
  filed: readonly PreparedPlate[],
  withCarriers: boolean,
): Promise<Outputs> {
  const { programOutputs } = await import('./programs.js');
  const cutting = programCutting(job.shop);
  if (!cutting.ok) return outputs([], cutting.diagnostics);
  if (job.shop.plate.cutFor !== undefined) return programOutputs(filed, job.shop, owner);
  const carriers = withCarriers ? cutting.value : undefined;
  const nest = sheetsOfPlates(job, contexts, ({ programmed }) => programmed(), carriers);
  if (!nest.ok) return outputs([], nest.diagnostics);
  const sheets = nest.value.sheets.map((sheet) => asPlate(sheet, cutting.value, job));
  return programOutputs(sheets, job.shop, owner);
}

const asPlate = ({ name, drawing, path }: NestedSheet, cutting: Cutting, { units }: Job): PreparedPlate =>
  plateAlong(name, drawing, path, cutting, formatterFor(units));

/** A plate, or a piece of a carrier with how often it is cut. */
type Copied = PreparedPlate & { readonly copies?: number };

/** Every plate of a job laid on sheets, with the report of it. */
interface SheetsOfPlates {
  readonly sheets: readonly NestedSheet[];
  readonly size: SheetSize;
}

/** The plates on their sheets by their nominal sizes, with the paths that cut them; none where the job has no plates. */
function sheetsOfPlates(
  job: Job,
  contexts: readonly MadeContext[],
  platesOf: (context: MadeContext) => Result<readonly PreparedPlate[]>,
  carriers: Cutting | undefined,
): Result<SheetsOfPlates> {
  const all = contexts.flatMap((context): readonly { joint: Joint; result: Result<readonly Copied[]> }[] => [
    { joint: context.joint, result: platesOf(context) },
    ...(carriers ? [{ joint: context.joint, result: preparedPieces(context, carriers) }] : []),
  ]);
  const diagnostics = all.flatMap(({ result }) => (result.ok ? [] : result.diagnostics));
  if (diagnostics.length > 0) return err(diagnostics);
  const plates = all.flatMap(({ joint, result }) =>
    (result.ok ? result.value : []).map(({ name, nominal, path, copies = 1 }) => ({
      name,
      path,
      drawing: nominal,
      joint: joint.name,
      copies: copies * (joint.template.copies ?? 1),
    })),
  );
  const size = sheetOf(job.shop);
  if (!size.ok) return size;
  const sheets = nestedSheets(plates, size.value, job.title);
  if (!sheets.ok) return sheets;
  return ok({ sheets: sheets.value, size: size.value }, [...size.diagnostics, ...sheets.diagnostics]);
}

/** `nest.json`, mm: each sheet with the share of it in use and where its plates lie, turned or not. */
function nestReport(
  { sheets, size }: SheetsOfPlates,
  diagnostics: readonly Diagnostic[],
  { units }: Job,
): string {
  const report = {
    sheet: size,
    sheets: sheets.map(({ name, used, placed }) => ({
      name,
      used: tidied(used),
      plates: placed.map(({ joint, name: template, copy, turned, x, y, width, height }) => ({
        joint,
        template,
        copy,
        turned: turned ? 90 : 0,
        from: tidied([x, y]),
        to: tidied([x + width, y + height]),
      })),
    })),
    diagnostics: reportedDiagnostics(diagnostics, formatterFor(units)),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
