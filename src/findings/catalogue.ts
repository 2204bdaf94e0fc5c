import { wordings } from './codes.js';
import { familyEntry, familySentence, type Speaker } from './family-codes.js';
import type { Code, DataOf, Finding, FindingOf } from './finding.js';
import type { Entry, Fix, FixContext } from './fix.js';
import { plainText } from './plain-text.js';
import type { Say } from './say.js';

/** The sentence of a finding, with lengths in the reader's units; what it quotes can only be read. */
export function sentence(one: Finding, say: Say, known: readonly Speaker[] = []): string {
  return plainText(isOwn(one) ? ownSentence(one, say) : familySentence(one, say, known));
}

/** The changes to the job that answer a finding, best first; none where only the maker can know. */
export function fixesOf(one: Finding, to: FixContext, known: readonly Speaker[] = []): readonly Fix[] {
  if (isOwn(one)) return ownFixes(one, to);
  const entry = familyEntry(one, known);
  return entry && typeof entry !== 'function' ? entry.fixes(one.data, to) : [];
}

const entries: { readonly [C in Code]: Entry<DataOf<C>> } = wordings;

function isOwn(one: Finding): one is FindingOf<Code> {
  return one.code in wordings;
}

function ownSentence<C extends Code>(one: FindingOf<C>, say: Say): string {
  const entry: Entry<DataOf<C>> = entries[one.code];
  return typeof entry === 'function' ? entry(one.data, say) : entry.text(one.data, say);
}

function ownFixes<C extends Code>(one: FindingOf<C>, to: FixContext): readonly Fix[] {
  const entry: Entry<DataOf<C>> = entries[one.code];
  return typeof entry === 'function' ? [] : entry.fixes(one.data, to);
}
