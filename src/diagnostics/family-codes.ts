import type { DataIn, FamilyDiagnostic, Level } from './diagnostic.js';
import type { Entry } from './fix.js';
import type { Formatter } from './formatter.js';

/** Codes of a joint family's own, each with its sentence, and its fixes where a change of the job answers it. */
export type Catalogue = Readonly<Record<string, Entry<object>>>;

/** Whoever has codes of its own, under a name that stands before them: a joint family. */
export interface Speaker {
  readonly kind: string;
  readonly diagnostics?: Catalogue;
}

/**
 * How a family raises its own codes: `raiser('lap', words)('too-thin', 'refused', at, data)`. The data is checked
 * against the code's sentence; the diagnostic is plain data, and the family's words are found again by its kind.
 */
export function raiser<T extends { readonly [C in keyof T]: Entry<never> }>(kind: string, _words: T) {
  return <C extends keyof T & string>(
    code: C,
    level: Level,
    at: string,
    data: DataIn<T[C]> & object,
  ): FamilyDiagnostic => ({ code: `${kind}/${code}`, level, at, data });
}

export function familyEntry(
  { code }: FamilyDiagnostic,
  known: readonly Speaker[],
): Catalogue[string] | undefined {
  const [kind, own = ''] = code.split('/');
  return known.find((one) => one.kind === kind)?.diagnostics?.[own];
}

/** The sentence of a family's own code; where the family isn't known, the code and what it says in numbers. */
export function familySentence(one: FamilyDiagnostic, fmt: Formatter, known: readonly Speaker[]): string {
  const entry = familyEntry(one, known);
  if (!entry) return `${one.code} ${JSON.stringify(one.data)}`;
  return typeof entry === 'function' ? entry(one.data, fmt) : entry.text(one.data, fmt);
}
