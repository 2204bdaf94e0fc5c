import { type FontWidths, helvetica, helveticaBold, winAnsiFrom128 } from '../../../shared/helvetica.js';
import type { Face } from '../model.js';
import { isDrawn, lettersOf, strokeAdvance } from './lettering.js';

/**
 * Words on a page: text that a reader's program can search and copy, in a font that every reader of PDF has. Drawings keep
 * their single strokes (lettering.ts).
 */

/** Letters of one font, in the order of the text. */
export interface Run {
  /** A standard font; our strokes for letters that it lacks; `beyond` for those that neither has. */
  readonly font: Face | 'strokes' | 'beyond';
  /** Each with the marks that combine with it. */
  readonly letters: readonly string[];
  /** Advance of all of them, mm for capitals 1 mm high. */
  readonly width: number;
}

const widthsOf = ({ letters, capitals }: FontWidths): ReadonlyMap<string, number> =>
  new Map(
    Object.entries(letters).flatMap(([width, row]) =>
      [...row].map((letter) => [letter, Number(width) / capitals] as const),
    ),
  );

/** How wide each letter of a standard font is, mm for capitals 1 mm high. */
const standard: Readonly<Record<Face, ReadonlyMap<string, number>>> = {
  sans: widthsOf(helvetica),
  bold: widthsOf(helveticaBold),
};

/** Size of the standard fonts for capitals 1 mm high: how wide the square of a Chinese sign is, too. */
export const FONT_SIZE = 1000 / helvetica.capitals;

/** The code of a letter in a standard font (WinAnsiEncoding); only letters that the font has are asked for. */
export function winAnsiCode(letter: string): number {
  const special = letter === ' ' ? -1 : winAnsiFrom128.indexOf(letter);
  return special < 0 ? (letter.codePointAt(0) ?? 0) : 128 + special;
}

/** A line of text as runs of one font each. */
export function runsOf(text: string, face: Face): readonly Run[] {
  const runs: { font: Run['font']; letters: string[]; width: number }[] = [];
  for (const letter of lettersOf(text)) {
    const { font, width } = letterIn(letter, face);
    const last = runs.at(-1);
    if (last?.font === font) {
      last.letters.push(letter);
      last.width += width;
    } else runs.push({ font, letters: [letter], width });
  }
  return runs;
}

function letterIn(letter: string, face: Face): { readonly font: Run['font']; readonly width: number } {
  const own = standard[face].get(letter);
  if (own !== undefined) return { font: face, width: own };
  return isDrawn(letter)
    ? { font: 'strokes', width: strokeAdvance(letter) }
    : { font: 'beyond', width: FONT_SIZE };
}

/** Length of a line of text, mm; `height` is that of a capital. */
export function lineLength(text: string, height: number, face: Face): number {
  return height * runsOf(text, face).reduce((sum, { width }) => sum + width, 0);
}
