import type { Wordings } from './codes.js';
import type { Fixable } from './fix.js';

/** What a finding means for the work: fine and worth saying; go on with care; cannot be made as asked. */
export type Level = 'ok' | 'caution' | 'refused';

/** The codes of halfpin itself. */
export type Code = keyof Wordings;

/** The numbers (mm, radians) and names that the sentence of a catalogue's entry needs. */
export type DataIn<E> =
  E extends Fixable<infer D> ? D : E extends (...needs: infer N) => string ? FirstOf<N> : never;

type FirstOf<N> = N extends readonly [infer D, ...unknown[]] ? D : Readonly<Record<never, never>>;

/** The data of every code. */
export type DataByCode = { readonly [C in Code]: DataIn<Wordings[C]> };

export type DataOf<C extends Code> = DataByCode[C];

/** A finding of one of these codes. */
export type FindingOf<C extends Code> = {
  readonly [K in C]: {
    readonly code: K;
    readonly level: Level;
    readonly at: string;
    readonly data: DataByCode[K];
  };
}[C];

/**
 * A finding of a joint family's own, by a code of its `diagnostics` behind the family's kind: `lap/too-thin`. Plain
 * data, whatever its entry takes.
 */
export interface FamilyFinding {
  readonly code: `${string}/${string}`;
  readonly level: Level;
  readonly at: string;
  readonly data: object;
}

/**
 * One thing that is wrong or worth saying, as data. `at` is the dotted path of the key in the job file
 * that it concerns, e.g. `joints.tray-corner.bushing`; list items are numbered from 0, e.g. `layout.spans.2`.
 * Empty, it means the whole file; where text could not be read as keys it ends in `@line:column`.
 */
export type Finding = FindingOf<Code> | FamilyFinding;

/** Either a value (perhaps with cautions and remarks) or every reason why there is none. */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

export function finding<C extends Code>(code: C, level: Level, at: string, data: DataOf<C>): FindingOf<C> {
  return { code, level, at, data };
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
