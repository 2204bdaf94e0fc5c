import fc from 'fast-check';

/**
 * Texts spoilt as people, editors, disks and bad wishes spoil them. A mutation is a pure function of a text,
 * drawn at random; where it strikes is a fraction of what there is to strike.
 */
export type Mutation = (text: string) => string;

/** Half a character, which stands in a text for bytes that are no UTF-8 (see `bytesOf`). */
const BAD = '\udcff';

/** The bytes of a text as they are written to a file. */
export function bytesOf(text: string): Uint8Array {
  const parts = text.split(BAD).map((part) => Buffer.from(part));
  return Buffer.concat(parts.flatMap((part, i) => (i === 0 ? [part] : [Buffer.of(0xff, 0xc0), part])));
}

export function isUtf8(text: string): boolean {
  return !text.includes(BAD);
}

export function mutated(text: string, mutations: readonly Mutation[]): string {
  return mutations.reduce((before, mutation) => mutation(before), text);
}

const place = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });

const characters = fc.constantFrom(
  ...['\t', '\u0000', '\ufeff', '\u00a0', '\u2028', '½', 'ß', '標', '💥', '\u202e', BAD, '"', "'", '{', '}'],
  ...['[', ']', ':', ',', '#', '&a ', '*a ', '|', '>', '!', '!!binary ', '%', '@', '`', '- ', '? ', '\\'],
  ...['\r', '\n', '\n---\n', '\n...\n', '  ', '<<: *a\n', '__proto__: 1\n', 'constructor: {}\n'],
);

const numbers = fc.oneof(
  fc.constantFrom(
    ...['0', '-0', '-1', '-3/8', '1/0', '0/0', 'NaN', '.nan', '.inf', '-.inf', 'Infinity', '1e308', '-1e308'],
    ...[
      '1e999',
      '1e-308',
      '9007199254740993',
      '99999',
      '10000',
      '9999',
      '0x1F',
      '1_000',
      '1,5',
      '٣',
      '0.0001',
    ],
    ...['1e-9', '.5', '5.', 'null', '~', 'true', '""', '[]', '{}', '[1, 2]', '1 furlong', '3 mm in', "6'"],
    ...['3-1/2-1', '1:8', '1:0', '12°', '250 mm', '40 in', '0.01 mm'],
  ),
  fc.integer({ min: -50, max: 400 }).map(String),
  fc.double({ min: 0.001, max: 60, noNaN: true }).map((value) => value.toFixed(3)),
);

/** One mutation of any text. */
const ofText: fc.Arbitrary<Mutation> = fc.oneof(
  fc.tuple(place, characters).map(([at, added]) => splice(at, 0, added)),
  fc.tuple(place, fc.nat(127)).map(([at, code]) => splice(at, 1, String.fromCharCode(code))),
  fc.tuple(place, fc.integer({ min: 1, max: 40 })).map(([at, length]) => splice(at, length, '')),
  fc.tuple(place, place, place).map(([from, to, at]) => copy(from, to, at)),
  place.map((at) => (text: string) => text.slice(0, index(text, at))),
  fc.tuple(place, numbers).map(([at, to]) => renumber(at, to)),
  fc.tuple(place, numbers).map(([at, to]) => renumber(at, to)),
);

/** One mutation of a text of lines with keys. */
const ofLines: fc.Arbitrary<Mutation> = fc.oneof(
  place.map((at) => onLines((lines) => lines.toSpliced(index(lines, at), 1))),
  place.map((at) => onLines((lines) => lines.toSpliced(index(lines, at), 0, lines[index(lines, at)] ?? ''))),
  fc.tuple(place, place).map(([one, other]) => onLines((lines) => exchange(lines, one, other))),
  fc.tuple(place, fc.constantFrom('  ', '\t', ' ')).map(([at, pad]) => onLine(at, (line) => pad + line)),
  place.map((at) => onLine(at, (line) => line.replace(/^ {1,2}/, ''))),
  fc
    .tuple(place, fc.constantFrom('mm', 'in', 'cm', 'm', 'MM', '"', ''))
    .map(([at, unit]) => reunit(at, unit)),
  fc.tuple(place, place).map(([at, from]) => rekey(at, from)),
  fc
    .tuple(place, fc.constantFrom('', 'x', 'é', ' ', '"', '__proto__', '../', '2'))
    .map(([at, end]) => longerKey(at, end)),
  fc.tuple(place, place).map(([at, from]) => alias(at, from)),
  fc.tuple(place, fc.integer({ min: 1, max: 9 })).map(([at, deep]) => bomb(at, deep)),
);

