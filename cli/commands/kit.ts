import type { Command } from 'commander';
import type { Kit } from '../../src/joints/kit/kit.js';
import { exit, type Finish } from '../exit.js';
import { tellRemarks } from '../remarks.js';
import { print, printJson, tell } from '../terminal.js';

interface Options {
  readonly joint?: string;
  readonly common?: boolean;
  readonly all?: boolean;
  readonly json?: boolean;
}

export function addKit(program: Command, finish: Finish): void {
  program
    .command('kit')
    .summary('which of your bits and bushings can cut a joint')
    .description(
      'Try every bit and every bushing of the shop on the joints of a job, as they are laid out. Those that do\n' +
        'come best first: fewest cautions, strongest template fingers, fewest passes. The others come with the reason.',
    )
    .argument('<job>', 'job file; - is standard input')
    .option('--joint <name>', 'this joint only')
    .option('--common', 'try sizes that are commonly sold, too')
    .option('--all', 'list every set of tools, not just the first ones')
    .option('--json', 'data on standard output, messages on standard error')
    .addHelpText('after', '\nExample:\n  $ halfpin kit tray.yaml --common')
    .action(async (job: string, options: Options) => finish(await kit(job, options)));
}

async function kit(path: string, { joint, common = false, all = false, json = false }: Options) {
  const { solveFile } = await import('../job.js');
  // Whether the job can be made with the tools that it names is one line of the answer, not a reason to stop.
  const file = await solveFile(path, joint, () => undefined);
  if (!file.job) {
    tellRemarks(file);
    if (json)
      printJson({ status: file.code, joints: [], findings: file.remarks.map(({ full, ...one }) => one) });
    return file.code;
  }
  const { kitsOf } = await import('../../src/joints/kit/kit.js');
  const kits = kitsOf(file.job, joint, { common });
  const { describeKit, kitData, kitText: sayKit } = await import('../kit.js');
  for (const each of kits) for (const line of sayKit(each, file.job)) tell(line);
  const code = kits.every(hasChoice) ? exit.done : exit.refused;
  const { job } = file;
  if (json) printJson({ status: code, joints: kits.map((each) => kitData(each, job)) });
  else print(`${kits.map((each) => describeKit(each, job, all)).join('\n\n')}\n`);
  return code;
}

function hasChoice({ choices }: Kit): boolean {
  return choices.length > 0;
}
