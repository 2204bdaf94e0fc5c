import type { z } from 'zod';
import { WIDEST_LINE } from '../limits.js';
import type { MarkerOptions } from '../types.js';
import type { FieldKit } from './field-kit.js';
import type { LengthRange } from './read-value.js';

const LINE: LengthRange = { most: WIDEST_LINE, because: 'a wider line is no line to saw to' };

/** `marker:` of every joint that is marked out by hand; may be left out. */
export function markerFields(kit: FieldKit): z.ZodType<MarkerOptions> {
  return kit.object({
    line: kit.lengthOrZero(LINE).exactOptional(),
    form: kit.option(['fold', 'hook']).exactOptional(),
  });
}
