import { join } from 'node:path';
import type { Command } from 'commander';
import { unmadeWords } from '../../src/diagnostics/wording/asked.js';
import {
  type Asked,
  defaultFormats,
  formats,
  neverMade,
  type Product,
  products,
} from '../../src/outputs/ask.js';
import type { Format } from '../../src/writers/list.js';
import { addJobOptions, someOf } from '../choices.js';
import { type ExitCode, exit, type Finish } from '../exit.js';
import type { SolvedFile } from '../job.js';
import { writeAll } from '../output.js';
import { progressOf } from '../progress.js';
import { dataOf, tellRemarks } from '../remarks.js';
import { describeFiles, describeJoints, describeNotes } from '../summary.js';
import { tarOf } from '../tar.js';
import { print, printJson, tell } from '../terminal.js';
import { runOrFollow } from '../watch.js';

interface Options {
  readonly output: string;
  readonly only?: readonly Product[];
  readonly as?: readonly Format[];
  readonly joint?: string;
  readonly force?: boolean;
  readonly open?: boolean;
  readonly json?: boolean;
  readonly watch?: boolean;
}

export function addMake(program: Command, finish: Finish): void {
  addJobOptions(program.command('make'))
    .summary('write templates, patterns, set-up sheets and reports')
    .description(
      'Write every file of a job: finger templates, full-size patterns, a set-up sheet and a report of each joint,\n' +
        'and of several joints an index page with one cut list and one order of tools.',
    )
    .requiredOption(
      '-o, --output <folder>',
      'folder to write into; - writes a tar archive to standard output',
    )
    .option(
      '--only <products>',
      `some of ${products.join(',')}; all but nest when left out`,
      someOf(products),
    )
    .option(
      '--as <formats>',
      `some of ${formats.join(',')}; ${defaultFormats.join(',')} when left out`,
      someOf(formats),
    )
    .option('--force', 'replace files that exist, remove those of an older layout that halfpin wrote')
    .option('--open', 'show the sheet when it is written')
    .addHelpText(
      'after',
      '\nExample:\n  $ halfpin make tray.yaml -o tray --only finger --as svg,dxf\n\n' +
        'Plates are drawn as they should come out unless the shop says plate: { cut-for: laser } or cnc.\n' +
        'nest lays all plates on sheets of plate: { sheet } in rows, each as often as its template: { copies } says.\n' +
        'carrier is what hangs under the plates: fence, stops and gauge, held by the same holes; named with nest, it lies on the sheets, too.\n' +
        'A plate longer than the bed comes in parts with keyed seams.\n' +
        'gcode needs speeds and feeds in the shop; 3mf and stl are for a 3D printer.\n\n' +
        'Every joint is cut and closed on paper first. All files are written, or none when a joint is refused;\n' +
        '--joint makes the ones that can be made.',
    )
    .action(async (job: string, options: Options) => finish(await make(job, options)));
}

async function make(path: string, options: Options): Promise<ExitCode> {
  const misuse = misuseOf(options);
  if (misuse !== undefined) {
    tell(`halfpin: ${misuse}`);
    return exit.misuse;
  }
  const { solveFile } = await import('../job.js');
  const ours = new Set<string>();
  return runOrFollow(options.watch ?? false, path, async (reads) => {
    const { planOf, prove } = await import('../../src/outputs/plan.js');
    const solved = await solveFile(path, options.joint, reads, async (job, outcomes) =>
      prove(await planOf(job, outcomes, askedOf(options))),
    );
    tellRemarks(solved);
    const outcome = await writeMade(solved, path, options, ours);
    if (options.json) printJson({ ...dataOf(solved), ...outcome, status: outcome.code }, options.watch);
    else if (solved.job && outcome.files.length > 0) {
      print(
        `${describeJoints(solved.outcomes, solved.job)}\n\n${describeNotes(solved.remarks, solved.outcomes)}${describeFiles(options.output, outcome.files)}\n`,
      );
    }
    if (options.open && outcome.files.length > 0) {
      const { openSheet } = await import('../open.js');
      await openSheet(options.output, outcome.files);
    }
    return outcome.code;
  });
}

function misuseOf(options: Options): string | undefined {
  const never = neverMade(askedOf(options));
  if (never.length > 0) return never.map(unmadeWords).join('; ');
  const { output, json, watch, open } = options;
  if (open && watch) return '--open shows the sheet once; leave out --watch';
  if (output !== '-') return undefined;
  if (open) return '--open needs a folder to write into';
  if (json) return '--json and -o - both want standard output; give a folder';
  if (watch) return '--watch needs a folder to write into';
  return process.stdout.isTTY ? '-o - writes a tar archive; send it to a file or a program' : undefined;
}

function askedOf({ only, as }: Options): Asked {
  return { ...(only && { only }), ...(as && { as }) };
}

interface Outcome {
  readonly code: ExitCode;
  /** Paths below the output folder. */
  readonly files: readonly string[];
}

/** Plates of an older layout beside the new ones are soon taken for them. */
function tellStale(
  folder: string,
  files: Readonly<Record<'removed' | 'left' | 'changed', readonly string[]>>,
): void {
  const named = (paths: readonly string[]) => paths.map((file) => join(folder, file)).join(', ');
  const { removed, left, changed } = files;
  if (removed.length > 0) tell(`Removed, from an older layout: ${named(removed)}`);
  if (left.length > 0) tell(`From an older layout, use --force to remove: ${named(left)}`);
  if (changed.length > 0) tell(`From an older layout, but changed since, so left alone: ${named(changed)}`);
}

async function writeMade(
  solved: SolvedFile,
  path: string,
  options: Options,
  ours: Set<string>,
): Promise<Outcome> {
  const { code, job, outcomes, plan } = solved;
  if (!job || !plan || code !== exit.done) {
    const others = outcomes.filter(({ made }) => made).map(({ joint }) => joint.name);
    const hint =
      others.length > 0 && others.length < outcomes.length
        ? `; --joint makes one that can be made (${others.join(', ')})`
        : '';
    tell(`Nothing was written${hint}.`);
    return { code, files: [] };
  }
  const { renderAll } = await import('../../src/outputs/plan.js');
  const progress = progressOf();
  const files = await renderAll(plan, progress.onJoint);
  progress.end();
  if (options.output === '-') {
    print(tarOf(files));
    return { code, files: [] };
  }
  const { filed, hasManifest, MANIFEST } = await import('../manifest.js');
  const force = options.force ?? false;
  const removes = (file: string) => force || ours.has(join(options.output, file));
  const from = { job, jobPath: path, removes, ...(options.joint !== undefined && { joint: options.joint }) };
  const { manifest, stale, changed } = filed(options.output, files, from);
  if (hasManifest(options.output)) ours.add(join(options.output, MANIFEST));
  const remove = stale.filter(removes);
  const written = await writeAll(options.output, [...files, manifest], { force, ours, remove });
  if (!written.ok) {
    for (const problem of written.problems) tell(`halfpin: ${problem}`);
    return { code: written.code, files: [] };
  }
  for (const each of written.paths) ours.add(each);
  tellStale(options.output, { removed: remove, left: stale.filter((file) => !removes(file)), changed });
  return { code, files: [...files, manifest].map((file) => file.path) };
}
