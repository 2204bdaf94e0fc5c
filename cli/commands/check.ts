import type { Command } from 'commander';
import { addJobOptions } from '../choices.js';
import { type ExitCode, exit, type Finish } from '../exit.js';
import type { FixedFile } from '../fix.js';
import type { SolvedFile } from '../job.js';
import { dataOf, tellRemarks } from '../remarks.js';
import { describeJoints } from '../summary.js';
import { print, printJson, tell } from '../terminal.js';
import { runOrFollow } from '../watch.js';

interface Options {
  readonly joint?: string;
  /** true where no tolerance is given with it. */
  readonly tolerance?: readonly string[] | true;
  readonly histogram?: string;
  readonly force?: boolean;
  readonly fix?: boolean;
  readonly json?: boolean;
  readonly watch?: boolean;
}

export function addCheck(program: Command, finish: Finish): void {
  addJobOptions(program.command('check'))
    .summary('solve and judge a job; writes nothing but what --fix changes')
    .description(
      'Solve the layout of every joint, judge bits, bushings and template, make a simulated test cut, and say what was\n' +
        'found. What check passes, make makes.',
    )
    .option('--fix', 'make the fixes offered in the job file; remarks and layout of its text stay')
    .option('--tolerance [key=value...]', 'how the play of a pair spreads when sizes are off; see below')
    .option('--histogram <file>', 'picture of that spread for one joint, as SVG; - is standard output')
    .option('--force', 'replace the picture if it exists')
    .addHelpText('after', help)
    .action(async (job: string, options: Options) => finish(await check(job, options)));
}

const help = `
Tolerances, each ± (lengths as in a job file, the angle in degrees):
  bit, bushing, thickness, depth   ISO 2768-1 stands in where left out: class f for tools, m for the others
  kerf, angle                      count as exact where left out; kerf is of an opening, both walls together
  tight, loose                     play under the one is too tight, over the other too loose

Example:
  $ halfpin check tray.yaml
  $ halfpin check tray.yaml --fix
  $ halfpin check tray.yaml --tolerance bit=0.02mm bushing=0.02mm kerf=0.05mm angle=0.1`;

async function check(path: string, options: Options): Promise<ExitCode> {
  const { joint, json, watch = false } = options;
  const misuse = misuseOf(path, options);
  if (misuse !== undefined) {
    tell(`halfpin: ${misuse}`);
    return exit.misuse;
  }
  const { asMakePlans, solveFile } = await import('../job.js');
  const ours = new Set<string>();
  const fixed = options.fix ? await fix(path, joint) : undefined;
  if (fixed && !fixed.ok) {
    for (const problem of fixed.problems) tell(`halfpin: ${problem}`);
    return fixed.code;
  }
  return runOrFollow(watch, path, async (reads) => {
    const { describeFixes } = await import('../fix.js');
    // The plan of make, so that the two never disagree.
    const solved = await solveFile(path, joint, reads, asMakePlans);
    tellRemarks(solved);
    const wordy = !json && options.histogram !== '-';
    const made = fixed?.made.map(({ fix, ...one }) => ({ ...one, ...fix }));
    if (wordy && fixed) print(`${describeFixes(path, fixed.made, solved)}\n`);
    if (wordy && solved.job) print(`${describeJoints(solved.outcomes, solved.job)}\n`);
    if (!json && solved.code === exit.refused)
      tell('Not everything can be made as asked; the reasons stand above.');
    if (options.tolerance !== undefined && solved.job) return tolerate(solved, options, ours);
    if (json) printJson({ ...dataOf(solved), ...(made && { fixed: made }) }, watch);
    return solved.code;
  });
}

async function fix(path: string, joint: string | undefined): Promise<FixedFile> {
  const { fixFile } = await import('../fix.js');
  return fixFile(path, joint);
}

function misuseOf(
  path: string,
  { tolerance, histogram, json, force, fix, watch }: Options,
): string | undefined {
  if (fix && path === '-') return '--fix changes a file; give its name, not standard input';
  if (fix && watch) return '--fix and --watch: fix the job once, then watch it';
  if (histogram !== undefined && tolerance === undefined)
    return '--histogram shows what --tolerance works out';
  if (histogram === '-' && json) return '--json and --histogram - both want standard output; give a file';
  return force && histogram === undefined ? '--force is for the file of --histogram' : undefined;
}

/** Says how the play spreads, beside what was said of the job. */
async function tolerate(solved: SolvedFile, options: Options, ours: Set<string>): Promise<ExitCode> {
  const { job, outcomes } = solved;
  if (!job) return solved.code;
  const { studyAll, describeStudy, toleranceData, histogramOf, writeHistogram } = await import(
    '../tolerance.js'
  );
  const { tolerance = true, histogram, json, watch } = options;
  const found = studyAll(outcomes, tolerance === true ? [] : tolerance, job);
  for (const line of found.problems) tell(line);
  const [study, ...others] = found.studies;
  const problems: string[] = [];
  if (histogram !== undefined && others.length > 0) {
    const names = found.studies.map((one) => one.joint).join(', ');
    problems.push(`a histogram shows one joint; say which with --joint: ${names}`);
  } else if (histogram === '-' && study) {
    print(histogramOf(study, job));
  } else if (histogram !== undefined && study) {
    const force = options.force ?? false;
    problems.push(...(await writeHistogram(histogram, histogramOf(study, job), { force, ours })));
  }
  const unwritten = problems.length === 0 ? exit.done : others.length > 0 ? exit.misuse : exit.refused;
  const code = firstProblem(found.code, solved.code, unwritten);
  if (json) printJson({ ...dataOf(solved), ...toleranceData(found, job), status: code }, watch);
  else if (histogram !== '-') print(found.studies.map((one) => `\n${describeStudy(one, job)}\n`).join(''));
  for (const problem of problems) tell(`halfpin: ${problem}`);
  return code;
}

/** Wrong use is said before a refusal. */
function firstProblem(...codes: readonly ExitCode[]): ExitCode {
  return codes.includes(exit.misuse) ? exit.misuse : (codes.find((code) => code !== exit.done) ?? exit.done);
}
