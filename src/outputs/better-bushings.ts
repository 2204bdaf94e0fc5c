import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { Job } from '../input/types.js';
import { families } from '../joints/list.js';
import { type JointOutcome, solveJob } from './joint.js';

/** What a smaller bushing may mend. */
const plateProblems: ReadonlySet<string> = new Set(['finger-thin', 'plate-in-parts', 'bit-cannot-reach']);

/**
 * Bushings of the shop under which what is wrong with a joint's plate is right, each tried. Nothing of a joint that
 * its solver refused: that names the tools that work itself.
 */
export function betterBushings(
  job: Job,
  { joint, diagnostics }: JointOutcome,
  known = families,
): readonly Diagnostic[] {
  const troubled = diagnostics.some(({ code }) => plateProblems.has(code));
  if (!troubled || diagnostics.some(({ code }) => code === 'other-tools-would-do')) return [];
  const bushings = Object.values(job.shop.bushings)
    .filter(({ name }) => name !== joint.bushing?.name)
    .filter((bushing) => {
      const [other] = solveJob({ ...job, joints: [{ ...joint, bushing }] }, undefined, known);
      return other?.made !== undefined && !other.diagnostics.some(({ code }) => plateProblems.has(code));
    })
    .map(({ name }) => name);
  return bushings.length === 0
    ? []
    : [diagnostic('bushing-would-do', 'ok', `joints.${joint.name}.bushing`, { bushings })];
}
