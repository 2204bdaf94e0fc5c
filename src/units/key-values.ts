/** `key=value` words as typed, put together again where spaces stood inside one: `bit = 0.02 mm` is one, not four. */
export function keyValues(words: readonly string[]): readonly string[] {
  if (words.length === 0) return [];
  return words
    .join(BETWEEN)
    .replace(/\s*=\s*/g, '=')
    .replace(/\n(mm|cm|m|in|")(?=\n|$)/gi, ' $1')
    .split(BETWEEN);
}

/** No word of a command line holds one. */
const BETWEEN = '\n';
