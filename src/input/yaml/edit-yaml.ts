import { type Document, isAlias, isMap, isScalar, isSeq, type Node, type Pair, parseDocument } from 'yaml';
import type { Edit, KeyPath } from '../../diagnostics/fix.js';

/**
 * Changes to a job's text that leave everything else in it was written: remarks, order, alignment. A value
 * is replaced where it stands; a new key goes after its neighbours, in their style.
 */

/** The text with all edits made, one after another. A text that is no YAML is given back as it is. */
export function editYaml(text: string, edits: readonly Edit[]): string {
  return edits.reduce(editOnce, text);
}

/** Whether an edit changes this text, and nothing that is written as a whole elsewhere: `shop: ./shop.yaml` has no keys. */
export function canEdit(document: Document, text: string, edit: Edit): boolean {
  if (document.errors.length > 0) return false;
  if ('remove' in edit) return pairPlace(document, edit.remove)[1] >= 0;
  if ('rename' in edit) return pairPlace(document, edit.rename)[1] >= 0;
  return (
    edit.set.length > 0 && !isBarred(document, edit.set) && writtenAt(document, text, edit.set) !== edit.to
  );
}

/** true where a value other than a map or a list stands on the way to a path. */
function isBarred(document: Document, path: KeyPath): boolean {
  return path.slice(0, -1).some((_, index) => {
    const node = nodeAt(document, path.slice(0, index + 1));
    return isScalar(node) && node.value !== null;
  });
}

/**
 * A diagnostic's place as keys. Names of joints and tools may hold dots, so the longest name that stands in the file
 * is taken at each step.
 */
export function keysOf(at: string, document: Document): KeyPath {
  const path: string[] = [];
  let rest = at.replace(/@\d+:\d+$/, '');
  while (rest !== '') {
    const known = keysAt(document, path)
      .filter((key) => rest === key || rest.startsWith(`${key}.`))
      .sort((one, other) => other.length - one.length)[0];
    const key = known ?? rest.split('.')[0] ?? rest;
    path.push(key);
    rest = rest.slice(key.length + 1);
  }
  return path;
}

/** The keys of the map at a path, in the order of the file. */
export function keysAt(document: Document, path: KeyPath): readonly string[] {
  const node = nodeAt(document, path);
  return isMap(node) ? node.items.flatMap((pair) => pairKey(pair as Pair) ?? []) : [];
}

/** What stands at a path, as it is written; undefined where nothing does. */
export function writtenAt(document: Document, text: string, path: KeyPath): string | undefined {
  const node = nodeAt(document, path);
  if (!node?.range) return undefined;
  if (isScalar(node)) return node.value === null ? '' : String(node.source ?? node.value);
  return text.slice(node.range[0], node.range[1]);
}

