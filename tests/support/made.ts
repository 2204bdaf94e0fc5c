import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import type { Job } from '../../src/input/types.js';
import type { MadeFile } from '../../src/outputs/artifact.js';
import type { Asked } from '../../src/outputs/ask.js';
import type { JointOutcome } from '../../src/outputs/joint.js';
import { planOf, prove, renderAll } from '../../src/outputs/plan.js';

/** Plans of joints that are solved already, as most tests ask of them. */

/** Every file, whether the joints close or not. */
export const makeFiles = async (
  job: Job,
  outcomes: readonly JointOutcome[],
  asked: Asked = {},
): Promise<readonly MadeFile[]> => renderAll(await planOf(job, outcomes, asked));

/** What is said of the files alone. */
export const judgeFiles = async (
  job: Job,
  outcomes: readonly JointOutcome[],
  asked: Asked = {},
): Promise<readonly Diagnostic[]> => (await planOf(job, outcomes, asked)).fileDiagnostics;

export const proveJob = async (
  job: Job,
  outcomes: readonly JointOutcome[],
): Promise<readonly JointOutcome[]> =>
  (await prove(await planOf(job, outcomes, { only: [], as: [] }))).joints;
