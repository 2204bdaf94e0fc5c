import type { Wordings } from './catalogue.js';

/** What a finding means for the work: fine and worth saying; go on with care; cannot be made as asked. */
export type Level = 'ok' | 'caution' | 'refused';

export type Code = keyof Wordings;

/** The numbers (mm, radians) and names that the wording of a code needs. */
export type DataOf<C extends Code> = Parameters<Wordings[C]>[0];

/**
 * One thing that is wrong or worth saying, as data. `at` is the dotted path of the key in the job file
 * that it concerns, e.g. `joints.tray-corner.bushing`; list items are numbered from 0, e.g. `layout.spans.2`.
 * Empty, it means the whole file; where text could not be read as keys it ends in `@line:column`.
 */
export type Finding = { [C in Code]: FindingOf<C> }[Code];

export interface FindingOf<C extends Code> {
  readonly code: C;
  readonly level: Level;
  readonly at: string;
  readonly data: DataOf<C>;
}

/** Either a value (perhaps with cautions and remarks) or every reason why there is none. */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

export function finding<C extends Code>(code: C, level: Level, at: string, data: DataOf<C>): Finding {
  return { code, level, at, data } as FindingOf<C> as Finding;
}

export function given<T>(value: T, findings: readonly Finding[] = []): Result<T> {
  return { ok: true, value, findings };
}

export function refused<T>(findings: readonly Finding[]): Result<T> {
  return { ok: false, findings };
}

export function isRefused(findings: readonly Finding[]): boolean {
  return findings.some((one) => one.level === 'refused');
}
