import type { Cutting } from '../cam/compensated.js';
import { plateNote } from '../cam/plate-note.js';
import { type Diagnostic, diagnostic, err, hasErrors, ok, type Result } from '../diagnostics/diagnostic.js';
import { formatterFor } from '../diagnostics/formatter.js';
import type { Job, Joint } from '../input/types.js';
import { alignDiagnostics, alignedTo, rowOf } from '../joints/align.js';
import type { JointFamily, SolvedJoint } from '../joints/family.js';
import { families } from '../joints/list.js';
import { type Judge, judgeFingers, solveChosen, unblamed } from '../joints/search/choice.js';
import { standsOf } from '../set-up/stands.js';
import { judgePieces } from '../sheet/cut-list.js';
import { type FingerTemplate, fingerTemplates, writtenAs } from '../template/finger-template.js';
import { bedOf } from '../template/seams.js';
import { cuttingOf, millOf, type PreparedPlate, preparePlates } from './plates.js';
import { type Report, reportOf } from './report.js';

/** A job solved: every joint laid out, judged and drawn as its plates. Nothing here writes. */

/** One joint with its templates, or with the reasons why it cannot be made. */
export interface JointOutcome {
  readonly joint: Joint;
  readonly diagnostics: readonly Diagnostic[];
  /** Absent when the joint is refused. */
  readonly made?: {
    readonly solved: SolvedJoint;
    readonly templates: readonly FingerTemplate[];
    /** The templates, or their parts, as their files hold them. */
    readonly plates: readonly PreparedPlate[];
    readonly report: Report;
  };
}

/**
 * Solves and judges every joint of a job, or the one named. Writes nothing. `known` are the families that the job
 * was read with, where it was read with others than halfpin's.
 */
export function solveJob(job: Job, only?: string, known = families): readonly JointOutcome[] {
  return job.joints
    .filter((joint) => only === undefined || joint.name === only)
    .map((joint) => solveJoint(joint, job, known));
}

function solveJoint(joint: Joint, job: Job, known: readonly JointFamily[]): JointOutcome {
  const fmt = formatterFor(job.units);
  const solved = solveAligned(joint, job, known);
  if (!solved.ok) return { joint, diagnostics: solved.diagnostics };
  const cutting = cuttingOf(job.shop);
  if (!cutting.ok) return { joint, diagnostics: [...solved.diagnostics, ...cutting.diagnostics] };
  const templates = templatesFor(cutting.value, solved.value, joint, job);
  const drawn = preparePlates((templates.ok ? templates.value : []).flatMap(writtenAs), cutting.value, fmt);
  const made = templates.ok && { joint, solved: solved.value, templates: templates.value, diagnostics: [] };
  const diagnostics = [
    ...solved.diagnostics,
    ...unblamed(templates.diagnostics, familyFor(joint, known), joint),
    ...drawn.diagnostics,
    ...(made ? judgePieces(job.pieces, made) : []),
  ];
  if (!templates.ok || hasErrors(diagnostics)) return { joint, diagnostics };
  const { shop, pieces } = job;
  const of = { solved: solved.value, templates: templates.value };
  const setUp = standsOf({ ...of, shop, pieces });
  const report = reportOf(joint, of.solved, { ...of, setUp }, diagnostics, shop, fmt, known);
  return { joint, diagnostics, made: { ...of, plates: drawn.plates, report } };
}

/** The joint solved by its family, with the numbers of the joint that it is lined up with where there is one. */
export function solveAligned(joint: Joint, job: Job, known = families): Result<SolvedJoint> {
  const family = familyFor(joint, known);
  const lead = job.joints.find(({ name }) => name === joint.align);
  if (joint.align === undefined) return solveChosen(family, joint, job.shop, judgeOf(job));
  const at = `joints.${joint.name}.align`;
  // A lead that was refused when the job was read is not among its joints.
  const led = lead && solveAligned(lead, job, known);
  if (!led?.ok) return err([diagnostic('align-refused', 'refused', at, { lead: joint.align })]);
  const row = rowOf(led.value);
  if (!row) return err([diagnostic('align-kind', 'refused', at, { kind: joint.kind })]);
  const solved = solveChosen(family, alignedTo(joint, row), job.shop, judgeOf(job));
  const aligned = alignDiagnostics(joint, solved.ok ? solved.value : undefined, joint.align, row);
  const diagnostics = [...solved.diagnostics, ...aligned];
  return solved.ok && !hasErrors(aligned) ? ok(solved.value, diagnostics) : err(diagnostics);
}

/** No plate reaches further past the board on its own, mm. */
const WIDE_MARGIN = 100;

/** What the plates of a choice are judged by: their fingers, and the seams of those that are too long for the bed. */
function judgeOf(job: Job): Judge<Joint> {
  const bed = bedOf(job.shop);
  const cutting = cuttingOf(job.shop);
  return (solved, joint, shop) => {
    const fingers = judgeFingers(solved, joint, shop);
    const length = solved.width + 2 * (joint.template.margin ?? WIDE_MARGIN);
    if (hasErrors(fingers) || !bed || !cutting.ok || length <= bed.width) return fingers;
    return templatesFor(cutting.value, solved, joint, { ...job, shop }).diagnostics;
  };
}

function familyFor({ kind }: Joint, known: readonly JointFamily[]): JointFamily {
  const family = known.find((one) => one.kind === kind);
  if (!family) throw new Error(`no joint family for kind ${kind}`);
  return family;
}

/** Finger templates whose labels and notes say what cuts them. */
export function templatesFor(
  cutting: Cutting,
  solved: SolvedJoint,
  joint: Joint,
  job: Job,
): Result<readonly FingerTemplate[]> {
  const fmt = formatterFor(job.units);
  const holds = plateNote(cutting, fmt);
  const mill = millOf(cutting, job.shop);
  return fingerTemplates(solved, {
    jobTitle: job.title,
    joint,
    shop: job.shop,
    fmt,
    holds,
    ...(mill && { mill }),
  });
}
