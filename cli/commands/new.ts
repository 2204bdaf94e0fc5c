import { basename, dirname } from 'node:path';
import type { Command } from 'commander';
import { exit, type Finish } from '../exit.js';
import { writeAll } from '../output.js';
import { print, printJson, shown, tell } from '../terminal.js';

interface Options {
  readonly output: string;
  readonly force?: boolean;
  readonly json?: boolean;
}

export function addNew(program: Command, finish: Finish): void {
  program
    .command('new')
    .summary('write a commented starter job')
    .description('Write a commented starter job of one kind of joint, which make takes as it is.')
    .argument('<kind>', 'kind of joint; a wrong one is answered with the list')
    .option('-o, --output <file>', 'file to write; - is standard output', '-')
    .option('--force', 'replace the file if it exists')
    .option('--json', 'data on standard output: {"kind", "file", "job"}')
    .addHelpText('after', '\nExample:\n  $ halfpin new box -o slide-box.yaml')
    .action(async (kind: string, options: Options) => finish(await makeNew(kind, options)));
}

async function makeNew(kind: string, { output, force = false, json }: Options) {
  const { families } = await import('../../src/joints/list.js');
  const job = families.find((family) => family.kind === kind)?.starter;
  if (job === undefined) {
    const { didYouMean } = await import('../../src/diagnostics/did-you-mean.js');
    const near = didYouMean(
      kind,
      families.map((family) => family.kind),
    );
    tell(`halfpin: ${JSON.stringify(kind)} is no kind of joint${near ? `; did you mean ${near}?` : ''}`);
    for (const family of families) tell(`  ${family.kind.padEnd(20)} ${family.summary}`);
    return exit.misuse;
  }
  if (output !== '-') {
    const file = { path: basename(output), content: job };
    const written = await writeAll(dirname(output), [file], { force });
    if (!written.ok) {
      for (const problem of written.problems) tell(`halfpin: ${problem}`);
      return written.code;
    }
  }
  if (json) printJson({ kind, file: output === '-' ? null : output, job });
  else if (output === '-') print(job);
  else
    print(
      shown(
        `Wrote ${output}. Put your own boards, bits and bushings in it, then:\n  halfpin check ${output}\n`,
      ),
    );
  return exit.done;
}
