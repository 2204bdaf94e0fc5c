import { Command, CommanderError } from 'commander';
import { version } from '../package.json';
import { addBoard } from './commands/board.js';
import { addCheck } from './commands/check.js';
import { addKit } from './commands/kit.js';
import { addMake } from './commands/make.js';
import { addNew } from './commands/new.js';
import { addPrinter } from './commands/printer.js';
import { addRefit } from './commands/refit.js';
import { addSchema } from './commands/schema.js';
import { addTestCut } from './commands/testcut.js';
import { type ExitCode, exit, type Finish } from './exit.js';
import { plainWords } from './plain-words.js';
import { shown, tell, watchStandardStreams } from './terminal.js';

/** Runs one command line; gives its exit status. */
export async function main(args: readonly string[]): Promise<ExitCode> {
  watchStandardStreams();
  let status: ExitCode = exit.done;
  const program = halfpin(args, (code) => {
    status = code;
  });
  process.on('uncaughtException', (error) => process.exit(reportFault(error, args)));
  try {
    await program.parseAsync(args, { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exit.done : exit.misuse;
    return reportFault(error, args);
  }
}

function halfpin(args: readonly string[], finish: Finish): Command {
  const program = new Command('halfpin')
    .description(
      'Router templates and full-size patterns for dovetail and box joints.\n' +
        'Lengths in job files may be mixed: 19 mm, 3/4 in, 1-3/8".',
    )
    .version(version, '--version', 'print the version')
    .helpOption('--help', 'print this help')
    .helpCommand(false)
    .showHelpAfterError('(halfpin --help, or halfpin COMMAND --help, says what can be asked)')
    .addHelpText(
      'after',
      [
        '',
        'Example, from nothing to a template:',
        '  $ halfpin new through-dovetail -o tray.yaml',
        '  $ halfpin make tray.yaml -o tray',
        '',
        'Exit status: 0 done; 1 the job cannot be made as asked; 2 wrong use or unreadable input.',
      ].join('\n'),
    )
    .exitOverride()
    .configureOutput({ outputError: (text, write) => write(shown(plainWords(text, args))) });
  // Commands take over these settings when they are added.
  addNew(program, finish);
  addCheck(program, finish);
  addMake(program, finish);
  addTestCut(program, finish);
  addKit(program, finish);
  addPrinter(program, finish);
  addRefit(program, finish);
  addSchema(program, finish);
  addBoard(program, finish);
  for (const command of program.commands.flatMap((one) => [one, ...one.commands])) {
    command.option('--trace', 'show where a fault in halfpin itself arose');
  }
  return program;
}

function reportFault(error: unknown, args: readonly string[]): ExitCode {
  const said = error instanceof Error ? error.message : String(error);
  tell(
    `halfpin: a fault in halfpin itself, not in your job: ${said.split('\n')[0]}. Please report it with the job file` +
      (args.includes('--trace') ? ':' : '; --trace adds where it arose.'),
  );
  if (args.includes('--trace') && error instanceof Error) tell(error.stack ?? said);
  return exit.fault;
}
