import type { Formatter } from '../formatter.js';

/** Sentences about how a joint's play spreads when sizes are not as asked. Lengths in mm, shares from 0 to 1. */
export const toleranceWording = {
  'tolerance-limits': (d: { tight: number; loose: number }, fmt: Formatter) =>
    `too tight begins under ${fmt.length(d.tight)} and too loose over ${fmt.length(d.loose)}, which leaves nothing that is good; give limits the other way round`,
  'tolerance-range': (d: { value: number; most: number }, fmt: Formatter) =>
    `${fmt.length(d.value)} is no tolerance; it is ± a length from nothing to ${fmt.length(d.most)}`,
  'tolerance-limit': (d: { value: number; most: number }, fmt: Formatter) =>
    `${fmt.length(d.value)} is no limit for the play of a pair; it lies within ${fmt.length(d.most)} of nothing`,
  'tolerance-form': (d: { known: readonly string[] }) =>
    `a tolerance is written key=value without spaces, for example bit=0.02mm; known are ${d.known.join(', ')}`,
  'tolerance-twice': (d: { key: string }) => `${d.key} is given twice; keep one`,
  'tolerance-angle': (d: { value: number; most: number }, fmt: Formatter) =>
    `${fmt.angle(d.value)} is no tolerance; it is ± an angle from nothing to ${fmt.angle(d.most)}`,
  'tolerance-asked': (d: { keys: readonly string[] }) =>
    `${d.keys.join(' and ')}: no standard says how far ${d.keys.length === 1 ? 'it' : 'they'} may be off, so ${d.keys.length === 1 ? 'it counts' : 'they count'} as exact; measure, and give ${d.keys.map((key) => `${key}=…`).join(' and ')}`,
  'tolerance-assumed': (d: { sources: readonly string[] }) =>
    `${d.sources.map(nameOf).join(', ')}: no tolerance given, so ISO 2768-1 stands in (class f for tools, m for wood and settings); measured sizes are better`,
  'tolerance-shares': (
    d: {
      tight: number;
      good: number;
      loose: number;
      least: number;
      most: number;
      under: number;
      over: number;
      uncut: number;
    },
    fmt: Formatter,
  ) =>
    `of all joints ${percent(d.good)} fit, ${percent(d.tight)} are too tight (play under ${fmt.length(d.under)}), ${percent(d.loose)} too loose (over ${fmt.length(d.over)})${d.uncut > 0 ? `, ${percent(d.uncut)} can't be cut: the bushing doesn't go in` : ''}; the play runs from ${fmt.length(d.least)} to ${fmt.length(d.most)}`,
  'tolerance-worst': (d: { source: string; share: number }) =>
    `${nameOf(d.source)} matters most: ${percent(d.share)} of the spread; measure that first`,
  'tolerance-idle': (d: { sources: readonly string[] }) =>
    `${d.sources.map(nameOf).join(' and ')}: no effect on the play of a pair; what is off there shows at the faces`,
};

function nameOf(source: string): string {
  if (source === 'dovetail') return 'the dovetail bit';
  if (source === 'straight') return 'the straight bit';
  if (source === 'second') return 'the bit of board two';
  return source === 'kerf' ? 'the kerf' : `the ${source}`;
}

function percent(share: number): string {
  return `${Number((100 * share).toFixed(1))} %`;
}
