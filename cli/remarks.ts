import type { Edit, Fix, KeyPath } from '../src/diagnostics/fix.js';
import type { SolvedFile } from './job.js';
import { tell } from './terminal.js';

/**
 * Says on standard error what is refused and what wants care, each with its place in the file, and what is
 * worth knowing of a refused joint: that is where the ways out of it stand.
 */
export function tellRemarks({ remarks, outcomes }: SolvedFile): void {
  const stuck = outcomes.filter(({ made }) => !made).map(({ joint }) => `joints.${joint.name}`);
  for (const { level, full, at, fixes } of remarks) {
    const ofStuck = stuck.some((joint) => at === joint || at.startsWith(`${joint}.`));
    if (level === 'ok' && !ofStuck && fixes.length === 0) continue;
    tell(full, level === 'ok' ? undefined : level === 'refused' ? 'red' : 'yellow');
    for (const fix of fixes) tell(`  fix: ${fixWords(fix)}`);
  }
}

/** `5 tails (layout.tails: 5)`: what a fix is, and what it writes into the job. */
export function fixWords({ label, edits }: Fix): string {
  return `${label} (${edits.map(editWords).join('; ')})`;
}

function editWords(edit: Edit): string {
  if ('set' in edit) return `${keyWords(edit.set)}: ${edit.to}`;
  if ('remove' in edit) return `without ${keyWords(edit.remove)}`;
  return `${keyWords([...edit.rename.slice(0, -1), edit.to])} for ${edit.rename.at(-1)}`;
}

/** A key as it stands in its joint, where it stands in one. */
function keyWords(path: KeyPath): string {
  return (path[0] === 'joints' && path.length > 2 ? path.slice(2) : path).join('.');
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
