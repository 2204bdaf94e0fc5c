import { type Command, InvalidArgumentError } from 'commander';
import type { Product } from '../src/pipeline.js';
import type { Format } from '../src/writers/list.js';

/**
 * What `make` can be asked for, for the help text. The lists that hold are the pipeline's; they are not read
 * from there because help should not load every joint. A test keeps the two alike.
 */
export const products: readonly Product[] = ['finger', 'marker', 'pattern', 'sheet', 'nest'];
export const formats: readonly Format[] = ['svg', 'dxf', 'pdf', 'gcode', '3mf', 'stl'];
export const usualFormats: readonly Format[] = ['svg', 'dxf', 'pdf'];

/** Reads `svg,dxf` for an option that takes some of a list. */
export function someOf<T extends string>(choices: readonly T[]): (text: string) => readonly T[] {
  return (text) => {
    const asked = text.split(',').map((word) => word.trim());
    return asked.map((word) => {
      const found = choices.find((choice) => choice === word.toLowerCase());
      if (found === undefined) {
        throw new InvalidArgumentError(`${JSON.stringify(word)} is none of ${choices.join(', ')}.`);
      }
      return found;
    });
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
