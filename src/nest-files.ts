import { type Finding, given, isRefused, type Result } from './findings/finding.js';
import { sayIn } from './findings/say.js';
import type { Job } from './job/types.js';
import type { SheetSize } from './plate-cut/nest.js';
import { type NestedSheet, type NestingPlate, nestedSheets, sheetOf } from './plate-cut/nest-drawing.js';
import { cuttingOf, plateDrawing } from './plate-drawings.js';
import { reportedFindings } from './report.js';

/** Every plate of a job laid on sheets, with the report of it. */
export interface SheetsOfPlates {
  readonly sheets: readonly NestedSheet[];
  readonly size: SheetSize;
}

/** The plates on as few sheets as rows make of them, nominal; none where the job has no plates. */
export function sheetsOfPlates(job: Job, plates: readonly NestingPlate[]): Result<SheetsOfPlates> {
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
export function nestReport({ sheets, size }: SheetsOfPlates, findings: readonly Finding[], job: Job): string {
  const report = {
    sheet: size,
    sheets: sheets.map(({ name, used, placed }) => ({
      name,
      used: rounded(used),
      plates: placed.map(({ joint, name: template, copy, turned, x, y, width, height }) => ({
        joint,
        template,
        copy,
        turned: turned ? 90 : 0,
        from: [rounded(x), rounded(y)],
        to: [rounded(x + width), rounded(y + height)],
      })),
    })),
    findings: reportedFindings(findings, sayIn(job.units)),
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}

/** As in report.json. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
