import type { Command } from 'commander';
import { InvalidArgumentError } from 'commander';
import { type ExitCode, exit, type Finish } from '../exit.js';
import { tellRemarks } from '../remarks.js';
import { print, printJson, tell } from '../terminal.js';

interface Options {
  readonly joint?: string;
  readonly measured: readonly string[];
  readonly write?: boolean;
  readonly log?: boolean;
  readonly date?: string;
  readonly json?: boolean;
}

export function addRefit(program: Command, finish: Finish): void {
  program
    .command('refit')
    .summary('after a real test cut: what to change, by how much')
    .description(
      'Say what was measured on a trial piece; hear what to move, by how much and how far it can go, and where ' +
        'moving does not help, which sizes to put in the shop file before a new plate is cut.',
    )
    .argument('<job>', 'job file; - is standard input')
    .option('--joint <name>', 'the joint of the trial piece; may be left out where the job has one')
    .requiredOption('--measured <key=value...>', 'what was measured, e.g. gap=0.2mm; see below')
    .option('--write', 'put measured sizes into the shop file, or the job where the shop stands in it')
    .option('--log', 'add what was measured and advised to a log beside the job')
    .option('--date <date>', 'date for the log, as year-month-day', dateOf)
    .option('--json', 'data on standard output, messages on standard error')
    .addHelpText('after', measures)
    .action(async (job: string, options: Options) => finish(await refit(job, options)));
}

const measures = `
What can be measured (lengths as in a job file):
  gap, overlap            play of a pair pushed to one side, by feeler; or how much too wide a part is
  end-gap, end-overlap    the same at a half-pin of a through dovetail
  socket, tail, pin       widths by caliper at the board's end; tail-2 is the second from the reference edge
  slot, finger            widths on board one of a box joint
  proud-BOARD, shy-BOARD  how far ends stand out of the face, or back: tails, pins, one, two; side (half-blind)
  mismatch-1              how far the tail board (or board one) stands past the other at the reference edge of
                          corner 1, as the set-up sheet numbers corners; mismatch alone of boards edge to edge
  bit, bushing            diameters by caliper; bit-tails and bit-pins, or bit-one and bit-two, where there are two
  depth, thickness, angle how deep the tails (or sockets) are cut, how thick the pin board is, the bit's angle in degrees
  opening, kerf, scale    an opening of the plate by caliper; the cut of the machine that made it; a length on the
                          plate over what it should be, such as 149.7/150

Example:
  $ halfpin refit tray.yaml --measured gap=0.2mm proud-tails=0.1mm

With --log the depth and the fence as advised are read back the next time.`;

function dateOf(text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return text;
  throw new InvalidArgumentError('A date is written year-month-day, such as 2024-05-31.');
}

async function refit(path: string, options: Options): Promise<ExitCode> {
  if (path === '-' && (options.write || options.log)) {
    tell('halfpin: --write and --log need a job file; standard input has no folder');
    return exit.misuse;
  }
  const { solveFile } = await import('../job.js');
  const file = await solveFile(path, options.joint, () => undefined);
  const [outcome, ...others] = file.outcomes;
  if (!file.job || file.code === exit.misuse) return stop(file.code, options);
  if (!outcome || others.length > 0) {
    tell(`halfpin: say which joint with --joint: ${file.outcomes.map(({ joint }) => joint.name).join(', ')}`);
    return exit.misuse;
  }
  if (!outcome.made) return stop(file.code, options);
  const { adviseOn, describeAdvice, writeSizes, adviceData } = await import('../refit.js');
  const { keepLog, settingsFromLog } = await import('../refit-log.js');
  const { job } = file;
  const { solved } = outcome.made;
  const settings = path === '-' ? {} : settingsFromLog(path, solved);
  const said = adviseOn(solved, options.measured, job, settings);
  if (!said.ok) {
    for (const line of said.problems) tell(line);
    if (options.json) printJson({ status: said.code, findings: said.findings });
    return said.code;
  }
  const { advice } = said;
  // Before anything is written, so that other joints are named first.
  if (!options.json) print(describeAdvice(advice, job));
  const written = options.write ? await writeSizes(path, advice) : { ok: true, lines: [] };
  const { date } = options;
  const about = { job, solved, ...(date !== undefined && { date }), written: options.write ?? false };
  const logged = options.log && written.ok ? await keepLog(path, advice, about) : undefined;
  if (options.json) printJson(adviceData(advice, job, written.ok ? written.lines : []));
  for (const line of [...written.lines, ...(logged?.lines ?? [])]) tell(line);
  const well = written.ok && (logged?.ok ?? true) && !said.refused;
  return well ? exit.done : exit.refused;

  function stop(code: ExitCode, { json }: Options): ExitCode {
    tellRemarks(file);
    if (json) printJson({ status: code, findings: file.remarks.map(({ full, ...one }) => one) });
    return code;
  }
}
