import { isAlias, isMap, isScalar, LineCounter, type Pair, parseDocument, type Scalar } from 'yaml';

/** One value to be replaced in a YAML text: the path of its keys and the plain text that is to stand there. */
export interface Edit {
  readonly path: readonly string[];
  readonly to: string;
}

export type Edited =
  | { readonly ok: true; readonly text: string; readonly lines: readonly number[] }
  | { readonly ok: false; readonly problems: readonly EditProblem[] };

/** Why a value is left alone: nothing stands there, or what stands there is used elsewhere, too. */
export interface EditProblem {
  readonly path: readonly string[];
  readonly why: 'absent' | 'shared';
  /** Counted from 1; absent where there is no such key. */
  readonly line?: number;
}

/**
 * The text with some of its scalars replaced, character by character: comments, blanks, line ends, order and
 * the byte order mark stay as they are. All edits are made, or none. A value that is an alias or carries an
 * anchor is not touched, since other places share it.
 */
export function replaceValues(text: string, edits: readonly Edit[]): Edited {
  const mark = text.startsWith('\u{feff}') ? 1 : 0;
  const lines = new LineCounter();
  const document = parseDocument(text.slice(mark), { lineCounter: lines, uniqueKeys: false });
  const isJson = /^\s*\{/.test(text.slice(mark));
  const found = edits.map(({ path, to }) => ({ path, to, target: editTarget(document.contents, path) }));
  const problems = found.flatMap(({ path, target }): readonly EditProblem[] => {
    if (target.scalar) return [];
    const line = target.offset === undefined ? undefined : lines.linePos(target.offset).line;
    return [{ path, why: target.why, ...(line === undefined ? {} : { line }) }];
  });
  if (problems.length > 0) return { ok: false, problems };
  const pieces = found
    .flatMap(({ to, target }) =>
      target.scalar ? [{ to: styled(to, target.scalar, isJson), ...rangeOf(target.scalar) }] : [],
    )
    .sort((one, other) => other.from - one.from);
  const edited = pieces.reduce(
    (whole, { from, end, to }) => whole.slice(0, from + mark) + to + whole.slice(end + mark),
    text,
  );
  return { ok: true, text: edited, lines: found.map(({ target }) => lines.linePos(target.offset ?? 0).line) };
}

type EditTarget =
  | { readonly scalar: Scalar; readonly offset: number }
  | { readonly scalar?: undefined; readonly why: EditProblem['why']; readonly offset?: number };

function editTarget(root: unknown, path: readonly string[]): EditTarget {
  let node: unknown = root;
  for (const key of path) {
    if (isAlias(node)) return sharedTarget(node);
    if (!isMap(node)) return { why: 'absent' };
    // Of a key that stands twice the last one counts, as when the file is read.
    const pair: Pair | undefined = node.items.findLast((item) => nameOf(item.key) === key);
    if (!pair) return { why: 'absent' };
    node = pair.value;
  }
  if (isAlias(node)) return sharedTarget(node);
  if (!isScalar(node) || !node.range) return { why: 'absent' };
  return node.anchor === undefined && node.tag === undefined
    ? { scalar: node, offset: node.range[0] }
    : sharedTarget(node);
}

function sharedTarget(node: {
  readonly range?: readonly [number, number, number] | null | undefined;
}): EditTarget {
  return { why: 'shared', ...(node.range ? { offset: node.range[0] } : {}) };
}

function nameOf(key: unknown): string {
  if (!isScalar(key)) return '';
  // A name such as 12 or 1e1 counts as it is written.
  return typeof key.value === 'string' ? key.value : String(key.source ?? key.value);
}

function rangeOf(scalar: Scalar): { readonly from: number; readonly end: number } {
  const [from = 0, end = 0] = scalar.range ?? [];
  return { from, end };
}

/** In the quotes that stood there; JSON has no text without them. */
function styled(to: string, scalar: Scalar, isJson: boolean): string {
  if (scalar.type === 'QUOTE_SINGLE') return `'${to}'`;
  return scalar.type === 'QUOTE_DOUBLE' || isJson ? `"${to}"` : to;
}
