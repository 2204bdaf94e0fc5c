import { type Finding, finding } from './findings/finding.js';
import type { Report } from './report.js';
import { type TestCut, type TestCutRequest, testCut } from './testcut/assemble.js';
import { requestOf, type WrittenFile } from './testcut/from-report.js';
import { judgeTestCut } from './testcut/judge.js';
import { missingFiles } from './testcut/read-template.js';

export { testCutPicture } from './testcut/picture.js';

/** What the test cut of one joint says. */
export interface TestCutOutcome {
  readonly joint: string;
  /** Both boards as cut and the closed joint; absent when it is cut by hand, of a kind unknown here, or its files cannot be used. */
  readonly cut?: TestCut;
  /** What was cut; there where `cut` is. */
  readonly request?: TestCutRequest;
  readonly findings: readonly Finding[];
}

/**
 * Cuts a joint on paper under its written templates, closes it and judges it. `slack` is what the joint asks
 * for, mm. Refuses when a template is missing or unreadable, or the joint does not close as asked.
 */
export function testCutJoint(
  report: Report,
  slack: number,
  files: readonly WrittenFile[],
  levels?: number,
): TestCutOutcome {
  const { joint, kind, assembly } = report;
  const at = `joints.${joint}`;
  const only = (findings: readonly Finding[]): TestCutOutcome => ({ joint, findings });
  if (report.cuts.length === 0) return only([finding('testcut-by-hand', 'ok', at, {})]);
  if (!assembly) return only([finding('testcut-kind', 'ok', at, { kind })]);
  const missing = [...new Set(report.cuts.flatMap((cut) => missingFiles(cut, files)))].map((template) =>
    finding('template-missing', 'refused', at, { template }),
  );
  if (missing.length > 0) return only(missing);
  const request = requestOf(report, files);
  if (!request.ok) return only(request.findings);
  const asked = levels === undefined ? request.value : { ...request.value, levels };
  const cut = testCut(asked);
  if (!cut.ok) return only([...request.findings, ...cut.findings]);
  const findings = [...request.findings, ...cut.findings, ...judgeTestCut(cut.value, slack, at)];
  return { joint, cut: cut.value, request: asked, findings };
}
