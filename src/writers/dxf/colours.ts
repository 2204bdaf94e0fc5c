/** Colours of DXF layers and entities: `#RRGGBB` to the nearest of the 255 numbered ones, and as true colour. */

import { memoize } from '../../drawing/memoize.js';

/** Group code 420: red, green and blue as one number. */
export const trueColour = (colour: string): number => Number.parseInt(colour.slice(1), 16);

/**
 * Group code 62, 1 to 249: the number whose colour is nearest in red, green and blue. Number 7 is black on white
 * paper and white on a black screen, so it stands for both.
 */
export const colourNumber = memoize((colour: string): number => {
  const wanted = rgbOf(trueColour(colour));
  if (wanted.every((part) => part === 0)) return BLACK_OR_WHITE;
  const away = (number: number): number =>
    numberedColour(number).reduce((sum, part, i) => sum + (part - (wanted[i] ?? 0)) ** 2, 0);
  const numbers = Array.from({ length: LAST_HUE }, (_, i) => i + 1);
  return numbers.reduce((best, one) => (away(one) < away(best) ? one : best));
});

const BLACK_OR_WHITE = 7;
const LAST_HUE = 249;

type Rgb = readonly [red: number, green: number, blue: number];

const rgbOf = (value: number): Rgb => [(value >> 16) & 255, (value >> 8) & 255, value & 255];

/**
 * Red, green and blue of a numbered colour, 1 to 249. From 10 on every ten numbers are one of 24 hues, 15° apart,
 * in five brightnesses, each pure (even numbers) and mixed half with grey of its brightness (odd numbers).
 */
export function numberedColour(number: number): Rgb {
  const plain = plainColours[number - 1];
  if (plain !== undefined) return rgbOf(plain);
  const bright = brightness[Math.floor((number % 10) / 2)] ?? 0;
  const hue = Math.floor(number / 10) - 1;
  const [red, green, blue] = [0, 16, 8].map((shift) => hueShare(hue + shift)) as [number, number, number];
  const part = (share: number): number =>
    Math.floor(255 * bright * (number % 2 === 0 ? share : (1 + share) / 2));
  return [part(red), part(green), part(blue)];
}

/** 1 to 9: red, yellow, green, cyan, blue, magenta, white, two greys. */
const plainColours = [
  0xff0000, 0xffff00, 0x00ff00, 0x00ffff, 0x0000ff, 0xff00ff, 0xffffff, 0x808080, 0xc0c0c0,
];

const brightness = [1, 0.65, 0.5, 0.3, 0.15];

/** How much of a primary there is so many 24ths of the colour circle away from it: all within 60°, none beyond 120°. */
function hueShare(step: number): number {
  const away = Math.min(step % 24, 24 - (step % 24));
  return Math.min(1, Math.max(0, (8 - away) / 4));
}
