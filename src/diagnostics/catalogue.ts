import { wordings } from './codes.js';
import type { Code, DataOf, Diagnostic, DiagnosticOf } from './diagnostic.js';
import { familyEntry, familySentence, type Speaker } from './family-codes.js';
import type { Entry, Fix, FixContext } from './fix.js';
import type { Formatter } from './formatter.js';
import { plainText } from './plain-text.js';

/** The sentence of a diagnostic, with lengths in the reader's units; what it quotes can only be read. */
export function sentence(one: Diagnostic, fmt: Formatter, known: readonly Speaker[] = []): string {
  return plainText(isOwn(one) ? ownSentence(one, fmt) : familySentence(one, fmt, known));
}

/** The changes to the job that answer a diagnostic, best first; none where only the maker can know. */
export function fixesOf(one: Diagnostic, to: FixContext, known: readonly Speaker[] = []): readonly Fix[] {
  if (isOwn(one)) return ownFixes(one, to);
  const entry = familyEntry(one, known);
  return entry && typeof entry !== 'function' ? entry.fixes(one.data, to) : [];
}

const entries: { readonly [C in Code]: Entry<DataOf<C>> } = wordings;

function isOwn(one: Diagnostic): one is DiagnosticOf<Code> {
  return one.code in wordings;
}

function ownSentence<C extends Code>(one: DiagnosticOf<C>, fmt: Formatter): string {
  const entry: Entry<DataOf<C>> = entries[one.code];
  return typeof entry === 'function' ? entry(one.data, fmt) : entry.text(one.data, fmt);
}

function ownFixes<C extends Code>(one: DiagnosticOf<C>, to: FixContext): readonly Fix[] {
  const entry: Entry<DataOf<C>> = entries[one.code];
  return typeof entry === 'function' ? [] : entry.fixes(one.data, to);
}
