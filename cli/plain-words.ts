import { didYouMean } from '../src/diagnostics/did-you-mean.js';

/**
 * What the argument parser says of a command line, in the words of the rest of the program. `args` is what was
 * typed: a mistyped option that leaves another one missing is named instead.
 */
export function plainWords(text: string, args: readonly string[]): string {
  return text.replace(/^error: ([^\n]*)/, (_, said: string) => `halfpin: ${reworded(said, args)}`);
}

function reworded(said: string, args: readonly string[]): string {
  const missing = /^required option '(.*)' not specified$/.exec(said)?.[1];
  if (missing !== undefined) return missingOption(missing, args);
  const argument = /^missing required argument '(.*)'$/.exec(said)?.[1];
  if (argument !== undefined) return `the ${argument} is missing; ${argumentWords[argument] ?? 'name one'}`;
  const [, command, wanted, given] =
    /^too many arguments for '(.*)'\. Expected (\d+) arguments? but got (\d+)\.$/.exec(said) ?? [];
  if (command === 'printer') return 'printer page, or printer set?';
  if (command !== undefined) {
    return wanted === '0'
      ? `${command} takes nothing but options, and ${args.at(-1)} is none`
      : `${command} takes ${wanted} name and ${given} are given; several formats stand with commas and no spaces between, a name with spaces stands in quotes`;
  }
  const [, option, value, why] =
    /^option '.*?(--[\w-]+).*?' argument '(.*?)' is invalid\. (.*)$/.exec(said) ?? [];
  if (why !== undefined) {
    return `${option} ${value}: ${why.replace(/^Allowed choices are/, 'known are').replace(/\.$/, '')}`;
  }
  const empty = /^option '(.*)' argument missing$/.exec(said)?.[1];
  if (empty !== undefined) return `nothing stands behind ${empty.replace(/ <.*/, '')}; write ${empty}`;
  const file = /^unknown command '(.*\.(?:ya?ml|json))'$/.exec(said)?.[1];
  return file === undefined ? said : `${file} is no command; halfpin make ${file} -o FOLDER makes its files`;
}

const argumentWords: Readonly<Record<string, string>> = {
  job: 'write the name of a job file behind the command, such as tray.yaml (halfpin new writes one)',
  kind: 'write the kind of joint behind new: through-dovetail, half-blind-dovetail, box or edge',
  shop: 'write the name of a shop file, or of a job that holds its shop, such as shop.yaml',
};

function missingOption(flags: string, args: readonly string[]): string {
  const name = /--[\w-]+/.exec(flags)?.[0] ?? flags;
  const mistyped = args.find((word) => word.startsWith('--') && word !== name && didYouMean(word, [name]));
  if (mistyped !== undefined) return `unknown option '${mistyped}'; did you mean ${name}?`;
  return `${name} is missing; add ${examples[flags] ?? flags}`;
}

const examples: Readonly<Record<string, string>> = {
  '-o, --output <folder>': 'the folder to write into, such as -o tray',
  '-o, --output <file>': 'the file to write, such as -o check.pdf',
  '--measured <key=value...>': 'what was measured, such as --measured gap=0.2mm',
};
