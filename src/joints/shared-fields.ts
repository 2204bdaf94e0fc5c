import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { LayoutField } from '../input/fields/field-kit.js';
import type { LengthRange } from '../input/fields/read-value.js';
import { MAX_WIDTH } from '../input/limits.js';
import type { Fit, Joint } from '../input/types.js';

/** What the fields of several families have in common. */

/** Keys of `layout:` that a row of tails and pins understands. */
export const tailLayoutFields: readonly LayoutField[] = [
  'tails',
  'pitch',
  'pin',
  'endPin',
  'leastPin',
  'ratio',
  'seed',
  'spread',
  'spans',
  'groove',
];

/** Width of the boards along the joint, mm. */
export const JOINT_WIDTH: LengthRange = {
  most: MAX_WIDTH,
  because: 'no joint under a router template is so wide',
};

/** A joint's slack with who says it. By hand a joint is sawn and pared to the line: no slack unless the job asks for it. */
export function slackOf(
  fit: Fit,
  { bushing }: { readonly bushing?: unknown },
): Pick<Joint, 'slack' | 'slackFrom'> {
  const slack = bushing === undefined && fit.from === 'default' ? 0 : fit.slack;
  return { slack, slackFrom: fit.from };
}

/** Which of the keys for bits, bushing and slope stand in the file. */
export interface ToolsWritten {
  readonly bits: boolean;
  readonly bushing: boolean;
  /** Absent where the family has no slope. */
  readonly slope?: boolean;
}

/** Either bits and bushing, whose bit sets the slope, or neither and a slope; `example` is the key as it is written. */
export function handOrRouter(
  { bits, bushing, slope }: ToolsWritten,
  key: 'cutter' | 'cutters',
  example: string,
): readonly Diagnostic[] {
  if (bits && !bushing) return [diagnostic('bushing-missing', 'refused', key, {})];
  if (bushing && !bits) return [diagnostic('cutters-missing', 'refused', 'bushing', { key, example })];
  if (slope === undefined || slope !== bits) return [];
  return [diagnostic(bits ? 'slope-twice' : 'slope-missing', 'refused', 'slope', {})];
}
