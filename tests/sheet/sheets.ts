import type { Job } from '../../src/input/types.js';
import { solveJob } from '../../src/outputs/joint.js';
import { sheetInput } from '../../src/outputs/set-up.js';
import type { SheetDocument } from '../../src/sheet/document.js';
import type { MadeJoint, SheetInput } from '../../src/sheet/input.js';
import { setUpSheet } from '../../src/sheet/set-up-sheet.js';

export function madeJoints(job: Job): readonly MadeJoint[] {
  return solveJob(job).flatMap(({ joint, made, diagnostics }) =>
    made ? [{ joint, diagnostics, solved: made.solved, templates: made.templates }] : [],
  );
}

/** The sheet of every joint of a job, and what it was made from. */
export function makeSheets(
  job: Job,
): readonly { readonly name: string; readonly input: SheetInput; readonly document: SheetDocument }[] {
  const all = madeJoints(job);
  return all.map((made) => {
    const input = sheetInput(job, made, all);
    return { name: made.joint.name, input, document: setUpSheet(input) };
  });
}
