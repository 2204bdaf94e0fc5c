import type { Say } from '../findings/say.js';
import type { Bit } from '../job/types.js';

/** `dovetail bit half-8 (1/2 in, 8°)`. */
export function bitWords(bit: Bit, say: Say): string {
  const angle = bit.kind === 'dovetail' ? `, ${say.angle(bit.angle)}` : '';
  return `${bit.kind} bit ${bit.name} (${say.length(bit.diameter)}${angle})`;
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
