import type { z } from 'zod';
import { type Finding, finding } from '../findings/finding.js';
import type { FieldKit } from './field-kit.js';
import type { MarkerOptions } from './types.js';

/** A line wider than this is no line to saw to, mm. */
const WIDEST_LINE = 2;

/** `marker:` of every joint that is marked out by hand; may be left out. */
export function markerFields(kit: FieldKit): z.ZodType<MarkerOptions> {
  return kit.object(
    { line: kit.lengthOrZero().exactOptional(), form: kit.option(['fold', 'hook']).exactOptional() },
    ({ fields }) => lineFindings(fields.line),
  );
}

function lineFindings(line: number | undefined): readonly Finding[] {
  if (line === undefined || line <= WIDEST_LINE) return [];
  return [finding('marker-line-wide', 'refused', 'line', { line, most: WIDEST_LINE })];
}
