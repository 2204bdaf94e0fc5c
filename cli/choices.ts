import { type Command, InvalidArgumentError } from 'commander';
/** Reads `svg,dxf` for an option that takes some of a list; what is named twice counts once. */
export function someOf<T extends string>(choices: readonly T[]): (text: string) => readonly T[] {
  return (text) => {
    const asked = text.split(',').map((word) => word.trim());
    const found = asked.map((word) => oneOf(choices)(word));
    return [...new Set(found)];
  };
}

/** Reads one word of a list, in capitals or not. */
export function oneOf<T extends string>(choices: readonly T[]): (text: string) => T {
  return (text) => {
    const found = choices.find((choice) => choice === text.trim().toLowerCase());
    if (found !== undefined) return found;
    throw new InvalidArgumentError(`${JSON.stringify(text)} is none of ${choices.join(', ')}.`);
  };
}

/** The options that every command that reads a job has. */
export function addJobOptions(command: Command): Command {
  return command
    .argument('<job>', 'job file; - is standard input')
    .option('--joint <name>', 'this joint only')
    .option('--watch', 'run again whenever the job, or a file that it includes, changes')
    .option('--json', 'data on standard output, messages on standard error');
}
