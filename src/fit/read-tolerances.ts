import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import { didYouMean } from '../diagnostics/did-you-mean.js';
import { MAX_ANGLE_TOLERANCE, MAX_TOLERANCE } from '../input/limits.js';
import { readDegrees } from '../units/angle.js';
import { keyValues } from '../units/key-values.js';
import { type LengthUnit, readLength } from '../units/length.js';
import type { ToleranceOptions, Tolerances } from './tolerance.js';

const keys = ['bit', 'bushing', 'kerf', 'thickness', 'depth', 'angle', 'tight', 'loose'] as const;

/** Tolerances, and from where on the play is too tight or too loose, mm. */
export type AskedTolerances = Tolerances & Pick<ToleranceOptions, 'tight' | 'loose'>;

const MOST = MAX_TOLERANCE;
const MAX_ANGLE = (MAX_ANGLE_TOLERANCE * Math.PI) / 180;

/**
 * Tolerances from words such as `bit=0.02mm`, `angle=0.2` (degrees); each stands for ±. `±` and `+-` before the
 * value are taken. `tight=0` and `loose=0.2mm` are the limits of the play. Every word that cannot be read, or
 * says a thing again, has its diagnostic, at `--tolerance WORD`.
 */
export function readTolerances(words: readonly string[], units: LengthUnit): Result<AskedTolerances> {
  const read: Record<string, number> = {};
  const diagnostics: Diagnostic[] = [];
  for (const word of keyValues(words)) {
    const at = `--tolerance ${word.slice(0, 40)}`;
    const [, key = '', text = ''] = /^\s*([a-z]+)\s*=\s*(?:±|\+\/?-)?\s*(.*?)\s*$/i.exec(word) ?? [];
    if (key === '') {
      diagnostics.push(diagnostic('tolerance-form', 'refused', at, { known: keys }));
      continue;
    }
    const known = keys.find((one) => one === key.toLowerCase());
    if (!known) {
      const nearest = didYouMean(key, keys);
      diagnostics.push(
        diagnostic('measured-unknown', 'refused', at, {
          key,
          known: keys,
          ...(nearest === undefined ? {} : { nearest }),
        }),
      );
      continue;
    }
    if (known in read) {
      diagnostics.push(diagnostic('tolerance-twice', 'refused', at, { key: known }));
      continue;
    }
    const value = known === 'angle' ? angleOf(text, at) : lengthOf(text, units, at, known);
    if (typeof value === 'number') read[known] = value;
    else diagnostics.push(value);
  }
  return diagnostics.length > 0 ? err(diagnostics) : ok(read);
}

function lengthOf(text: string, units: LengthUnit, at: string, key: string): number | Diagnostic {
  const reading = readLength(text, units);
  if (!reading.ok) {
    const { trouble, wouldDo } = reading;
    return diagnostic('length-unclear', 'refused', at, { read: `"${text}"`, trouble, wouldDo });
  }
  // Play below nothing is wood that has to be forced together.
  const least = key === 'tight' || key === 'loose' ? -MOST : 0;
  if (reading.mm >= least && reading.mm <= MOST) return reading.mm;
  if (least < 0) return diagnostic('tolerance-limit', 'refused', at, { value: reading.mm, most: MOST });
  return diagnostic('tolerance-range', 'refused', at, { value: reading.mm, most: MOST });
}

function angleOf(text: string, at: string): number | Diagnostic {
  const reading = readDegrees(text);
  if (!reading.ok) return diagnostic('angle-unclear', 'refused', at, { read: `"${text}"`, wouldDo: [] });
  if (reading.radians >= 0 && reading.radians <= MAX_ANGLE) return reading.radians;
  return diagnostic('tolerance-angle', 'refused', at, { value: reading.radians, most: MAX_ANGLE });
}
