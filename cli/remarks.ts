import type { SolvedFile } from './job.js';
import { tell } from './terminal.js';

/**
 * Says on standard error what is refused and what wants care, each with its place in the file, and what is
 * worth knowing of a refused joint: that is where the ways out of it stand.
 */
export function tellRemarks({ remarks, outcomes }: SolvedFile): void {
  const stuck = outcomes.filter(({ made }) => !made).map(({ joint }) => `joints.${joint.name}`);
  for (const { level, full, at } of remarks) {
    if (level === 'ok' && stuck.some((joint) => at === joint || at.startsWith(`${joint}.`))) tell(full);
    if (level === 'refused') tell(full, 'red');
    if (level === 'caution') tell(full, 'yellow');
  }
}

/** A job's outcome for programs: what `--json` prints. */
export function dataOf({ code, job, outcomes, remarks }: SolvedFile): object {
  return {
    status: code,
    title: job?.title ?? null,
    units: job?.units ?? null,
    joints: outcomes.map(
      ({ joint, made }) => made?.report ?? { joint: joint.name, kind: joint.kind, refused: true },
    ),
    findings: remarks.map(({ full, ...remark }) => remark),
  };
}
