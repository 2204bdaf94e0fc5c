import { existsSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { reportedDiagnostics } from '../src/diagnostics/reported.js';
import { fitFormatter } from '../src/fit/format-fit.js';
import type { Settings } from '../src/fit/joint-fit.js';
import type { Advice } from '../src/fit/refit.js';
import type { Job } from '../src/input/types.js';
import type { SolvedJoint } from '../src/joints/family.js';
import { tidied } from '../src/units/tidied.js';
import { readTextFile } from './input.js';
import { writeAll } from './output.js';
import type { Done } from './refit.js';

/** `JOB-refit.log` beside the job: what was measured and advised, and how the bench stands since. */

const NEW_PLATES = 'as the new sheet says';

function logOf(path: string): { readonly name: string; readonly file: string } {
  const name = `${basename(path, extname(path))}-refit.log`;
  return { name, file: join(dirname(path), name) };
}

/**
 * How the bench stands after the last entry of a joint; as the sheet says where there is none, where new plates were
 * asked for since, or where the sheet's depth is another by now.
 */
export function settingsFromLog(path: string, { name, fit }: SolvedJoint): Settings {
  const { file } = logOf(path);
  const log = existsSync(file) ? readTextFile(file) : undefined;
  if (!log?.ok) return {};
  const entries = log.text
    .split(/\r?\n\r?\n/)
    .filter((entry) => entry.split(/\r?\n/).includes(`joint: ${name}`));
  const line =
    entries
      .at(-1)
      ?.split(/\r?\n/)
      .find((one) => one.startsWith('settings: ')) ?? '';
  const [, depth, sheet] = /depth (-?[\d.]+) mm, sheet ([\d.]+) mm/.exec(line) ?? [];
  const [, fence] = /fence (-?[\d.]+) mm back/.exec(line) ?? [];
  const sameSheet = Math.abs(Number(sheet) - (fit?.move?.depth ?? Number.NaN)) < SAME_DEPTH;
  return {
    ...(depth !== undefined && sameSheet && { depth: Number(depth) - Number(sheet) }),
    ...(fence !== undefined && { fence: Number(fence) }),
  };
}

/** Depths of two sheets that differ by less are one, mm. */
const SAME_DEPTH = 0.002;

function settingsLine({ depth, fence }: Settings, solved: SolvedJoint, newPlates: boolean): string {
  const planned = solved.fit?.move?.depth ?? 0;
  const said = [
    ...(depth === undefined ? [] : [`depth ${tidied(planned + depth)} mm, sheet ${tidied(planned)} mm`]),
    ...(fence === undefined ? [] : [`fence ${tidied(fence)} mm back`]),
  ];
  return `settings: ${newPlates || said.length === 0 ? NEW_PLATES : said.join('; ')}`;
}

/** Adds an entry. Its only clock is the date that the user gives. `written`: sizes for new plates went into the shop file. */
export async function keepLog(
  path: string,
  advice: Advice,
  about: {
    readonly job: Job;
    readonly solved: SolvedJoint;
    readonly date?: string;
    readonly written: boolean;
  },
): Promise<Done> {
  const { job, solved, date, written: newPlates } = about;
  const { name, file } = logOf(path);
  const before = existsSync(file) ? readTextFile(file) : { ok: true as const, text: '' };
  if (!before.ok) return { ok: false, lines: [`halfpin: ${file}: cannot read it: ${before.problem}`] };
  const entry = [
    ...(date === undefined ? [] : [`date: ${date}`]),
    `joint: ${advice.joint}`,
    `measured: ${advice.measured.map(({ text }) => text).join(' ')}`,
    ...reportedDiagnostics(advice.diagnostics, fitFormatter(job.units)).map(
      ({ level, text }) => `${level === 'ok' ? 'advice' : level}: ${text}`,
    ),
    settingsLine(advice.settings, solved, newPlates),
  ];
  const gap =
    before.text === '' || before.text.endsWith('\n\n') ? '' : before.text.endsWith('\n') ? '\n' : '\n\n';
  const content = `${before.text}${gap}${entry.join('\n')}\n`;
  const written = await writeAll(dirname(path), [{ path: name, content }], { force: true });
  if (!written.ok) return { ok: false, lines: written.problems.map((one) => `halfpin: ${one}`) };
  return { ok: true, lines: [`Added to ${file}.`] };
}
