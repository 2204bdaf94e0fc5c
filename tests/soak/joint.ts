import { isRefused } from '../../src/findings/finding.js';
import { makeFiles, solveJob, testCutJob, withTestCuts } from '../../src/pipeline.js';
import { readText } from '../support/jobs.js';
import { halfWritten } from './whole.js';

/**
 * What is wrong with halfpin's answer to a job with one joint, from its text to every usual file and to the
 * joint cut on paper from the files; undefined where nothing is. A refusal with a reason is a good answer.
 */
export async function troubleWithJoint(text: string): Promise<string | undefined> {
  const job = readText(text);
  const solved = solveJob(job);
  const [outcome] = solved;
  if (!outcome?.made) {
    return isRefused(outcome?.findings ?? []) ? undefined : 'not made, and no reason is given';
  }
  const cuts = await testCutJob(job, solved);
  const [cut] = cuts;
  if (!cut?.cut) return `not cut on paper: ${codes(cut?.findings ?? [])}`;
  if (isRefused(cut.findings)) return `does not close: ${codes(cut.findings)}`;
  const { worstGap, worstOverlap, levels } = cut.cut;
  if (!Number.isFinite(worstGap + worstOverlap) || levels.length < 9)
    return 'was not measured at nine levels';
  const files = await makeFiles(job, withTestCuts(job, solved, cuts));
  if (files.length < 4) return `only ${files.length} files`;
  return files.flatMap(({ path, content }) => halfWritten(path, Buffer.from(content)) ?? [])[0];
}

function codes(findings: readonly { readonly code: string; readonly data: unknown }[]): string {
  return findings.map(({ code, data }) => `${code} ${JSON.stringify(data)}`).join('; ');
}
