import { type Finding, given, isRefused, type Result, refused } from './findings/finding.js';
import { reportedFindings } from './findings/reported.js';
import { sayIn } from './findings/say.js';
import type { Job, Joint } from './job/types.js';
import { type MachineFiles, machineFiles } from './machine-files.js';
import type { Cutting } from './plate-cut/compensated.js';
import type { SheetSize } from './plate-cut/nest.js';
import { type NestedSheet, type NestingPlate, nestedSheets, sheetOf } from './plate-cut/nest-drawing.js';
import { cuttingOf, plateDrawing } from './plate-drawings.js';
import { type FingerTemplate, writtenAs } from './template/finger-template.js';
import { tidied } from './units/tidied.js';
import { type Format, isMachineFormat } from './writers/list.js';
import { type NamedDrawing, writeDrawings } from './written-drawings.js';

/** The plates of one joint. */
export interface PlatesOfJoint {
  readonly joint: Joint;
  readonly templates: readonly FingerTemplate[];
  /** The same once more, with what cuts them on their labels. */
  readonly labelled: (cutting: Cutting) => Result<readonly FingerTemplate[]>;
}

/** `nest-1` and so on in each format, with programs that cut a whole sheet where they are asked for, and `nest.json`. */
export async function nestFiles(
  job: Job,
  plates: readonly PlatesOfJoint[],
  as: readonly Format[],
): Promise<MachineFiles> {
  const [first] = plates;
  if (!first) return { files: [], findings: [] };
  const laid = (
    templatesOf: (plates: PlatesOfJoint) => Result<readonly FingerTemplate[]>,
  ): Result<SheetsOfPlates> => {
    const all = plates.map((one) => ({ ...one, result: templatesOf(one) }));
    const findings = all.flatMap(({ result }) => (result.ok ? [] : result.findings));
    if (findings.length > 0) return refused(findings);
    const drawn = all.flatMap(({ joint, result }) =>
      (result.ok ? result.value : [])
        .flatMap(writtenAs)
        .map((one) => ({ ...one, joint: joint.name, copies: joint.template.copies ?? 1 })),
    );
    return sheetsOfPlates(job, drawn);
  };
  const nest = laid(({ templates }) => given(templates));
  if (!nest.ok || nest.value.sheets.length === 0) return { files: [], findings: nest.findings };
  const drawings = drawingsIn(nest.value);
  const drawn = await Promise.all(
    as.flatMap((format) => (isMachineFormat(format) ? [] : [writeDrawings(format, drawings, job)])),
  );
  const programs = as.includes('gcode')
    ? machineFiles('gcode', {
        fingers: drawings,
        markers: [],
        joint: first.joint,
        shop: job.shop,
        say: sayIn(job.units),
        labelled: (cutting) => {
          const labelled = laid((one) => one.labelled(cutting));
          return labelled.ok ? given(drawingsIn(labelled.value)) : labelled;
        },
      })
    : { files: [], findings: [] };
  const report = { path: 'nest.json', content: nestReport(nest.value, nest.findings, job) };
  return {
    files: [...drawn.flat(), ...programs.files, report],
    findings: [...nest.findings, ...programs.findings],
  };
}

const drawingsIn = ({ sheets }: SheetsOfPlates): readonly NamedDrawing[] =>
  sheets.map(({ name, drawing }) => ({ name, product: 'nest', drawing }));

/** Every plate of a job laid on sheets, with the report of it. */
interface SheetsOfPlates {
  readonly sheets: readonly NestedSheet[];
  readonly size: SheetSize;
}

/** The plates on as few sheets as rows make of them, nominal; none where the job has no plates. */
function sheetsOfPlates(job: Job, plates: readonly NestingPlate[]): Result<SheetsOfPlates> {
  const size = sheetOf(job.shop);
  if (!size.ok) return size;
  const sheets = nestedSheets(plates, size.value, job.title);
  if (!sheets.ok) return sheets;
  const findings = [...size.findings, ...sheets.findings, ...cutFindings(job, sheets.value)];
  const made = { sheets: sheets.value, size: size.value };
  return isRefused(findings) ? { ok: false, findings } : given(made, findings);
}

/** What speaks against cutting them that does not show in each plate. */
function cutFindings(job: Job, sheets: readonly NestedSheet[]): readonly Finding[] {
  const cutting = cuttingOf(job.shop);
  if (!cutting.ok) return cutting.findings;
  return sheets.flatMap(({ name, drawing }) => {
    const made = plateDrawing(name, drawing, cutting.value, sayIn(job.units));
    return made.ok ? [] : made.findings;
  });
}

/** `nest.json`, mm: each sheet with the share of it in use and where its plates lie, turned or not. */
function nestReport({ sheets, size }: SheetsOfPlates, findings: readonly Finding[], job: Job): string {
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
    findings: reportedFindings(findings, sayIn(job.units)),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
