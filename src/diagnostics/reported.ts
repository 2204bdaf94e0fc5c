import { sentence } from './catalogue.js';
import type { Diagnostic, Level } from './diagnostic.js';
import type { Speaker } from './family-codes.js';
import type { Formatter } from './formatter.js';

/** A diagnostic for programs: its code and place, and its sentence in the job's units. */
export interface ReportedDiagnostic {
  readonly code: string;
  readonly level: Level;
  readonly at: string;
  readonly text: string;
}

export function reportedDiagnostics(
  diagnostics: readonly Diagnostic[],
  fmt: Formatter,
  known: readonly Speaker[] = [],
): readonly ReportedDiagnostic[] {
  return diagnostics.map((one) => ({
    code: one.code,
    level: one.level,
    at: one.at,
    text: sentence(one, fmt, known),
  }));
}
