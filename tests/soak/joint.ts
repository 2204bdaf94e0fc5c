import { hasErrors } from '../../src/diagnostics/diagnostic.js';
import { solveJob } from '../../src/outputs/joint.js';
import { testCutJob, withTestCuts } from '../../src/outputs/testcut.js';
import { readText } from '../support/jobs.js';
import { makeFiles } from '../support/made.js';
import { halfWritten } from './whole.js';

/**
 * What is wrong with halfpin's answer to a job with one joint: solved, its templates written, read back, cut on
 * paper and closed, then, where asked, every usual file. undefined where nothing is; a refusal with a reason is a
 * good answer.
 */
export async function problemWithJoint(text: string, everyFile = true): Promise<string | undefined> {
  const job = readText(text);
  const solved = solveJob(job);
  const [outcome] = solved;
  if (!outcome?.made) {
    return hasErrors(outcome?.diagnostics ?? []) ? undefined : 'not made, and no reason is given';
  }
  const cuts = await testCutJob(job, solved);
  const [cut] = cuts;
  if (!cut?.cut) return `not cut on paper: ${codes(cut?.diagnostics ?? [])}`;
  if (hasErrors(cut.diagnostics)) return `does not close: ${codes(cut.diagnostics)}`;
  const { worstGap, worstOverlap, levels } = cut.cut;
  if (!Number.isFinite(worstGap + worstOverlap) || levels.length < 9)
    return 'was not measured at nine levels';
  if (!everyFile) return undefined;
  const files = await makeFiles(job, withTestCuts(job, solved, cuts));
  if (files.length < 4) return `only ${files.length} files`;
  return files.flatMap(({ path, content }) => halfWritten(path, Buffer.from(content)) ?? [])[0];
}

function codes(diagnostics: readonly { readonly code: string; readonly data: unknown }[]): string {
  return diagnostics.map(({ code, data }) => `${code} ${JSON.stringify(data)}`).join('; ');
}
