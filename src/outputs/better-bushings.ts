import { type Finding, finding } from '../findings/finding.js';
import type { Job } from '../job/types.js';
import { families } from '../joints/list.js';
import { type JointOutcome, solveJob } from './joint.js';

/** What a smaller bushing may mend. */
const plateTroubles: ReadonlySet<string> = new Set(['finger-thin', 'plate-in-parts', 'bit-cannot-reach']);

/**
 * Bushings of the shop under which what is wrong with a joint's plate is right, each tried. Nothing of a joint that
 * its solver refused: that names the tools that work itself.
 */
export function betterBushings(
  job: Job,
  { joint, findings }: JointOutcome,
  known = families,
): readonly Finding[] {
  const troubled = findings.some(({ code }) => plateTroubles.has(code));
  if (!troubled || findings.some(({ code }) => code === 'other-tools-would-do')) return [];
  const bushings = Object.values(job.shop.bushings)
    .filter(({ name }) => name !== joint.bushing?.name)
    .filter((bushing) => {
      const [other] = solveJob({ ...job, joints: [{ ...joint, bushing }] }, undefined, known);
      return other?.made !== undefined && !other.findings.some(({ code }) => plateTroubles.has(code));
    })
    .map(({ name }) => name);
  return bushings.length === 0
    ? []
    : [finding('bushing-would-do', 'ok', `joints.${joint.name}.bushing`, { bushings })];
}
