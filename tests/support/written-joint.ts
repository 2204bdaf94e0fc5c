import { type JointOutcome, solveJob } from '../../src/outputs/joint.js';
import type { Report } from '../../src/outputs/report.js';
import { testCut } from '../../src/verify/assemble.js';
import { type ReportedJoint, requestOf, type WrittenFile } from '../../src/verify/files/from-report.js';
import { settled } from './hand-testcut.js';
import { readText } from './jobs.js';
import { makeFiles } from './made.js';

/** A job with one joint from its text to its written templates, and back by the test cut's own readers. */

export interface WrittenJoint {
  readonly outcome: JointOutcome;
  readonly report: Report;
  readonly files: readonly WrittenFile[];
}

/** The written joint of a job text, or the codes of what speaks against it. */
export async function writeJoint(text: string): Promise<WrittenJoint | readonly string[]> {
  const job = readText(text);
  const outcomes = solveJob(job);
  const [outcome] = outcomes;
  if (!outcome?.made) return (outcome?.diagnostics ?? []).map(({ code }) => code);
  const made = await makeFiles(job, outcomes, { only: ['finger'], as: ['dxf'] });
  const files = made.map(({ path, content }) => ({
    name: path.split('/').at(-1) ?? path,
    text: typeof content === 'string' ? content : '',
  }));
  return { outcome, report: outcome.made.report, files };
}

export function isWritten(one: WrittenJoint | readonly string[]): one is WrittenJoint {
  return 'report' in one;
}

/** The request of a test cut as it is read back from the written files. */
export function requestFor({ report, files }: WrittenJoint) {
  return settled(requestOf(report as ReportedJoint, files));
}

export function closed(written: WrittenJoint) {
  return { ...settled(testCut(requestFor(written))), slack: written.outcome.joint.slack };
}

/** The text of a JSON job with its one joint changed. */
export function withJoint(
  text: string,
  change: (joint: Record<string, unknown>) => Record<string, unknown>,
): string {
  const job = JSON.parse(text) as { joints: Record<string, Record<string, unknown>> };
  const joints = Object.fromEntries(Object.entries(job.joints).map(([name, joint]) => [name, change(joint)]));
  return JSON.stringify({ ...job, joints });
}

export function withTemplate(text: string, template: Readonly<Record<string, unknown>>): string {
  return withJoint(text, (joint) => ({
    ...joint,
    template: { ...(joint.template as Record<string, unknown> | undefined), ...template },
  }));
}
