import type { YAMLError } from 'yaml';

/** What is wrong with a YAML text, in words for someone who has never heard of YAML. */
export interface YamlTrouble {
  readonly what: string;
  readonly cure: string;
}

export function yamlTrouble(error: Pick<YAMLError, 'code' | 'message'>): YamlTrouble {
  const unclosed = error.code === 'BAD_INDENT' && error.message.includes('end with');
  return (
    troubles[unclosed ? 'MISSING_CHAR' : error.code] ?? {
      what: error.message,
      cure: 'mend the punctuation here',
    }
  );
}

const brackets = 'close every [ and { and quotation mark, and put a comma between the things inside';
const indent = 'start lines that belong together in the same column';
const anchor = 'write the value out instead';

const troubles: Partial<Record<YAMLError['code'], YamlTrouble>> = {
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