export const textMutations = fc.array(ofText, { minLength: 1, maxLength: 3 });
export const jobMutations = fc.array(fc.oneof(ofText, ofLines), { minLength: 1, maxLength: 3 });

/** The index at a fraction of what a list or text holds. */
function index({ length }: { readonly length: number }, fraction: number): number {
  return Math.floor(fraction * length);
}

function splice(at: number, length: number, added: string): Mutation {
  return (text) => text.slice(0, index(text, at)) + added + text.slice(index(text, at) + length);
}

/** A piece of the text of up to 60 characters once more, somewhere. */
function copy(from: number, length: number, at: number): Mutation {
  return (text) => {
    const start = index(text, from);
    return splice(at, 0, text.slice(start, start + Math.ceil(length * 60)))(text);
  };
}

function renumber(at: number, to: string): Mutation {
  return replaceOne(/-?\d[\d./-]*\d|\d/g, at, () => to);
}

function reunit(at: number, unit: string): Mutation {
  return replaceOne(/\b(mm|in)\b|(?<=\d)(?=[\s,}\]])/g, at, () => unit);
}

const keys = /[\w-]+(?=:)/g;

/** One key takes the name of another. */
function rekey(at: number, from: number): Mutation {
  return (text) => {
    const names = text.match(keys) ?? [];
    return replaceOne(keys, at, () => names[index(names, from)] ?? '')(text);
  };
}

function longerKey(at: number, end: string): Mutation {
  return replaceOne(keys, at, (key) => (end === '' ? key.slice(1) : key + end));
}

const values = /(?<=: )[^\s{[#,][^,}\]\n#]*/g;

/** One value is anchored and another one refers to it. */
function alias(at: number, from: number): Mutation {
  return (text) =>
    replaceOne(values, from, () => '*twin')(replaceOne(values, at, (value) => `&twin ${value}`)(text));
}

/** One value refers to a list of nine lists of nine lists, and so on. */
function bomb(at: number, deep: number): Mutation {
  const levels = Array.from({ length: deep }, (_, i) => {
    const inner = Array.from({ length: 9 }, () => (i === 0 ? '1' : `*level${i - 1}`));
    return `level${i}: &level${i} [${inner.join(', ')}]\n`;
  });
  return (text) => levels.join('') + replaceOne(values, at, () => `*level${deep - 1}`)(text);
}

function replaceOne(what: RegExp, at: number, by: (found: string) => string): Mutation {
  return (text) => {
    const places = [...text.matchAll(what)];
    const found = places[index(places, at)];
    if (!found) return text;
    return text.slice(0, found.index) + by(found[0]) + text.slice(found.index + found[0].length);
  };
}

function onLines(change: (lines: readonly string[]) => readonly string[]): Mutation {
  return (text) => change(text.split('\n')).join('\n');
}

function onLine(at: number, change: (line: string) => string): Mutation {
  return onLines((lines) => lines.map((line, i) => (i === index(lines, at) ? change(line) : line)));
}

function exchange(lines: readonly string[], one: number, other: number): readonly string[] {
  const [a, b] = [index(lines, one), index(lines, other)];
  return lines.map((line, i) => (i === a ? (lines[b] ?? '') : i === b ? (lines[a] ?? '') : line));
}
