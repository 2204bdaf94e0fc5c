import type { Say } from '../say.js';

/** Sentences about how a joint's play spreads when sizes are not as asked. Lengths in mm, shares from 0 to 1. */
export const toleranceWording = {
  'tolerance-limits': (d: { tight: number; loose: number }, say: Say) =>
    `too tight begins under ${say.length(d.tight)} and too loose over ${say.length(d.loose)}, which leaves nothing that is good; give limits the other way round`,
  'tolerance-range': (d: { value: number; most: number }, say: Say) =>
    `${say.length(d.value)} is no tolerance; it is ± a length from nothing to ${say.length(d.most)}`,
  'tolerance-limit': (d: { value: number; most: number }, say: Say) =>
    `${say.length(d.value)} is no limit for the play of a pair; it lies within ${say.length(d.most)} of nothing`,
  'tolerance-form': (d: { known: readonly string[] }) =>
    `a tolerance is written key=value without spaces, for example bit=0.02mm; known are ${d.known.join(', ')}`,
  'tolerance-twice': (d: { key: string }) => `${d.key} is given twice; keep one`,
  'tolerance-angle': (d: { value: number; most: number }, say: Say) =>
    `${say.angle(d.value)} is no tolerance; it is ± an angle from nothing to ${say.angle(d.most)}`,
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
    },
    say: Say,
  ) =>
    `of all joints ${percent(d.good)} fit, ${percent(d.tight)} are too tight (play under ${say.length(d.under)}), ${percent(d.loose)} too loose (over ${say.length(d.over)}); the play runs from ${say.length(d.least)} to ${say.length(d.most)}`,
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
