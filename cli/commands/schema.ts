import { basename, dirname } from 'node:path';
import type { Command } from 'commander';
import { exit, type Finish } from '../exit.js';
import { writeAll } from '../output.js';
import { print, shown, tell } from '../terminal.js';

interface Options {
  readonly output: string;
  readonly force?: boolean;
}

export function addSchema(program: Command, finish: Finish): void {
  program
    .command('schema')
    .summary('JSON Schema of the job file, for editors')
    .description(
      'The JSON Schema of the job file, so that an editor completes keys and marks mistakes as you type.',
    )
    .option('-o, --output <file>', 'file to write; - is standard output', '-')
    .option('--force', 'replace the file if it exists')
    .option('--json', 'the schema is JSON with or without this')
    .addHelpText(
      'after',
      '\nExample:\n  $ halfpin schema -o job-schema.json\n' +
        '  and as the first line of a job:  # yaml-language-server: $schema=job-schema.json',
    )
    .action(async (options: Options) => finish(await writeSchema(options)));
}

async function writeSchema({ output, force = false }: Options) {
  const { jobJsonSchema } = await import('../../src/input/fields/json-schema.js');
  const { families } = await import('../../src/joints/list.js');
  const text = `${JSON.stringify(jobJsonSchema(families), null, 2)}\n`;
  if (output === '-') {
    print(text);
    return exit.done;
  }
  const written = await writeAll(dirname(output), [{ path: basename(output), content: text }], { force });
  if (written.ok) {
    print(shown(`Wrote ${output}.\n`));
    return exit.done;
  }
  for (const problem of written.problems) tell(`halfpin: ${problem}`);
  return written.code;
}
