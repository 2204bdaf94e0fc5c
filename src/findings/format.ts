import { sentence } from './catalogue.js';
import type { Speaker } from './family-codes.js';
import type { Finding, Level } from './finding.js';
import type { Locator } from './place.js';
import { plainText } from './plain-text.js';
import type { Say } from './say.js';

/**
 * One line for each finding, in the order given: `file:line:column: key: what was read, what is wrong, what
 * would do`. What is not a refusal says so after the key; a finding about a whole file has no key.
 */
export function formatFindings(
  findings: readonly Finding[],
  locate: Locator,
  say: Say,
  known: readonly Speaker[] = [],
): readonly string[] {
  return findings.map((one) => formatFinding(one, locate, say, known));
}

export function formatFinding(
  one: Finding,
  locate: Locator,
  say: Say,
  known: readonly Speaker[] = [],
): string {
  const place = locate(one.at);
  const where = place === undefined ? [] : [`${place.file}:${place.line}:${place.column}`];
  const key = keyOf(one.at);
  return plainText(
    [...where, ...(key === '' ? [] : [key]), ...words[one.level], sentence(one, say, known)].join(': '),
  );
}

/** Keys longer than this are no help; characters. */
const LONGEST_KEY = 120;

/** The key that `at` names: without the line and column of text that could not be read as keys. */
function keyOf(at: string): string {
  const key = at.replace(/@\d+:\d+$/, '');
  return key.length > LONGEST_KEY ? `${key.slice(0, LONGEST_KEY)}…` : key;
}

const words: Readonly<Record<Level, readonly string[]>> = { refused: [], caution: ['caution'], ok: ['note'] };
