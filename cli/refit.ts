import { basename, dirname } from 'node:path';
import { sentence } from '../src/diagnostics/catalogue.js';
import { type Diagnostic, diagnostic, hasErrors } from '../src/diagnostics/diagnostic.js';
import { formatterFor } from '../src/diagnostics/formatter.js';
import { type ReportedDiagnostic, reportedDiagnostics } from '../src/diagnostics/reported.js';
import { fitFormatter } from '../src/fit/format-fit.js';
import type { Settings } from '../src/fit/joint-fit.js';
import { sizesIn } from '../src/fit/next-plate.js';
import { otherJoints } from '../src/fit/other-joints.js';
import { type Advice, type NewSize, type RefitStep, refit } from '../src/fit/refit.js';
import { replaceValues } from '../src/fit/replace-values.js';
import { readJob } from '../src/input/read-job.js';
import type { Job } from '../src/input/types.js';
import type { SolvedJoint } from '../src/joints/family.js';
import { families } from '../src/joints/list.js';
import { tidied } from '../src/units/tidied.js';
import { type ExitCode, exit } from './exit.js';
import { readTextFile } from './input.js';
import { writeAll } from './output.js';
import { paint } from './terminal.js';

/** What `refit` says, writes and keeps. */

type Answer =
  | { readonly ok: true; readonly advice: Advice; readonly refused: boolean }
  | {
      readonly ok: false;
      readonly code: ExitCode;
      readonly problems: readonly string[];
      readonly findings: readonly ReportedDiagnostic[];
    };

/** The advice, or what is wrong with the measurements. */
export function adviseOn(
  solved: SolvedJoint,
  measured: readonly string[],
  job: Job,
  settings: Settings = {},
): Answer {
  const { plate, laser } = job.shop;
  const kerf = plate.cutFor === 'laser' ? (laser?.kerf ?? 0) : 0;
  const result = refit(solved, measured, job.units, { settings, kerf });
  if (result.ok) return { ok: true, advice: result.value, refused: hasErrors(result.value.diagnostics) };
  const misread = result.diagnostics.some(({ at }) => at.startsWith('--measured'));
  return {
    ok: false,
    code: misread ? exit.misuse : exit.refused,
    problems: result.diagnostics.map((one) => `${one.at}: ${sentence(one, formatterFor(job.units))}`),
    findings: reportedDiagnostics(result.diagnostics, formatterFor(job.units)),
  };
}

export function describeAdvice(advice: Advice, job: Job): string {
  const lines = reportedDiagnostics(allSaid(advice, job), fitFormatter(job.units)).map(({ level, text }) =>
    level === 'ok'
      ? `  ${text}`
      : `  ${paint('yellow', level === 'caution' ? 'caution' : 'refused')}: ${text}`,
  );
  const none = lines.length === 0 ? ['  nothing was measured that says anything of the fit'] : [];
  const deeper = advice.steps.some((step) => step.do === 'depth' || step.do === 'board-depth');
  const after =
    advice.steps.length > 0
      ? [
          ...(deeper
            ? [
                '  To change a depth: stand the router on the blocks of the set-up sheet and add feelers until the',
                '  tip just touches the bench; then take so much more for deeper, so much less for shallower.',
              ]
            : []),
          '  Unplug the router before you touch bit or bushing. Make another trial piece in scrap after each change.',
        ]
      : [];
  return `${[paint('bold', advice.joint), ...lines, ...none, ...after].join('\n')}\n`;
}

/** What is said, with the other joints of the job that new sizes would change. */
function allSaid(advice: Advice, job: Job): readonly Diagnostic[] {
  const others = otherJoints(job, advice.joint, sizesToWrite(advice));
  return [
    ...advice.diagnostics,
    ...others.map((data) => diagnostic('refit-others', 'caution', `joints.${advice.joint}`, data)),
  ];
}

/** Sizes of the steps, or else of the other way to set the fit. */
function sizesToWrite({ steps, either }: Advice): readonly NewSize[] {
  const own = sizesIn(steps);
  return own.length > 0 ? own : sizesIn(either[0] ?? []);
}

