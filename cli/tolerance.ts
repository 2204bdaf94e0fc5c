import { basename, dirname } from 'node:path';
import { sentence } from '../src/diagnostics/catalogue.js';
import type { Diagnostic } from '../src/diagnostics/diagnostic.js';
import { formatterFor } from '../src/diagnostics/formatter.js';
import { reportedDiagnostics } from '../src/diagnostics/reported.js';
import { toleranceDrawing } from '../src/fit/histogram.js';
import { readTolerances } from '../src/fit/read-tolerances.js';
import { type ToleranceStudy, toleranceStudy } from '../src/fit/tolerance.js';
import type { Job } from '../src/input/types.js';
import type { JointOutcome } from '../src/outputs/joint.js';
import type { LengthUnit } from '../src/units/length.js';
import { tidied } from '../src/units/tidied.js';
import { pictureWriter } from '../src/writers/picture.js';
import { type ExitCode, exit } from './exit.js';
import { writeAll } from './output.js';
import { bothUnits, columns } from './summary.js';
import { paint } from './terminal.js';

/** What `check --tolerance` says of how the play spreads, to people and to programs, and its picture. */

export interface Tolerated {
  readonly code: ExitCode;
  readonly studies: readonly ToleranceStudy[];
  /** What is refused, or wants care. */
  readonly problems: readonly string[];
  readonly findings: readonly Diagnostic[];
}

/** Studies every joint that can be made; words that cannot be read stop all of it. */
export function studyAll(outcomes: readonly JointOutcome[], words: readonly string[], job: Job): Tolerated {
  const asked = readTolerances(words, job.units);
  if (!asked.ok) return told(exit.misuse, [], asked.diagnostics, job);
  const results = outcomes.flatMap(({ made }) =>
    made ? [toleranceStudy(made.solved, asked.value, asked.value)] : [],
  );
  const studies = results.flatMap((result) => (result.ok ? [result.value] : []));
  const diagnostics = results.flatMap((result) =>
    result.ok ? result.value.diagnostics : result.diagnostics,
  );
  return told(studies.length === outcomes.length ? exit.done : exit.refused, studies, diagnostics, job);
}

function told(
  code: ExitCode,
  studies: readonly ToleranceStudy[],
  diagnostics: readonly Diagnostic[],
  { units }: Job,
): Tolerated {
  const problems = diagnostics
    .filter(({ level }) => level !== 'ok')
    .map(
      (one) =>
        `${one.at}: ${one.level === 'caution' ? 'caution: ' : ''}${sentence(one, formatterFor(units))}`,
    );
  return { code, studies, problems, findings: diagnostics };
}

export function describeStudy(study: ToleranceStudy, { units }: Job): string {
  const { sampled, linear, play } = study;
  const errors = study.errors.map(({ source, halfWidth, from, partial, share }) => [
    source,
    `± ${source === 'angle' ? `${trim(degrees(halfWidth), 3)}°` : size(halfWidth, units)}`,
    from === 'given' ? 'given' : 'ISO 2768-1',
    source === 'angle' ? `${trim(partial / degrees(1), 3)} mm/°` : trim(partial, 3),
    percent(share),
  ]);
  const spreads = [
    ['', 'too tight', 'good', 'too loose', 'no entry', 'standard deviation'],
    ...([`run of ${play.length}`, 'linear theory'] as const).map((name, index) => {
      const { tight, good, loose, uncut, deviation } = index === 0 ? sampled : linear;
      return [name, percent(tight), percent(good), percent(loose), percent(uncut), size(deviation, units)];
    }),
  ];
  const notes = study.diagnostics
    .filter(({ level }) => level === 'ok')
    .map((one) => `  note: ${sentence(one, formatterFor(units))}`);
  return [
    `${paint('bold', study.joint)}  play of a pair, ${size(study.slack, units)} wanted`,
    ...columns([['error', '', 'from', 'play for 1 of it', 'share of the spread'], ...errors]),
    ...columns(spreads),
    ...notes,
  ].join('\n');
}

/** Studies for programs, mm, degrees for the angle. */
export function toleranceData({ studies, findings: diagnostics }: Tolerated, { units }: Job): object {
  return {
    tolerance: studies.map(({ joint, slack, limits, errors, linear, sampled, play }) => ({
      joint,
      slack: tidied(slack),
      limits,
      errors: tidied(
        errors.map(({ source, halfWidth, from, partial, share }) => ({
          source,
          plusMinus: source === 'angle' ? degrees(halfWidth) : halfWidth,
          from,
          partial: source === 'angle' ? partial / degrees(1) : partial,
          share,
        })),
      ),
      linear: tidied(linear),
      sampled: { points: play.length, ...tidied(sampled) },
      sample: tidied(play),
    })),
    toleranceFindings: reportedDiagnostics(diagnostics, formatterFor(units)),
  };
}

// The picture

export function histogramOf(study: ToleranceStudy, { title, units, shop }: Job): string {
  const drawing = toleranceDrawing(study, `${title}: ${study.joint}`, formatterFor(units));
  return pictureWriter.write(drawing, { colours: shop.colours });
}

/** What went wrong, one line each; nothing when the file stands. */
export async function writeHistogram(
  file: string,
  content: string,
  options: { readonly force: boolean; readonly ours: Set<string> },
): Promise<readonly string[]> {
  const written = await writeAll(dirname(file), [{ path: basename(file), content }], options);
  if (!written.ok) return written.problems;
  for (const path of written.paths) options.ours.add(path);
  return [];
}

// Numbers

function size(mm: number, units: LengthUnit): string {
  return bothUnits(mm, units).join(' = ');
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}

function trim(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)) + 0);
}
