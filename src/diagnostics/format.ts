import { sentence } from './catalogue.js';
import type { Diagnostic, Level } from './diagnostic.js';
import type { Speaker } from './family-codes.js';
import type { Formatter } from './formatter.js';
import { plainText } from './plain-text.js';
import type { Locator } from './position.js';

/**
 * One line for each diagnostic, in the order given: `file:line:column: key: what was read, what is wrong, what
 * works`. What is not a refusal says so after the key; a diagnostic about a whole file has no key.
 */
export function formatDiagnostics(
  diagnostics: readonly Diagnostic[],
  locate: Locator,
  fmt: Formatter,
  known: readonly Speaker[] = [],
): readonly string[] {
  return diagnostics.map((one) => formatDiagnostic(one, locate, fmt, known));
}

export function formatDiagnostic(
  one: Diagnostic,
  locate: Locator,
  fmt: Formatter,
  known: readonly Speaker[] = [],
): string {
  const place = locate(one.at);
  const where = place === undefined ? [] : [`${place.file}:${place.line}:${place.column}`];
  const key = lastKey(one.at);
  return plainText(
    [...where, ...(key === '' ? [] : [key]), ...levelWords[one.level], sentence(one, fmt, known)].join(': '),
  );
}

/** Keys longer than this are no help; characters. */
const LONGEST_KEY = 120;

/** The key that `at` names: without the line and column of text that could not be read as keys. */
function lastKey(at: string): string {
  const key = at.replace(/@\d+:\d+$/, '');
  return key.length > LONGEST_KEY ? `${key.slice(0, LONGEST_KEY)}…` : key;
}

const levelWords: Readonly<Record<Level, readonly string[]>> = {
  refused: [],
  caution: ['caution'],
  ok: ['note'],
};
