import { line } from '../../geometry/segment.js';
import type { Outline, Path, Point } from '../../geometry/types.js';
import { text } from '../drawing.js';
import { lettersSet, strokesOfLetter } from '../lettering/lettering.js';
import type { TextItem } from '../model.js';
import { type Ink, pens } from '../styles.js';
import type { LineMark, Mark } from './types.js';

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

export const straightMark = (from: Point, to: Point, ink: Ink, pen: number): LineMark => ({
  line: { closed: false, segments: [line(from, to)] },
  ink,
  pen,
});
