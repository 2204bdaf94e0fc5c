import type { Formatter } from '../diagnostics/formatter.js';
import type { Bit } from '../input/types.js';
import type { Words } from '../joints/contract.js';

/** `dovetail bit half-8 (1/2 in, 8°)`. */
export function bitWords(bit: Bit, fmt: Formatter): string {
  const angle = bit.kind === 'dovetail' ? `, ${fmt.angle(bit.angle)}` : '';
  return `${bit.kind} bit ${bit.name} (${fmt.length(bit.diameter)}${angle})`;
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** A family's sentence with its lengths in the units of the job. */
export function wordsText(words: Words, fmt: Formatter): string {
  return words.map((one) => (typeof one === 'number' ? fmt.length(one) : one)).join('');
}
