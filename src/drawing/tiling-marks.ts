import { line } from '../geometry/segment.js';
import type { Outline, Path, Point } from '../geometry/types.js';
import { text } from './drawing.js';
import { lettersSet, strokesOfLetter, textWidth } from './lettering.js';
import type { TextItem } from './model.js';
import type { Ink, LineMark, Mark } from './tiling-types.js';

/** Pens for what is printed around a drawing, mm. */
export const pens = { text: 0.2, fine: 0.12, bar: 0.25, drawing: 0.2, map: 0.1 } as const;

export interface Lettering {
  readonly height: number;
  readonly angle?: number;
  readonly align?: TextItem['align'];
  readonly ink?: Ink;
}

/** A line of lettering on its baseline. */
export function lettering(
  words: string,
  at: Point,
  { height, angle = 0, align = 'start', ink = 'black' }: Lettering,
): readonly Mark[] {
  const letters = lettersSet(text('REF', words, at, height, { angle, align }));
  return letters.map((letter) => ({ letter, ink, pen: pens.text }));
}

/** The lines that a mark is drawn with: a letter has several. */
export const linesOfMark = (mark: Mark): readonly (Outline | Path)[] =>
  'letter' in mark ? strokesOfLetter(mark.letter) : [mark.line];

export const straight = (from: Point, to: Point, ink: Ink, pen: number): LineMark => ({
  line: { closed: false, segments: [line(from, to)] },
  ink,
  pen,
});

/**
 * Words set in lines no longer than `width`, mm; a word that is longer alone is broken. Lines beyond `most`
 * are left out and the last one kept ends in "...".
 */
export function wrapped(words: string, height: number, width: number, most = Infinity): readonly string[] {
  const fits = (line: string): boolean => textWidth(line, height) <= width;
  // A line is as long as its words and the spaces between them, so each word is measured once.
  const space = textWidth('n n', height) - 2 * textWidth('n', height);
  const lines: string[][] = [];
  let room = 0;
  for (const word of words.split(/\s+/).filter((one) => one !== '')) {
    const whole = textWidth(word, height);
    for (const part of whole <= width ? [word] : broken(word, fits)) {
      const long = part === word ? whole : textWidth(part, height);
      const line = lines.at(-1);
      if (line && space + long <= room) {
        line.push(part);
        room -= space + long;
      } else {
        lines.push([part]);
        room = width - long;
      }
    }
  }
  const joined = lines.map((line) => line.join(' '));
  if (joined.length <= most) return joined;
  return [...joined.slice(0, most - 1), shortened(joined[most - 1] ?? '', fits)];
}

function broken(word: string, fits: (line: string) => boolean): readonly string[] {
  const parts: string[] = [];
  let part = '';
  for (const letter of word) {
    if (part !== '' && !fits(part + letter)) {
      parts.push(part);
      part = '';
    }
    part += letter;
  }
  return [...parts, part];
}

function shortened(line: string, fits: (line: string) => boolean): string {
  let kept = [...line];
  while (kept.length > 0 && !fits(`${kept.join('')}...`)) kept = kept.slice(0, -1);
  return `${kept.join('')}...`;
}
