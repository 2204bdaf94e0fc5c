import { didYouMean } from '../findings/did-you-mean.js';
import { type Finding, finding, given, type Result, refused } from '../findings/finding.js';
import { GREATEST_ANGLE_TOLERANCE, GREATEST_TOLERANCE } from '../job/limits.js';
import { readDegrees } from '../units/angle.js';
import { keyValues } from '../units/key-values.js';
import { type LengthUnit, readLength } from '../units/length.js';
import type { ToleranceOptions, Tolerances } from './tolerance.js';

const keys = ['bit', 'bushing', 'kerf', 'thickness', 'depth', 'angle', 'tight', 'loose'] as const;

/** Tolerances, and from where on the play is too tight or too loose, mm. */
export type AskedTolerances = Tolerances & Pick<ToleranceOptions, 'tight' | 'loose'>;

const MOST = GREATEST_TOLERANCE;
const MOST_ANGLE = (GREATEST_ANGLE_TOLERANCE * Math.PI) / 180;

/**
 * Tolerances from words such as `bit=0.02mm`, `angle=0.2` (degrees); each stands for ±. `±` and `+-` before the
 * value are taken. `tight=0` and `loose=0.2mm` are the limits of the play. Every word that cannot be read, or
 * says a thing again, has its finding, at `--tolerance WORD`.
 */
export function readTolerances(words: readonly string[], units: LengthUnit): Result<AskedTolerances> {
  const read: Record<string, number> = {};
  const findings: Finding[] = [];
  for (const word of keyValues(words)) {
    const at = `--tolerance ${word.slice(0, 40)}`;
    const [, key = '', text = ''] = /^\s*([a-z]+)\s*=\s*(?:±|\+\/?-)?\s*(.*?)\s*$/i.exec(word) ?? [];
    if (key === '') {
      findings.push(finding('tolerance-form', 'refused', at, { known: keys }));
      continue;
    }
    const known = keys.find((one) => one === key.toLowerCase());
    if (!known) {
      const nearest = didYouMean(key, keys);
      findings.push(
        finding('measured-unknown', 'refused', at, {
          key,
          known: keys,
          ...(nearest === undefined ? {} : { nearest }),
        }),
      );
      continue;
    }
    if (known in read) {
      findings.push(finding('tolerance-twice', 'refused', at, { key: known }));
      continue;
    }
    const value = known === 'angle' ? angleOf(text, at) : lengthOf(text, units, at, known);
    if (typeof value === 'number') read[known] = value;
    else findings.push(value);
  }
  return findings.length > 0 ? refused(findings) : given(read);
}

function lengthOf(text: string, units: LengthUnit, at: string, key: string): number | Finding {
  const reading = readLength(text, units);
  if (!reading.ok) {
    const { trouble, wouldDo } = reading;
    return finding('length-unclear', 'refused', at, { read: `"${text}"`, trouble, wouldDo });
  }
  // Play below nothing is wood that has to be forced together.
  const least = key === 'tight' || key === 'loose' ? -MOST : 0;
  if (reading.mm >= least && reading.mm <= MOST) return reading.mm;
  if (least < 0) return finding('tolerance-limit', 'refused', at, { value: reading.mm, most: MOST });
  return finding('tolerance-range', 'refused', at, { value: reading.mm, most: MOST });
}

function angleOf(text: string, at: string): number | Finding {
  const reading = readDegrees(text);
  if (!reading.ok) return finding('angle-unclear', 'refused', at, { read: `"${text}"`, wouldDo: [] });
  if (reading.radians >= 0 && reading.radians <= MOST_ANGLE) return reading.radians;
  return finding('tolerance-angle', 'refused', at, { value: reading.radians, most: MOST_ANGLE });
}
