import { extents } from '../../geometry/outline.js';
import { placed, scale, translate } from '../../geometry/transform.js';
import type { Path } from '../../geometry/types.js';
import { memoize } from '../memoize.js';
import type { TextItem } from '../model.js';
import { capitalHeight, fractions, glyphs, letterGap, marks, missingGlyph, sameAs } from './glyphs.js';
import { parseStrokes } from './strokes.js';

/**
 * The single strokes of a line of lettering, mm: `item.at` is on the baseline, at the start, middle or end
 * of the text. A character that cannot be drawn becomes a box (see `missingLetters`).
 */
export const strokesOf = (item: TextItem): readonly Path[] => lettersSet(item).flatMap(strokesOfLetter);

/** One letter of a line of lettering, where the line sets it: `at` is its own origin, on the baseline. */
export interface SetLetter extends Pick<TextItem, 'height' | 'angle' | 'at'> {
  readonly letter: string;
}

/** The letters of a line, for those who draw each shape once and set it many times. Spaces are left out. */
export function lettersSet({ text, height, angle, at, align }: TextItem): readonly SetLetter[] {
  const letters = lettersOf(text).map((letter) => ({ letter, drawn: drawnLetter(letter) }));
  const factor = height / capitalHeight;
  const width = lineWidth(letters.map(({ drawn }) => drawn));
  let x = { start: 0, middle: -width / 2, end: -width }[align];
  const set: SetLetter[] = [];
  for (const { letter, drawn } of letters) {
    const along = x * factor;
    const place = { x: at.x + along * Math.cos(angle), y: at.y + along * Math.sin(angle) };
    if (drawn.strokes.length > 0) set.push({ letter, height, angle, at: place });
    x += drawn.width + letterGap;
  }
  return set;
}

export const strokesOfLetter = ({ letter, height, angle, at }: SetLetter): readonly Path[] =>
  drawnLetter(letter).strokes.map((stroke) => placed(stroke, height / capitalHeight, angle, at));

/** Length of a line of lettering from its first letter's left to its last one's right, mm. */
export function textWidth(text: string, height: number): number {
  const letters = lettersOf(text).map(drawnLetter);
  return (lineWidth(letters) * height) / capitalHeight;
}

function lineWidth(letters: readonly DrawnLetter[]): number {
  return Math.max(
    0,
    letters.reduce((sum, { width }) => sum + width + letterGap, -letterGap),
  );
}

/** Every character of a text that has no drawing, once each, in the order of the text. */
export function missingLetters(text: string): readonly string[] {
  return [...new Set(lettersOf(text).filter((letter) => drawingOf(letter) === undefined))];
}

/** Whether a letter has strokes of its own. */
export const isDrawn = (letter: string): boolean => drawingOf(letter) !== undefined;

/** From one letter's origin to the next one's, mm for capitals 1 mm high. */
export const strokeAdvance = (letter: string): number =>
  (drawnLetter(letter).width + letterGap) / capitalHeight;

/** In grid units, from x = 0 on the baseline. */
interface DrawnLetter {
  readonly width: number;
  readonly strokes: readonly Path[];
}

/** A letter with the marks that combine with it is one. */
export function lettersOf(text: string): readonly string[] {
  // Text without accents or signs, nearly all there is, has a letter a character.
  if (/^[ -~]*$/.test(text)) return [...text];
  return text.normalize('NFC').match(/\P{M}\p{M}*|\p{M}+/gu) ?? [];
}

const drawnLetter = (letter: string): DrawnLetter => drawingOf(letter) ?? missing;

const drawingOf = memoize((letter: string): DrawnLetter | undefined => {
  const fraction = fractions[letter];
  if (fraction) return builtFraction(...fraction);
  return simpleLetter(letter) ?? markedLetter(letter);
});

function simpleLetter(letter: string): DrawnLetter | undefined {
  const glyph = glyphs[sameAs[letter] ?? letter];
  return glyph && { width: glyph[0], strokes: parseStrokes(glyph[1]) };
}

/** A base letter and its marks, by canonical decomposition (Unicode NFD). */
function markedLetter(letter: string): DrawnLetter | undefined {
  const [first, ...rest] = letter.normalize('NFD');
  if (first === undefined || rest.length === 0) return undefined;
  const over = rest.some((mark) => !marks[mark]?.below);
  const base = simpleLetter(over ? (dotless[first] ?? first) : first);
  if (!base) return undefined;
  const width = Math.max(base.width, markWidth);
  const { maxY } = extents(...base.strokes);
  let lift = Math.max(0, maxY - smallLetterHeight);
  const strokes = base.strokes.map((stroke) => translate(stroke, (width - base.width) / 2, 0));
  for (const one of rest) {
    const mark = marks[one];
    if (!mark) return undefined;
    const drawn = parseStrokes(mark.strokes);
    strokes.push(...drawn.map((stroke) => translate(stroke, width / 2, mark.below ? 0 : lift)));
    if (!mark.below) lift += markHeight;
  }
  return { width, strokes };
}

const smallLetterHeight = 8;

/** A letter narrower than its mark is set as wide as the mark. */
const markWidth = 4;

/** How far a second mark stands above the first. */
const markHeight = 4;

const dotless: Readonly<Record<string, string>> = { i: 'ı', j: 'ȷ' };

/** A small figure raised, a slanting bar, a small figure on the baseline. */
function builtFraction(over: string, under: string): DrawnLetter | undefined {
  const above = simpleLetter(over);
  const below = simpleLetter(under);
  if (!above || !below) return undefined;
  const size = 0.55;
  const small = (strokes: readonly Path[], dx: number, dy: number): readonly Path[] =>
    strokes.map((stroke) => translate(scale(stroke, size), dx, dy));
  const belowAt = above.width * size + 2;
  return {
    width: belowAt + below.width * size,
    strokes: [
      ...small(above.strokes, 0, capitalHeight * (1 - size)),
      ...parseStrokes('2.5,-0.5 7.1,12.5'),
      ...small(below.strokes, belowAt, 0),
    ],
  };
}

const missing: DrawnLetter = { width: missingGlyph[0], strokes: parseStrokes(missingGlyph[1]) };
