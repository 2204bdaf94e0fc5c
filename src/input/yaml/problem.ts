import type { YAMLError } from 'yaml';

/** What is wrong with a YAML text, in words for someone who has never heard of YAML. */
export interface YamlProblem {
  readonly what: string;
  readonly cure: string;
  /** Where it is to be mended: often before the place at which the library stumbles. */
  readonly offset: number;
}

/** The fault of a text: the first of them in the text, and what it alone explains is left out. */
export function yamlProblems(errors: readonly YAMLError[], text: string): readonly YamlProblem[] {
  const first = errors.findIndex(({ code }) => shaken.has(code));
  return errors
    .filter(({ code }, index) => !shaken.has(code) || index === first)
    .map((error) => yamlProblem(error, text));
}

/** Once a line or a bracket does not stand where it should, the library finds the same fault in what follows. */
const shaken: ReadonlySet<YAMLError['code']> = new Set([
  'BAD_INDENT',
  'BLOCK_AS_IMPLICIT_KEY',
  'BLOCK_IN_FLOW',
  'MISSING_CHAR',
  'MULTILINE_IMPLICIT_KEY',
  'UNEXPECTED_TOKEN',
]);

export function yamlProblem(
  { code, message, pos }: Pick<YAMLError, 'code' | 'message' | 'pos'>,
  text: string,
): YamlProblem {
  const offset = pos[0];
  const general = problems[code] ?? { what: message, cure: 'mend the punctuation here' };
  return unclosed(message, text, offset) ?? split(code, message, text, offset) ?? { ...general, offset };
}

