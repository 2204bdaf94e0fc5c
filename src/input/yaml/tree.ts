import {
  Composer,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  Parser,
  type YAMLError,
} from 'yaml';
import { type Diagnostic, diagnostic } from '../../diagnostics/diagnostic.js';
import type { Position } from '../../diagnostics/position.js';
import { isCommaUnclear } from '../../units/number.js';
import { UNREAD } from '../fields/read-value.js';
import { DEEPEST_NESTING, LONGEST_FILE, MAX_TOKENS, MAX_VALUES } from '../limits.js';
import { yamlProblems } from './problem.js';

/** A text to read and the name of its file as messages should show it. */
export interface Source {
  readonly name: string;
  readonly text: string;
}

/** What a YAML text holds: plain values, the place of every key, and what kept it from being read. */
export interface Tree {
  /** Maps (without prototype), lists, strings, numbers, booleans, null; undefined when the text is no YAML. */
  readonly value: unknown;
  /** By dotted path, under the tree's base. Of a key its own place; of a list item where it begins. */
  readonly places: ReadonlyMap<string, Position>;
  /** Keys of each map in the order of the file, which a plain record does not keep for keys like `12`. */
  readonly keys: ReadonlyMap<string, readonly string[]>;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads YAML 1.2 (JSON is YAML) with the place of every key. `base` is the path that the text stands at: ''
 * for a job, `shop` for a shop file. Size, nesting and what aliases multiply to are bounded, so that no text
 * takes long; every fault is a diagnostic.
 */
export function readTree(source: Source, base: string): Tree {
  const text = source.text.startsWith('\u{feff}') ? source.text.slice(1) : source.text;
  const lines = new LineCounter();
  const nothing = (diagnostics: readonly Diagnostic[]): Tree => ({
    value: undefined,
    places: new Map(),
    keys: new Map(),
    diagnostics,
  });
  if (text.length > LONGEST_FILE) {
    return nothing([
      diagnostic('text-long', 'refused', whole(base), { length: text.length, most: LONGEST_FILE }),
    ]);
  }
  lines.addNewLine(0);
  const at = (offset: number): string => {
    const { line, col } = lines.linePos(offset);
    return `${base}@${line}:${col}`;
  };
  const odd = firstOddCharacter(text);
  if (odd !== undefined) {
    for (const newline of text.slice(0, odd).matchAll(/\n/g)) lines.addNewLine(newline.index + 1);
    return nothing([diagnostic('text-binary', 'refused', at(odd), { code: text.charCodeAt(odd) })]);
  }
  const documents = parse(text, lines);
  if ('tooMany' in documents)
    return nothing([diagnostic('values-many', 'refused', whole(base), { most: MAX_VALUES })]);
  if ('tooDeep' in documents) {
    return nothing([diagnostic('yaml-nested', 'refused', at(documents.tooDeep), { most: DEEPEST_NESTING })]);
  }
  const [first, second] = documents.documents;
  const errors = [...(first?.errors ?? []), ...(first?.warnings ?? [])];
  const faults = yamlProblems(firstOfEachLine(errors, lines), text).map(({ what, cure, offset }) =>
    diagnostic('yaml-unreadable', 'refused', at(offset), { what, cure }),
  );
  if (faults.length > 0) return nothing(faults);
  if (second !== undefined) {
    return nothing([diagnostic('yaml-documents', 'refused', at(second.range[0]), {})]);
  }
  if (first === undefined || first.contents === null || isEmptyScalar(first.contents)) {
    return nothing([diagnostic('text-empty', 'refused', whole(base), { base })]);
  }
  return gather(first, source.name, base, lines);
}

type Parsed =
  | { readonly documents: readonly Document.Parsed[] }
  | { readonly tooDeep: number }
  | { readonly tooMany: true };

/** The library's own road, text to tokens to documents, walked one token at a time to watch the nesting. */
function parse(text: string, lines: LineCounter): Parsed {
  const parser = new Parser(lines.addNewLine);
  const composer = new Composer({
    version: '1.2',
    schema: 'core',
    resolveKnownTags: false,
    prettyErrors: false,
    // Found here instead, since the library compares every key with every other.
    uniqueKeys: false,
  });
  const tokens = [];
  let lexemes = 0;
  for (const lexeme of new Lexer().lex(text)) {
    lexemes++;
    if (lexemes > MAX_TOKENS) return { tooMany: true };
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (parser.stack.length > DEEPEST_NESTING) return { tooDeep: parser.offset };
  }
  for (const token of parser.end()) tokens.push(token);
  return { documents: [...composer.compose(tokens, true, text.length)] };
}

/** Turns nodes into plain values and notes the place of each key on the way. */
function gather(document: Document.Parsed, file: string, base: string, lines: LineCounter): Tree {
  const places = new Map<string, Position>();
  const keys = new Map<string, readonly string[]>();
  const diagnostics: Diagnostic[] = [];
  const anchors = new Map<string, unknown>();
  const open = new Set<unknown>();
  let values = 0;

  const placeOf = (offset: number): Position => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };

