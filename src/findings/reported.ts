import { sentence } from './catalogue.js';
import type { Speaker } from './family-codes.js';
import type { Finding, Level } from './finding.js';
import type { Say } from './say.js';

/** A finding for programs: its code and place, and its sentence in the job's units. */
export interface ReportedFinding {
  readonly code: string;
  readonly level: Level;
  readonly at: string;
  readonly text: string;
}

export function reportedFindings(
  findings: readonly Finding[],
  say: Say,
  known: readonly Speaker[] = [],
): readonly ReportedFinding[] {
  return findings.map((one) => ({
    code: one.code,
    level: one.level,
    at: one.at,
    text: sentence(one, say, known),
  }));
}
