import { type Finding, finding, isRefused } from '../findings/finding.js';
import { sayIn } from '../findings/say.js';
import type { Job } from '../job/types.js';
import { type TestCut, type TestCutRequest, testCut } from '../testcut/assemble.js';
import { requestOf, type WrittenFile } from '../testcut/from-report.js';
import { judgeTestCut } from '../testcut/judge.js';
import { missingFiles } from '../testcut/read-template.js';
import { type Artifact, ownerOf } from './artifact.js';
import { drawnPlates } from './drawn.js';
import type { JointOutcome } from './joint.js';
import { type Report, withTestCut } from './report.js';

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

/** Written templates of a joint: name and text of each file. */
export type Written = (outcome: JointOutcome) => readonly WrittenFile[] | Promise<readonly WrittenFile[]>;

export interface TestCutOptions {
  /** Levels at which the boards are compared; nine unless said. */
  readonly levels?: number;
  /** Templates in place of those that the job gives. */
  readonly written?: Written;
}

/** Cuts every joint that can be made on paper, under its templates as their DXF files hold them, and judges it. Writes nothing. */
export async function testCutJob(
  job: Job,
  outcomes: readonly JointOutcome[],
  { levels, written = (outcome) => writtenTemplates(job, outcome) }: TestCutOptions = {},
): Promise<readonly TestCutOutcome[]> {
  const all: TestCutOutcome[] = [];
  for (const outcome of outcomes) {
    const { joint, made } = outcome;
    if (made) all.push(testCutJoint(made.report, joint.slack, await written(outcome), levels));
  }
  return all;
}

/** Each finger template of a joint as its DXF file holds it; none of a joint that cannot be made. */
export const writtenTemplates = (job: Job, { joint, made }: JointOutcome): Promise<readonly WrittenFile[]> =>
  readBack(made ? drawnPlates('dxf', made.plates, ownerOf('finger', joint.name), job) : []);

/** Artifacts as the test cut reads them. */
export const readBack = (artifacts: readonly Artifact[]): Promise<readonly WrittenFile[]> =>
  Promise.all(
    artifacts.map(async ({ path, render }) => ({
      name: path.slice(path.lastIndexOf('/') + 1),
      text: `${await render()}`,
    })),
  );

/** Outcomes whose reports carry their test cuts; a joint that does not close is refused. */
export function withTestCuts(
  job: Job,
  outcomes: readonly JointOutcome[],
  cuts: readonly TestCutOutcome[],
): readonly JointOutcome[] {
  return outcomes.map((outcome) => {
    const cut = cuts.find(({ joint }) => joint === outcome.joint.name);
    if (!cut) return outcome;
    const { joint, made } = outcome;
    const findings = [...outcome.findings, ...cut.findings];
    if (!made || isRefused(cut.findings)) {
      return { joint, findings: [...findings, ...reliefFindings(outcome)] };
    }
    const report = withTestCut(made.report, cut.cut, cut.findings, sayIn(job.units));
    return { joint, findings, made: { ...made, report } };
  });
}

/** What is behind a joint that does not close under a plate whose corners an end mill has cut past. */
function reliefFindings({ findings, made }: JointOutcome): readonly Finding[] {
  const relieved = findings.find(({ code }) => code === 'corners-relieved');
  if (relieved?.code !== 'corners-relieved' || !made) return [];
  const { cutter } = relieved.data;
  const bushing = Math.min(...made.solved.cuts.map((cut) => cut.bushing.outside));
  return [finding('relief-unguides', 'refused', 'shop.cnc.relief', { cutter, bushing })];
}

/** A test cut as an SVG picture, to scale; undefined where nothing could be cut. */
export async function testCutPictureOf(
  { title, units }: Job,
  { joint, cut }: TestCutOutcome,
): Promise<string | undefined> {
  if (!cut) return undefined;
  const { testCutPicture } = await import('../testcut/picture.js');
  return testCutPicture(cut, `${title}: ${joint}, test cut`, sayIn(units));
}
