import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import type { MadeFile } from '../../src/outputs/artifact.js';
import type { SolidOutcome } from '../../src/outputs/solid.js';
import type { TestCutOutcome } from '../../src/outputs/testcut.js';
import { tidied } from '../../src/units/tidied.js';
import { type ExitCode, exit, type Finish } from '../exit.js';
import { readTextFile } from '../input.js';
import { writeAll } from '../output.js';
import { dataOf, tellRemarks } from '../remarks.js';
import { describeSolids } from '../solid.js';
import { print, printJson, tell } from '../terminal.js';
import { describeTestCut } from '../testcut.js';

interface Options {
  readonly from?: string;
  readonly output?: string;
  readonly joint?: string;
  readonly levels?: number;
  readonly solid?: boolean;
  readonly force?: boolean;
  readonly json?: boolean;
}

export function addTestCut(program: Command, finish: Finish): void {
  program
    .command('testcut')
    .summary('cut and close a joint on paper, before wood is spoiled')
    .description(
      'Read the finger templates back from their files, move the bushing along them wherever it can go, cut both ' +
        'boards at several levels, close the joint and measure its gaps and overlaps.',
    )
    .argument('<job>', 'job file; - is standard input')
    .option(
      '--from <folder>',
      'the folder that the templates were written into; left out, they are made afresh',
    )
    .option(
      '-o, --output <folder>',
      'folder to write a picture of each joint into, and its solids if asked for',
    )
    .option('--force', 'replace files that exist')
    .option('--joint <name>', 'this joint only')
    .option(
      '--levels <number>',
      'levels at which the boards are compared, 2 to 200; nine when left out',
      levelsOf,
    )
    .option(
      '--solid',
      'build the boards as solids too: volumes, and with -o 3MF and GLB files, closed and apart',
    )
    .option('--json', 'data on standard output, messages on standard error')
    .addHelpText(
      'after',
      '\nExample:\n  $ halfpin testcut tray.yaml --from tray\n  $ halfpin testcut tray.yaml --solid -o tray\n\n' +
        'Status 1 when a joint does not close as asked. Wood moves and tools wear: a joint that closes on paper\n' +
        'still wants a trial in scrap.',
    )
    .action(async (job: string, options: Options) => finish(await testCut(job, options)));
}

function levelsOf(text: string): number {
  const levels = Number(text);
  if (!Number.isInteger(levels) || levels < 2 || levels > 200) {
    throw new InvalidArgumentError(`${JSON.stringify(text)} is no whole number from 2 to 200.`);
  }
  return levels;
}

async function testCut(path: string, options: Options): Promise<ExitCode> {
  const { solveFile } = await import('../job.js');
  const { planOf, testCuts, withCuts } = await import('../../src/outputs/plan.js');
  const { from, levels } = options;
  const cuts: TestCutOutcome[] = [];
  const solids: SolidOutcome[] = [];
  const solved = await solveFile(
    path,
    options.joint,
    () => undefined,
    async (job, outcomes) => {
      const planned = await planOf(job, outcomes, { only: [], as: [] });
      cuts.push(
        ...(await testCuts(planned, {
          ...(levels !== undefined && { levels }),
          ...(from !== undefined && { written: ({ joint }) => writtenIn(join(from, joint.name)) }),
        })),
      );
      if (options.solid) {
        const { solidJob } = await import('../../src/outputs/solid.js');
        solids.push(...(await solidJob(outcomes, cuts)));
      }
      return withCuts(planned, cuts);
    },
  );
  tellRemarks(solved);
  const { job } = solved;
  const refusedBefore = solved.outcomes
    .map(({ joint }) => joint.name)
    .filter((name) => !cuts.some(({ joint }) => joint === name));
  const untried = cuts.some(({ diagnostics }) => diagnostics.some(({ code }) => code === 'testcut-kind'));
  const code = solved.code === exit.done && untried ? exit.refused : solved.code;
  const notWritten = job ? await writeFiles(job, cuts, solids, options) : undefined;
  if (options.json) {
    const data = solids.map(dataOfSolid);
    printJson({
      ...dataOf(solved),
      testcuts: cuts.map(dataOfCut),
      ...(options.solid && { solids: data }),
      status: code,
    });
  } else if (job) {
    print(`${describeTestCut(job, cuts, refusedBefore)}\n`);
    if (options.solid) print(`${describeSolids(job, solids)}\n`);
  }
  return notWritten ?? code;
}

/** The finger templates of a folder, in every format that can be read back. */
function writtenIn(folder: string): readonly { readonly name: string; readonly text: string }[] {
  let names: readonly string[] = [];
  try {
    names = readdirSync(folder).sort();
  } catch {
    return []; // each template that is missing is named in its own diagnostic
  }
  const templates = names.filter((name) => /^finger-template.*\.(dxf|svg)$/.test(name));
  return templates.flatMap((name) => {
    const read = readTextFile(join(folder, name));
    if (!read.ok) tell(`halfpin: cannot read ${join(folder, name)}: ${read.problem}`);
    return read.ok ? [{ name, text: read.text }] : [];
  });
}

async function writeFiles(
  job: Parameters<typeof describeTestCut>[0],
  cuts: readonly TestCutOutcome[],
  solids: readonly SolidOutcome[],
  { output, force = false }: Options,
): Promise<ExitCode | undefined> {
  if (output === undefined) return undefined;
  const { testCutPictureOf } = await import('../../src/outputs/testcut.js');
  const files: MadeFile[] = [];
  for (const cut of cuts) {
    const content = await testCutPictureOf(job, cut);
    if (content !== undefined) files.push({ path: `${cut.joint}/testcut.svg`, content });
  }
  if (solids.length > 0) {
    const { solidFiles } = await import('../../src/outputs/solid.js');
    for (const solid of solids) files.push(...(await solidFiles(job, solid)));
  }
  const written = await writeAll(output, files, { force });
  if (written.ok) for (const path of written.paths) tell(`${kindOf(path)}: ${path}`);
  else for (const problem of written.problems) tell(`halfpin: ${problem}`);
  return written.ok ? undefined : written.code;
}

const kindOf = (path: string): string => (path.endsWith('.svg') ? 'Picture' : 'Solid');

function dataOfCut({ joint, cut }: TestCutOutcome): object {
  if (!cut) return { joint, tried: false };
  const { sections, boards, way, tightest, loosest, proud, underTails, ...numbers } = cut;
  const { unreached, strength, breakthrough, ...gaps } = numbers;
  const seat = { boards, flat: way === 'placed', tightest, loosest, proud, underTails };
  return { joint, tried: true, ...gaps, ...seat, unreached, strength, breakthrough };
}

/** mm³, to a thousandth. */
function dataOfSolid({ joint, solid: { volumes }, slices }: SolidOutcome): object {
  return { joint, ...tidied({ ...volumes, slices }, 1e3) };
}
