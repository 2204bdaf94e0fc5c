import type { Command } from 'commander';
import { addJobOptions } from '../choices.js';
import { exit, type Finish } from '../exit.js';
import { dataOf, tellRemarks } from '../remarks.js';
import { describeJoints } from '../summary.js';
import { print, printJson, tell } from '../terminal.js';
import { runOrFollow } from '../watch.js';

interface Options {
  readonly joint?: string;
  readonly json?: boolean;
  readonly watch?: boolean;
}

export function addCheck(program: Command, finish: Finish): void {
  addJobOptions(program.command('check'))
    .summary('solve and judge a job; writes nothing')
    .description(
      'Solve the layout of every joint, judge bits, bushings and template, and say what was found.',
    )
    .addHelpText('after', '\nExample:\n  $ halfpin check tray.yaml')
    .action(async (job: string, options: Options) => finish(await check(job, options)));
}

async function check(path: string, { joint, json, watch = false }: Options) {
  const { solveFile } = await import('../job.js');
  return runOrFollow(watch, path, async (reads) => {
    const solved = await solveFile(path, joint, reads);
    tellRemarks(solved);
    if (json) printJson(dataOf(solved), watch);
    else if (solved.job) print(`${describeJoints(solved.outcomes, solved.job)}\n`);
    if (!json && solved.code === exit.refused)
      tell('Not everything can be made as asked; the reasons stand above.');
    return solved.code;
  });
}
