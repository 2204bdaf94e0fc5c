import { type Finding, given, type Result, refused } from '../findings/finding.js';
import { reportedFindings } from '../findings/reported.js';
import { sayIn } from '../findings/say.js';
import type { Job } from '../job/types.js';
import type { Cutting } from '../plate-cut/compensated.js';
import type { SheetSize } from '../plate-cut/nest.js';
import { type NestedSheet, nestedSheets, sheetOf } from '../plate-cut/nest-drawing.js';
import { tidied } from '../units/tidied.js';
import { type Format, isMachineFormat } from '../writers/list.js';
import { artifact, type Outputs, type Owner, outputs, together } from './artifact.js';
import { type MadeContext, programCutting } from './context.js';
import { drawnPlates } from './drawn.js';
import { cuttingOf, type PreparedPlate, plateAlong } from './plates.js';

/** All plates of a job laid on as few sheets as rows make of them. */

const owner: Owner = { product: 'nest', folder: '' };

/** `nest-1` and so on in each format, with programs that cut a whole sheet where they are asked for, and `nest.json`. */
export async function nestOutputs(
  job: Job,
  contexts: readonly MadeContext[],
  as: readonly Format[],
): Promise<Outputs> {
  const [first] = contexts;
  const cutting = cuttingOf(job.shop);
  if (!first || !cutting.ok) return outputs([]);
  const nest = sheetsOfPlates(job, contexts, ({ made }) => given(made.plates));
  if (!nest.ok || nest.value.sheets.length === 0) return outputs([], nest.findings);
  const sheets = nest.value.sheets.map((sheet) => asPlate(sheet, cutting.value, job));
  const drawn = as.flatMap((format) =>
    isMachineFormat(format) ? [] : drawnPlates(format, sheets, owner, job),
  );
  const programs = as.includes('gcode') ? await programsOf(job, contexts, sheets) : outputs([]);
  const report = artifact(owner, 'nest.json', () => nestReport(nest.value, nest.findings, job));
  return together([outputs(drawn, nest.findings), programs, outputs([report])]);
}

async function programsOf(
  job: Job,
  contexts: readonly MadeContext[],
  filed: readonly PreparedPlate[],
): Promise<Outputs> {
  const { programOutputs } = await import('./programs.js');
  const cutting = programCutting(job.shop);
  if (!cutting.ok) return outputs([], cutting.findings);
  if (job.shop.plate.cutFor !== undefined) return programOutputs(filed, job.shop, owner);
  const nest = sheetsOfPlates(job, contexts, ({ programmed }) => programmed());
  if (!nest.ok) return outputs([], nest.findings);
  const sheets = nest.value.sheets.map((sheet) => asPlate(sheet, cutting.value, job));
  return programOutputs(sheets, job.shop, owner);
}

const asPlate = ({ name, drawing, path }: NestedSheet, cutting: Cutting, { units }: Job): PreparedPlate =>
  plateAlong(name, drawing, path, cutting, sayIn(units));

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
): Result<SheetsOfPlates> {
  const all = contexts.map((context) => ({ joint: context.joint, result: platesOf(context) }));
  const findings = all.flatMap(({ result }) => (result.ok ? [] : result.findings));
  if (findings.length > 0) return refused(findings);
  const plates = all.flatMap(({ joint, result }) =>
    (result.ok ? result.value : []).map(({ name, nominal, path }) => ({
      name,
      path,
      drawing: nominal,
      joint: joint.name,
      copies: joint.template.copies ?? 1,
    })),
  );
  const size = sheetOf(job.shop);
  if (!size.ok) return size;
  const sheets = nestedSheets(plates, size.value, job.title);
  if (!sheets.ok) return sheets;
  return given({ sheets: sheets.value, size: size.value }, [...size.findings, ...sheets.findings]);
}

/** `nest.json`, mm: each sheet with the share of it in use and where its plates lie, turned or not. */
function nestReport({ sheets, size }: SheetsOfPlates, findings: readonly Finding[], { units }: Job): string {
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
    findings: reportedFindings(findings, sayIn(units)),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
