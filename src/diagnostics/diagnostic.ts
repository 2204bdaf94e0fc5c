import type { Wordings } from './codes.js';
import type { Fixable } from './fix.js';

/** What a diagnostic means for the work: fine and worth saying; go on with care; cannot be made as asked. */
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

/** A diagnostic of one of these codes. */
export type DiagnosticOf<C extends Code> = {
  readonly [K in C]: {
    readonly code: K;
    readonly level: Level;
    readonly at: string;
    readonly data: DataByCode[K];
  };
}[C];

/**
 * A diagnostic of a joint family's own, by a code of its `diagnostics` behind the family's kind: `lap/too-thin`. Plain
 * data, whatever its entry takes.
 */
export interface FamilyDiagnostic {
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
export type Diagnostic = DiagnosticOf<Code> | FamilyDiagnostic;

/** Either a value (perhaps with cautions and remarks) or every reason why there is none. */
export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly diagnostics: readonly Diagnostic[] }
  | { readonly ok: false; readonly diagnostics: readonly Diagnostic[] };

export function diagnostic<C extends Code>(
  code: C,
  level: Level,
  at: string,
  data: DataOf<C>,
): DiagnosticOf<C> {
  return { code, level, at, data };
}

export function ok<T>(value: T, diagnostics: readonly Diagnostic[] = []): Result<T> {
  return { ok: true, value, diagnostics };
}

export function err<T>(diagnostics: readonly Diagnostic[]): Result<T> {
  return { ok: false, diagnostics };
}

export function hasErrors(diagnostics: readonly Diagnostic[]): boolean {
  return diagnostics.some((one) => one.level === 'refused');
}