/** A value as YAML: plain where that reads back as the same text, in quotes elsewhere. */
export function quotedValue(value: string): string {
  const plain = /^[\w.][\w./ "'+-]*$/.test(value) && !/\s$/.test(value);
  return plain ? value : JSON.stringify(value);
}

export function parseYaml(text: string): Document.Parsed {
  return parseDocument(text, { version: '1.2', keepSourceTokens: false, uniqueKeys: false });
}

function editOnce(text: string, edit: Edit): string {
  const document = parseYaml(text);
  if (document.errors.length > 0 || ('set' in edit && isBarred(document, edit.set))) return text;
  const changed = splice(text, document, edit);
  return changed !== undefined && isDone(changed, edit) ? changed : rewritten(document, edit);
}

function splice(text: string, document: Document, edit: Edit): string | undefined {
  if ('set' in edit) return setAt(text, document, edit.set, edit.to);
  if ('remove' in edit) return removeAt(text, document, edit.remove);
  const [parent, index] = pairPlace(document, edit.rename);
  const range = rangeOf(parent?.items[index]?.key);
  return range ? put(text, range[0], range[1], edit.to) : text;
}

/** Whether the text now says what was asked of it. */
function isDone(text: string, edit: Edit): boolean {
  const document = parseYaml(text);
  if (document.errors.length > 0) return false;
  if ('remove' in edit) return nodeAt(document, edit.remove) === undefined;
  if ('rename' in edit) return nodeAt(document, [...edit.rename.slice(0, -1), edit.to]) !== undefined;
  const there = document.getIn(edit.set, true) as Node | undefined;
  return JSON.stringify(there?.toJS(document)) === JSON.stringify(parseYaml(edit.to).toJS());
}

/** The library's own way, for texts of unusual shape: remarks stay, spaces may move. */
function rewritten(document: Document, edit: Edit): string {
  if ('set' in edit) document.setIn(edit.set, parseYaml(edit.to).contents);
  else if ('remove' in edit) document.deleteIn(edit.remove);
  else {
    const value = document.getIn(edit.rename, true);
    document.deleteIn(edit.rename);
    document.setIn([...edit.rename.slice(0, -1), edit.to], value);
  }
  return document.toString({ lineWidth: 0 });
}

// Where things stand

/** The node at a path; keys of maps, numbers of list items. */
function nodeAt(document: Document, path: KeyPath): Node | undefined {
  let node: unknown = document.contents;
  for (const key of path) {
    if (isAlias(node)) node = node.resolve(document);
    if (isMap(node)) node = node.items.find((pair) => pairKey(pair) === key)?.value;
    else if (isSeq(node)) node = node.items[Number(key)];
    else return undefined;
  }
  return (node ?? undefined) as Node | undefined;
}

type Map = { readonly items: readonly Pair[]; readonly flow?: boolean; readonly range?: Node['range'] };

function pairPlace(document: Document, path: KeyPath): readonly [Map | undefined, number] {
  const parent = nodeAt(document, path.slice(0, -1));
  if (!isMap(parent)) return [undefined, -1];
  return [parent as Map, parent.items.findIndex((pair) => pairKey(pair) === path.at(-1))];
}

function pairKey({ key }: Pair): string | undefined {
  return isScalar(key) ? String(key.value) : undefined;
}

function rangeOf(node: unknown): readonly [number, number] | undefined {
  const range = (node as Node | null | undefined)?.range;
  return range ? [range[0], range[1]] : undefined;
}

/** Where a pair ends, without the line ends and remarks after it. */
function endOf(text: string, pair: Pair): number {
  const [from, to] = rangeOf(pair.value) ?? rangeOf(pair.key) ?? [0, 0];
  return from + text.slice(from, to).trimEnd().length;
}

function startOf(pair: Pair): number {
  return rangeOf(pair.key)?.[0] ?? 0;
}

function put(text: string, from: number, to: number, words: string): string {
  return text.slice(0, from) + words + text.slice(to);
}

// Setting and removing

function setAt(text: string, document: Document, path: KeyPath, to: string): string | undefined {
  const node = nodeAt(document, path);
  const range = rangeOf(node);
  if (node && range) {
    const [from, end] = range;
    if (from === end) return put(text, from, end, ` ${to}`);
    return put(text, from, from + text.slice(from, end).trimEnd().length, to);
  }
  const key = path.at(-1);
  const parent = nodeAt(document, path.slice(0, -1));
  if (key === undefined) return undefined;
  const first = isMap(parent) ? (parent.items[0] as Pair | undefined) : undefined;
  const last = isMap(parent) ? (parent.items.at(-1) as Pair | undefined) : undefined;
  if (!isMap(parent) || !first || !last) {
    return path.length > 1
      ? setAt(text, document, path.slice(0, -1), `{ ${keyWord(document, text, key)}: ${to} }`)
      : undefined;
  }
  if (parent.flow)
    return put(text, endOf(text, last), endOf(text, last), `, ${keyWord(document, text, key)}: ${to}`);
  const indent = startOf(first) - (text.lastIndexOf('\n', startOf(first) - 1) + 1);
  const lineEnd = text.indexOf('\n', endOf(text, last));
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  const written = `${' '.repeat(indent)}${key}: ${to}`;
  if (lineEnd < 0) return `${text}${newline}${written}`;
  return put(text, lineEnd + 1, lineEnd + 1, `${written}${newline}`);
}

/** A new key as the file writes its keys: in quotes where the first one is, so that JSON stays JSON. */
function keyWord({ contents }: Document, text: string, key: string): string {
  const first = isMap(contents) ? contents.items[0] : undefined;
  return first && text[startOf(first as Pair)] === '"' ? JSON.stringify(key) : key;
}

function removeAt(text: string, document: Document, path: KeyPath): string | undefined {
  const [parent, index] = pairPlace(document, path);
  const pair = parent?.items[index];
  if (!parent || !pair) return text;
  if (parent.items.length === 1)
    return path.length > 1 ? removeAt(text, document, path.slice(0, -1)) : undefined;
  if (parent.flow) {
    const next = parent.items[index + 1];
    const before = parent.items[index - 1];
    if (next) return put(text, startOf(pair), startOf(next), '');
    return before ? put(text, endOf(text, before), endOf(text, pair), '') : undefined;
  }
  const from = text.lastIndexOf('\n', startOf(pair) - 1) + 1;
  const lineEnd = text.indexOf('\n', endOf(text, pair));
  return put(text, from, lineEnd < 0 ? text.length : lineEnd + 1, '');
}