const stepData = (step: RefitStep) =>
  step.do === 'size'
    ? { do: 'size', ...step.size, path: ['shop', ...step.size.path].join('.') }
    : { ...step, by: tidied(step.by) };

export function adviceData(advice: Advice, job: Job, written: readonly string[]): object {
  const { joint, measured, looser, steps, either, settings, diagnostics } = advice;
  return {
    status: hasErrors(diagnostics) ? exit.refused : exit.done,
    joint,
    measured,
    looser: tidied(looser ?? null),
    steps: steps.map(stepData),
    either: either.map((other) => other.map(stepData)),
    settings: tidied(settings),
    findings: reportedDiagnostics(allSaid(advice, job), fitFormatter(job.units)),
    written,
  };
}

// The user's file

export interface Done {
  readonly ok: boolean;
  readonly lines: readonly string[];
}

/**
 * Puts the sizes where they stand now, in the job or in the shop file that it names, and changes no other
 * character. The new text is read as a job before it takes the old one's place.
 */
export async function writeSizes(path: string, advice: Advice): Promise<Done> {
  const sizes = sizesToWrite(advice);
  if (sizes.length === 0) return { ok: true, lines: ['Nothing to write: the advice is about settings.'] };
  const read = readTextFile(path);
  if (!read.ok) return { ok: false, lines: [`halfpin: ${path}: cannot read it: ${read.problem}`] };
  const { files } = readJob({ name: path, text: read.text }, families, openFile);
  const file = files[1] ?? path;
  const below = files[1] === undefined ? ['shop'] : [];
  const before = file === path ? read : readTextFile(file);
  if (!before.ok) return { ok: false, lines: [`halfpin: ${file}: cannot read it: ${before.problem}`] };
  const edits = sizes.map((size) => ({ path: [...below, ...size.path], to: `${tidied(size.to)} mm` }));
  const edited = replaceValues(before.text, edits);
  if (!edited.ok) {
    return {
      ok: false,
      lines: edited.problems.map(
        ({ path: keys, why, line }) =>
          `${file}${line === undefined ? '' : `:${line}`}: ${keys.join('.')}: ${
            why === 'shared'
              ? 'other places share this value by an anchor; change it by hand'
              : 'there is no such value; write it by hand'
          }`,
      ),
    };
  }
  const problem = misread(path, file, edited.text, sizes);
  if (problem !== undefined)
    return { ok: false, lines: [`halfpin: ${file}: ${problem}; nothing was written`] };
  const written = await writeAll(dirname(file), [{ path: basename(file), content: edited.text }], {
    force: true,
  });
  if (!written.ok) return { ok: false, lines: written.problems.map((one) => `halfpin: ${one}`) };
  return {
    ok: true,
    lines: sizes.map(
      ({ path: keys }, index) =>
        `Wrote ${file}:${edited.lines[index]}: ${keys.join('.')}: ${edits[index]?.to}`,
    ),
  };
}

function openFile(path: string): string | undefined {
  const text = readTextFile(path);
  return text.ok ? text.text : undefined;
}

/** Whether the changed text still reads as a job that has the new sizes. */
function misread(path: string, file: string, text: string, sizes: readonly NewSize[]): string | undefined {
  const fresh = (name: string) => (name === file ? text : openFile(name));
  const { result } = readJob({ name: path, text: fresh(path) ?? '' }, families, fresh);
  if (!result.ok) {
    const [first] = result.diagnostics;
    return first ? `with the new sizes it is no job: ${sentence(first, formatterFor('mm'))}` : 'it is no job';
  }
  const { bits, bushings } = result.value.shop;
  const wrong = sizes.find(({ path: [kind, name], to }) => {
    const read = kind === 'bits' ? bits[name]?.diameter : bushings[name]?.outside;
    return read === undefined || Math.abs(read - to) > 1e-9;
  });
  return wrong && `the new size of ${wrong.tool} does not read back`;
}
