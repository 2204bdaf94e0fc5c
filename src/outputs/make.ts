import { err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Job } from '../input/types.js';
import type { MadeFile } from './artifact.js';
import type { Ask } from './ask.js';
import { canBeMade, plan, prove, renderAll } from './plan.js';

export interface MakeOptions extends Ask {
  /** false leaves out the test cut that every joint is put to; true when left out. */
  readonly proof?: boolean;
}

/**
 * Every file of a job that is asked for, or every reason why there is none: one joint that can't be made, or doesn't
 * close, refuses all of them; `joint` asks for one alone. What else is to be said comes with the files.
 */
export async function makeFiles(
  job: Job,
  { proof = true, ...ask }: MakeOptions = {},
): Promise<Result<readonly MadeFile[]>> {
  const planned = await plan(job, ask);
  const proved = proof && canBeMade(planned) ? await prove(planned) : planned;
  return canBeMade(proved) ? ok(await renderAll(proved), proved.diagnostics) : err(proved.diagnostics);
}
