import type { Formatter } from '../diagnostics/formatter.js';
import { listed } from './names.js';
import { faceWords, type Stand } from './stands.js';

/** Sentences about how an end is held, from its stand and from nothing else. */

/** `left end of B (corner 2)`, `left ends of B (corner 2) and D (corner 4)`: stands of one end. */
export function endsWords(stands: readonly Stand[]): string {
  const letters = stands.map(({ letter, corner }) => `${letter} (corner ${corner})`);
  return `${stands[0]?.end ?? ''} ${letters.length > 1 ? 'ends' : 'end'} of ${listed(letters)}`;
}

/** `outside face toward you, at the left stop`. */
export function holdWords(stand: Stand): string {
  return `${faceWords(stand)}, at the ${stand.stop} stop`;
}

/** The two cuts of a plate that carries every second slot, at the stand's own stop; nothing of any other plate. */
export function twiceWords({ twice, stop }: Stand, fmt: Formatter): string {
  if (!twice) return '';
  const { stopAt, spacer, spacerFor } = twice;
  const thick = `a spacer exactly ${fmt.length(spacer)} thick between stop and board`;
  const [first, second] = spacerFor === 1 ? [thick, 'without it'] : ['no spacer', `with ${thick}`];
  return `at the ${stop}, the stop stays on the line marked STOP ${stopAt}; the first cut is made with ${first}, the second ${second}`;
}
