import { didYouMean } from '../findings/did-you-mean.js';
import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import { readDegrees } from '../units/angle.js';
import { type LengthUnit, readLength } from '../units/length.js';
import type { Tolerances } from './tolerance.js';

const keys = ['bit', 'bushing', 'kerf', 'thickness', 'depth', 'angle'] as const;

/** Wider than this is no tolerance of a joint, mm and radians. */
const MOST = 2;
const MOST_ANGLE = Math.PI / 36;

/**
 * Tolerances from words such as `bit=0.02mm`, `angle=0.2` (degrees); each stands for ±. `±` and `+-` before the
 * value are taken. Every word that cannot be read has its finding, at `--tolerance WORD`.
 */
export function readTolerances(words: readonly string[], units: LengthUnit): Result<Tolerances> {
  const read: Record<string, number> = {};
  const findings: Finding[] = [];
  for (const word of words) {
    const at = `--tolerance ${word.slice(0, 40)}`;
    const [, key = '', text = ''] = /^\s*([a-z]+)\s*=\s*(?:±|\+\/?-)?\s*(.*?)\s*$/i.exec(word) ?? [];
    const known = keys.find((one) => one === key.toLowerCase());
    if (!known) {
      const nearest = didYouMean(key, keys);
      findings.push(
        finding('measured-unknown', 'refused', at, {
          key: key === '' ? word : key,
          known: keys,
          ...(nearest === undefined ? {} : { nearest }),
        }),
      );
      continue;
    }
    const value = known === 'angle' ? angleOf(text, at) : lengthOf(text, units, at);
    if (typeof value === 'number') read[known] = value;
    else findings.push(value);
  }
  return findings.length > 0 ? refused(findings) : given(read as Tolerances);
}

function lengthOf(text: string, units: LengthUnit, at: string): number | Finding {
  const reading = readLength(text, units);
  if (!reading.ok) {
    const { trouble, wouldDo } = reading;
    return finding('length-unclear', 'refused', at, { read: `"${text}"`, trouble, wouldDo });
  }
  if (reading.mm >= 0 && reading.mm <= MOST) return reading.mm;
  return finding('tolerance-range', 'refused', at, { value: reading.mm, most: MOST });
}

function angleOf(text: string, at: string): number | Finding {
  const reading = readDegrees(text);
  if (!reading.ok) {
    return finding('angle-unclear', 'refused', at, { read: `"${text}"`, wouldDo: ['0.2', '0.5 degrees'] });
  }
  if (reading.radians >= 0 && reading.radians <= MOST_ANGLE) return reading.radians;
  return finding('tolerance-angle', 'refused', at, { value: reading.radians, most: MOST_ANGLE });
}