/** A bracket or a quotation mark that is never closed, where it opens. */
function unclosed(message: string, text: string, offset: number): YamlProblem | undefined {
  const mark = /^Missing closing (["'])/.exec(message)?.[1];
  if (mark !== undefined) {
    const cure = `write ${mark} where the text ends, or take this one out`;
    // Any later one would have closed it.
    return { what: `the quotation mark ${mark} here is not closed`, cure, offset: text.lastIndexOf(mark) };
  }
  if (!message.includes('end with')) return undefined;
  const bare = text.replace(/(^|\s)#[^\n]*/g, (remark) => ' '.repeat(remark.length));
  let closed = 0;
  for (let index = offset - 1; index >= 0; index--) {
    const sign = bare[index] ?? '';
    if ('}]'.includes(sign)) closed++;
    if (!'{['.includes(sign)) continue;
    if (closed-- > 0) continue;
    const end = sign === '{' ? '}' : ']';
    const instead = text[offset] ?? '';
    if ('}]'.includes(instead) && instead !== '') {
      const cure = `write ${end} in its place, or take it out`;
      return { what: `a bracket ${instead} where ${sign} is open`, cure, offset };
    }
    const what = `the bracket ${sign} here is not closed`;
    return { what, cure: `write ${end} where it ends; text with # in it stands in quotes`, offset: index };
  }
  return undefined;
}

/** A colon or a comma that is missing, or a line in a column of its own. */
function split(
  code: YAMLError['code'],
  message: string,
  text: string,
  offset: number,
): YamlProblem | undefined {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const before = text.slice(start, offset);
  const after = /^[^,}\n]*/.exec(text.slice(offset))?.[0] ?? '';
  if (code === 'BLOCK_IN_FLOW' && after.includes(': ')) {
    return { what: 'two keys with no comma between them', cure: 'write { key: value, key: value }', offset };
  }
  if (code === 'BLOCK_AS_IMPLICIT_KEY' && /^[^:{]*(:(?=\{))?\{/.test(before)) {
    return { ...colonMissing, offset: start + before.search(/\S/) };
  }
  if (message.startsWith('Implicit map keys need')) return { ...colonMissing, offset };
  const line = /^[^\n]*/.exec(text.slice(offset))?.[0] ?? '';
  if (code === 'MULTILINE_IMPLICIT_KEY' && !/:(\s|$)/.test(line)) return { ...colonMissing, offset };
  if (code !== 'BAD_INDENT') return undefined;
  const above = text
    .slice(0, start)
    .split('\n')
    .map((line, index, all) => ({ line, from: all.slice(0, index).join('\n').length + (index > 0 ? 1 : 0) }))
    .filter(({ line }) => /^\s*[^#\s]/.test(line));
  const last = above.at(-1);
  if (last !== undefined && !/:(\s|$)/.test(last.line)) {
    return { ...colonMissing, offset: last.from + last.line.search(/\S/) };
  }
  const column = 1 + text.slice(start).search(/\S/);
  const what = `this line begins in column ${column}, and the lines that it may belong with in ${columnsOf(above.map(({ line }) => line))}`;
  return { what, cure: indent, offset };
}

const colonMissing = {
  what: 'a line without a colon and a space behind its key',
  cure: 'write `key: value`, or `key:` where the lines under it belong to it',
} as const;

/** Columns of the last line and of all that it stands in. */
function columnsOf(lines: readonly string[]): string {
  const columns: number[] = [];
  for (const line of [...lines].reverse()) {
    const column = 1 + line.search(/\S/);
    if (column < (columns[0] ?? Infinity)) columns.unshift(column);
  }
  return columns.length < 2
    ? `column ${columns.join()}`
    : `columns ${columns.slice(0, -1).join(', ')} or ${columns.at(-1)}`;
}

const brackets = 'close every [ and { and quotation mark, and put a comma between the things inside';
const indent = 'start lines that belong together in the same column';
const anchor = 'write the value out instead';

const problems: Partial<Record<YAMLError['code'], Pick<YamlProblem, 'what' | 'cure'>>> = {
  ALIAS_PROPS: { what: 'an alias with an anchor or tag of its own', cure: anchor },
  BAD_ALIAS: {
    what: 'a * or & without a good name behind it',
    cure: 'put text that begins with * or & in quotes',
  },
  BAD_COLLECTION_TYPE: { what: 'a tag that does not suit its value', cure: 'leave the ! tag out' },
  BAD_DIRECTIVE: { what: 'a line beginning with % that means nothing here', cure: 'leave the line out' },
  BAD_DQ_ESCAPE: {
    what: 'a backslash that means nothing between double quotes',
    cure: 'use single quotes, or write \\\\ for a backslash',
  },
  BAD_INDENT: { what: 'a line that begins in an unexpected column', cure: indent },
  BAD_PROP_ORDER: { what: 'an anchor or tag in the wrong place', cure: anchor },
  BAD_SCALAR_START: {
    what: 'text beginning with a character that YAML keeps for itself',
    cure: 'put it in quotes',
  },
  BLOCK_AS_IMPLICIT_KEY: {
    what: 'a second colon on this line, or the next line stands further in than this one',
    cure: 'begin keys of one map in one column; put an inner key on a line of its own, or the text in quotes',
  },
  BLOCK_IN_FLOW: { what: 'an indented list or map inside brackets', cure: 'write it in brackets too' },
  KEY_OVER_1024_CHARS: { what: 'a key longer than 1024 characters', cure: 'shorten it' },
  MISSING_CHAR: { what: 'a bracket, quotation mark, comma or colon is missing', cure: brackets },
  MULTILINE_IMPLICIT_KEY: {
    what: 'a key that runs over more than one line, or a line without a colon',
    cure: 'write `key: value` on each line',
  },
  MULTIPLE_ANCHORS: { what: 'two anchors on one value', cure: anchor },
  MULTIPLE_TAGS: { what: 'two tags on one value', cure: 'leave the ! tags out' },
  RESOURCE_EXHAUSTION: { what: 'maps or lists nested too deep', cure: 'take the extra brackets out' },
  TAB_AS_INDENT: { what: 'a tab at the start of a line', cure: 'indent with spaces' },
  TAG_RESOLVE_FAILED: {
    what: 'a ! tag that means nothing here',
    cure: 'leave the ! tag out, or put the text in quotes',
  },
  UNEXPECTED_TOKEN: {
    what: 'punctuation in an unexpected place',
    cure: `${brackets}; put text with : # , [ ] { } in quotes`,
  },
};