  const walk = (node: unknown, path: string): unknown => {
    values++;
    if (values > MAX_VALUES || open.size > DEEPEST_NESTING) {
      values = Infinity;
      return undefined;
    }
    if (isAlias(node)) return follow(node.source, path, node.range?.[0] ?? 0);
    if (isScalar(node)) {
      if (node.anchor !== undefined) anchors.set(node.anchor, node);
      return plainScalar(node.value, node.source);
    }
    if (!isMap(node) && !isSeq(node)) return null;
    if (node.anchor !== undefined) anchors.set(node.anchor, node);
    open.add(node);
    const value = isMap(node)
      ? walkMap(node.items, path, node.flow ?? false)
      : node.items.map((item, index) => {
          const itemPath = joinPath(path, String(index));
          places.set(itemPath, placeOf(startOf(item)));
          return walk(item, itemPath);
        });
    open.delete(node);
    return value;
  };

  const walkMap = (items: readonly Item[], path: string, flow: boolean) => {
    const value: Record<string, unknown> = Object.create(null);
    const seen = new Map<string, Position>();
    for (const [index, item] of items.entries()) {
      const { key, value: node } = item;
      const split = flow ? splitByComma(items[index - 1], item) : undefined;
      if (split !== undefined) {
        diagnostics.push(diagnostic('comma-split', 'refused', joinPath(path, split.key), split));
        value[split.key] = UNREAD;
        continue;
      }
      const place = placeOf(startOf(key));
      const name = keyName(key);
      if (name === undefined || name === '__proto__') {
        diagnostics.push(diagnostic('key-odd', 'refused', `${path}@${place.line}:${place.column}`, {}));
        continue;
      }
      const keyPath = joinPath(path, name);
      const before = seen.get(name);
      if (before !== undefined) {
        diagnostics.push(
          diagnostic('key-twice', 'refused', `${keyPath}@${place.line}:${place.column}`, {
            key: name,
            line: before.line,
          }),
        );
        continue;
      }
      seen.set(name, place);
      places.set(keyPath, place);
      value[name] = walk(node, keyPath);
    }
    keys.set(path, [...seen.keys()]);
    return value;
  };

  const follow = (name: string, path: string, offset: number): unknown => {
    const target = anchors.get(name);
    const { line, column } = placeOf(offset);
    if (target === undefined || open.has(target)) {
      const code = target === undefined ? 'alias-unknown' : 'alias-in-itself';
      diagnostics.push(diagnostic(code, 'refused', `${path}@${line}:${column}`, { name }));
      return UNREAD;
    }
    return walk(target, path);
  };

  const value = walk(document.contents, base);
  if (values > MAX_VALUES) {
    return {
      value: undefined,
      places,
      keys,
      diagnostics: [diagnostic('values-many', 'refused', whole(base), { most: MAX_VALUES })],
    };
  }
  return { value, places, keys, diagnostics };
}

interface Item {
  readonly key: unknown;
  readonly value: unknown;
}

/**
 * A decimal comma between braces divides: `{ thickness: 19,05 mm }` holds a thickness of 19 and a key `05 mm` of
 * nothing. The value as it was meant, where the comma can't divide thousands.
 */
function splitByComma(before: Item | undefined, { key, value }: Item) {
  if (before === undefined || !isScalar(before.value) || !isScalar(key)) return undefined;
  if (isScalar(value) ? value.value !== null : value !== null) return undefined;
  const [whole, name, rest] = [before.value.source, keyName(before.key), keyName(key)];
  if (whole === undefined || name === undefined || rest === undefined) return undefined;
  if (!/^[-+]?\d+$/.test(whole) || !/^\d+(?:\s*[a-z"']+)?$/i.test(rest)) return undefined;
  const read = `${whole},${rest}`;
  const unclear = isCommaUnclear(`${whole.replace(/^[-+]/, '')},${/^\d+/.exec(rest)?.[0]}`);
  return { key: name, read, ...(!unclear && { meant: `${whole}.${rest}` }) };
}

/** One slip in a line often brings others with it that it alone explains. */
function firstOfEachLine(errors: readonly YAMLError[], lines: LineCounter): readonly YAMLError[] {
  const seen = new Set<number>();
  return errors.filter((error) => {
    const { line } = lines.linePos(error.pos[0]);
    const isFirst = !seen.has(line);
    seen.add(line);
    return isFirst;
  });
}

/** Where a diagnostic about a file as a whole stands: for a shop file its first line, not the key that names it. */
function whole(base: string): string {
  return base === '' ? '' : `${base}@1:1`;
}

function joinPath(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}

function startOf(node: unknown): number {
  return isScalar(node) || isMap(node) || isSeq(node) || isAlias(node) ? (node.range?.[0] ?? 0) : 0;
}

/** A key as text: `12` and `true` are names like any other. */
function keyName(key: unknown): string | undefined {
  if (!isScalar(key) || key.value === null) return undefined;
  return typeof key.value === 'string' ? key.value : (key.source ?? String(key.value));
}

/** `0x10` and `0o17` stay text: nobody measures wood in them. */
function plainScalar(value: unknown, source: string | undefined): unknown {
  return typeof value === 'number' && /^[-+]?0[xo]/.test(source ?? '') ? source : value;
}

function isEmptyScalar(node: unknown): boolean {
  return isScalar(node) && (node.value === null || node.value === '');
}

/** Where text stops being text: a control character, or what a reader of UTF-8 puts for bytes that are none. */
function firstOddCharacter(text: string): number | undefined {
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    const whiteSpace = code === 0x09 || code === 0x0a || code === 0x0d;
    if ((code < 0x20 && !whiteSpace) || (code >= 0x7f && code <= 0x9f) || code === 0xfffd) return index;
  }
  return undefined;
}
