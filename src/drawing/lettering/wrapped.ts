import { textWidth } from './lettering.js';

/** Length of a line, mm, of letters whose capitals are `height` mm high. */
export type Measure = (line: string, height: number) => number;

/**
 * Words set in lines no longer than `width`, mm; a word that is longer alone is broken. Lines beyond `most`
 * are left out and the last one kept ends in "...".
 */
export function wrapped(
  words: string,
  height: number,
  width: number,
  most = Infinity,
  measure: Measure = textWidth,
): readonly string[] {
  const fits = (line: string): boolean => measure(line, height) <= width;
  // A line is as long as its words and the spaces between them, so each word is measured once.
  const space = measure('n n', height) - 2 * measure('n', height);
  const lines: string[][] = [];
  let room = 0;
  for (const word of words.split(/\s+/).filter((one) => one !== '')) {
    const whole = measure(word, height);
    for (const part of whole <= width ? [word] : broken(word, fits)) {
      const long = part === word ? whole : measure(part, height);
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
