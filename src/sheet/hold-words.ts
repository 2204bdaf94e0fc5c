import type { Formatter } from '../diagnostics/formatter.js';
import type { Stand } from './stands.js';

/** Sentences about how an end is held, from its stand and from nothing else. */

/** The two cuts of a plate that carries every second slot, at the stand's own stop; nothing of any other plate. */
export function twiceWords({ twice, stop }: Stand, fmt: Formatter): string {
  if (!twice) return '';
  const { stopAt, spacer, spacerFor } = twice;
  const thick = `a spacer of ${fmt.length(spacer)}`;
  const [first, second] = spacerFor === 1 ? [thick, 'without'] : ['no spacer', thick];
  return `at the ${stop} the stop stays on STOP ${stopAt}: first cut with ${first}, second ${spacerFor === 1 ? '' : 'with '}${second}`;
}
