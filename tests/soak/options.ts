import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';

/** What a soak is asked to do. */
export interface Options {
  /** The project's folder. */
  readonly root: string;
  /** The built command. */
  readonly command: string;
  /** Where failures are kept. */
  readonly found: string;
  /** Random jobs of each kind. */
  readonly jobs: number;
  /** The one kind to try; all when left out. */
  readonly kind?: string;
  /** Every usual file is made of one random joint in so many; all of them are cut from their written templates. */
  readonly every: number;
  /** Mutated job files, and as many mutated SVG paths. */
  readonly mutants: number;
  /** Makes in one process. */
  readonly makes: number;
  /** Makes that are killed. */
  readonly kills: number;
  readonly seed: number;
  readonly processes: number;
}

export const help = `npm run soak -- [options]

  --jobs N       random jobs of each kind, cut and closed on paper; 10000 when left out
  --every N      all files are made of one random joint in N, the templates of each; 10 when left out
  --kind KIND    one kind of joint only
  --mutants N    mutated job files, and as many SVG paths; 10000 when left out
  --makes N      makes in one process, whose memory has to stay flat; 1000 when left out
  --kills N      makes killed at a random moment; 50 when left out
  --seed S       the same S gives the same jobs, mutants and moments; new each time when left out
  --processes P  at one time; one for each core when left out
  --found FOLDER where failures are kept; tests/soak/found when left out

0 leaves a part out. Failures are kept as small as they can be made; the everyday tests run them from then on.`;

/** The options of a command line, or what is wrong with it. */
export function readOptions(args: readonly string[]): Options | string {
  try {
    const { values } = parseArgs({ args: [...args], options: known });
    if (values.help) return help;
    const root = values.root ?? '.';
    return {
      root,
      command: values.command ?? `${root}/dist/halfpin.js`,
      found: values.found ?? `${root}/tests/soak/found`,
      jobs: count('jobs', values.jobs, 10_000),
      ...(values.kind !== undefined && { kind: values.kind }),
      every: Math.max(1, count('every', values.every, 10)),
      mutants: count('mutants', values.mutants, 10_000),
      makes: count('makes', values.makes, 1000),
      kills: count('kills', values.kills, 50),
      seed: count('seed', values.seed, Date.now() % 2 ** 31),
      processes: Math.max(1, count('processes', values.processes, availableParallelism())),
    };
  } catch (error) {
    return `${error instanceof Error ? error.message : error}\n\n${help}`;
  }
}

const text = { type: 'string' } as const;
const known = {
  root: text,
  command: text,
  found: text,
  jobs: text,
  kind: text,
  every: text,
  mutants: text,
  makes: text,
  kills: text,
  seed: text,
  processes: text,
  help: { type: 'boolean' },
} as const;

function count(name: string, asked: string | undefined, usual: number): number {
  if (asked === undefined) return usual;
  if (!/^\d{1,10}$/.test(asked)) throw new Error(`--${name} ${asked}: a whole number is wanted`);
  return Number(asked);
}
