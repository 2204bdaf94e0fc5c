import type { Formatter } from './formatter.js';

/** Keys of maps and numbers of list items, from the top of a file. */
export type KeyPath = readonly string[];

/** One change to a job's text; see job/edit-yaml.ts. */
export type Edit =
  /** `to` is YAML: `1-3/8`, `list`, `[1/2, 3/4]`. Maps on the way that are not there are made. */
  | { readonly set: KeyPath; readonly to: string }
  | { readonly remove: KeyPath }
  | { readonly rename: KeyPath; readonly to: string };

/** A change to the job's text that answers a diagnostic. */
export interface Fix {
  /** In a few words, as a button says it: `take the bushing ten`. */
  readonly label: string;
  readonly edits: readonly Edit[];
  /** Set where only the maker can say whether it is right: it asks for other wood, or guesses what was meant. */
  readonly ask?: true;
}

/** What fixes are written with: where the diagnostic stands, and how the job's text writes things. */
export interface FixContext {
  readonly fmt: Formatter;
  /** Path of the key that the diagnostic concerns. */
  readonly at: KeyPath;
  /** Path of a key of the diagnostic's joint, given with dots: `layout.end-pin`. */
  key(dotted: string): KeyPath;
  /** A length in mm as the job's text writes it; rounded up or down where nothing less or more works. */
  length(mm: number, toward?: 'up' | 'down'): string;
  /** Text as a YAML value, in quotes where it needs them. */
  word(text: string): string;
  /** Width of the diagnostic's joint as it was read, mm. */
  readonly width?: number;
  /** The joint's spans where they are listed one by one, mm. */
  readonly spans?: readonly number[];
  /** Where a bit of the shop goes in the diagnostic's joint; undefined where it has no place there. */
  bitKey(bit: string): KeyPath | undefined;
}

/** The sentence of a code: what was read or worked out, and what works. */
export type Sentence<D> = { sentence(data: D, fmt: Formatter): string }['sentence'];

/** A code's sentence, and beside it the changes to the job that answer it, best first. */
export interface Fixable<D> {
  readonly text: Sentence<D>;
  readonly fixes: { fixes(data: D, to: FixContext): readonly Fix[] }['fixes'];
}

/** What a catalogue holds for a code: its sentence alone where no change of the job's text answers it. */
export type Entry<D> = Sentence<D> | Fixable<D>;

export function fixable<D extends object = Readonly<Record<never, never>>>(
  text: (data: D, fmt: Formatter) => string,
  fixes: (data: D, to: FixContext) => readonly Fix[],
): Fixable<D> {
  return { text, fixes };
}

/** More fixes than this are a list to search. */
export const MAX_FIXES = 5;

export const setKey = (label: string, path: KeyPath, to: string): Fix => ({
  label,
  edits: [{ set: path, to }],
});

export const leaveOut = (label: string, path: KeyPath): Fix => ({ label, edits: [{ remove: path }] });

/** The key that the diagnostic concerns goes. */
export const takeOut = ({ at }: FixContext): readonly Fix[] => [leaveOut(`take ${at.at(-1)} out`, at)];

/** The same fix, left for the maker to choose. */
export const asked = (fix: Fix): Fix => ({ ...fix, ask: true });

/** The diagnostic's own value written as one of these words; a guess where there are several. */
export function instead(words: readonly string[], { at, word }: FixContext): readonly Fix[] {
  const fixes = words.slice(0, MAX_FIXES).map((one) => setKey(`write ${one}`, at, word(one)));
  return words.length > 1 ? fixes.map(asked) : fixes;
}

export function bushingFixes(names: readonly string[], { key, word }: FixContext): readonly Fix[] {
  return names
    .slice(0, MAX_FIXES)
    .map((name) => setKey(`take the bushing ${name}`, key('bushing'), word(name)));
}

/** Bits go where a bit of their kind is used. */
export function bitFixes(names: readonly string[], { bitKey, word }: FixContext): readonly Fix[] {
  return names.slice(0, MAX_FIXES).flatMap((name) => {
    const path = bitKey(name);
    return path ? [setKey(`take the bit ${name}`, path, word(name))] : [];
  });
}

/** Boards of other widths; rounded toward what works where one is the least or the most. */
export function boardFixes(
  widths: readonly number[],
  { key, length, fmt }: FixContext,
  toward?: 'up' | 'down',
): readonly Fix[] {
  return widths.map((width) =>
    asked(setKey(`a board ${fmt.length(width)} wide`, key('width'), length(width, toward))),
  );
}
