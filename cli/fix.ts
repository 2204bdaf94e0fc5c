import { basename, dirname } from 'node:path';
import type { Fix } from '../src/diagnostics/fix.js';
import { editYaml } from '../src/input/yaml/edit-yaml.js';
import { type ExitCode, exit } from './exit.js';
import { readTextFile } from './input.js';
import { asMakePlans, type Remark, type SolvedFile, solveText } from './job.js';
import { writeAll } from './output.js';
import { fixWords } from './remarks.js';
import { shown } from './terminal.js';

/** What `check --fix` changes in a job file, and what it leaves. */

/** A fix that was made, and the code that it answered. */
export interface MadeFix {
  readonly code: string;
  readonly at: string;
  readonly fix: Fix;
}

export type FixedFile =
  | { readonly ok: true; readonly made: readonly MadeFix[] }
  | { readonly ok: false; readonly code: ExitCode; readonly problems: readonly string[] };

/**
 * Makes the fixes that a check offers, each only where its diagnostic is then gone and nothing new speaks against the
 * job, and writes the file whole. Fixes that are left to the maker, and files beside the job, stay as they are.
 */
export async function fixFile(path: string, joint: string | undefined): Promise<FixedFile> {
  const input = readTextFile(path);
  // What can't be read is said by the check itself.
  if (!input.ok) return { ok: true, made: [] };
  const solve = (text: string) => solveText({ file: path, text }, joint, () => undefined, asMakePlans);
  const { text, made } = await fixText(input.text, solve);
  if (made.length === 0) return { ok: true, made };
  const now = readTextFile(path);
  if (!now.ok || now.text !== input.text) {
    const problem = `${path} has changed while it was being fixed; nothing was written`;
    return { ok: false, code: exit.refused, problems: [problem] };
  }
  const written = await writeAll(dirname(path), [{ path: basename(path), content: text }], { force: true });
  return written.ok ? { ok: true, made } : written;
}

/** A text with the fixes made that its checks offer, one after another. */
export async function fixText(
  text: string,
  solve: (text: string) => Promise<SolvedFile>,
): Promise<{ readonly text: string; readonly made: readonly MadeFix[] }> {
  const made: MadeFix[] = [];
  const seen = new Set([text]);
  let now = { text, solved: await solve(text) };
  for (;;) {
    const next = await nextFix(now.text, now.solved, solve, seen);
    if (!next) return { text: now.text, made };
    made.push(next.made);
    now = next;
  }
}

/** The first fix that answers its diagnostic: refusals first, then cautions, then what only offers a way. */
async function nextFix(
  text: string,
  before: SolvedFile,
  solve: (text: string) => Promise<SolvedFile>,
  seen: Set<string>,
) {
  for (const level of ['refused', 'caution', 'ok'] as const) {
    for (const one of before.remarks.filter((remark) => remark.level === level)) {
      for (const fix of one.fixes.filter(({ ask }) => !ask)) {
        const fixed = editYaml(text, fix.edits);
        if (seen.has(fixed)) continue;
        seen.add(fixed);
        const solved = await solve(fixed);
        const { code, at } = one;
        if (isAnswered(one, before, solved)) return { text: fixed, solved, made: { code, at, fix } };
      }
    }
  }
  return undefined;
}

/** Whether a diagnostic is gone and the job no worse; what only offers a way must have made it better. */
function isAnswered(one: Remark, before: SolvedFile, after: SolvedFile): boolean {
  if (after.remarks.some(({ code, at }) => code === one.code && at === one.at)) return false;
  // What was never solved for its bad text may be refused for more once it is.
  const reads = ({ job }: SolvedFile) => job !== undefined;
  if (!reads(before) && reads(after)) return true;
  if (reads(before) && !reads(after)) return false;
  const [refusedBefore, cautionsBefore] = weight(before);
  const [refusedAfter, cautionsAfter] = weight(after);
  if (refusedAfter !== refusedBefore) return refusedAfter < refusedBefore;
  return one.level === 'refused' || cautionsAfter + (one.level === 'ok' ? 1 : 0) <= cautionsBefore;
}

function weight({ remarks }: SolvedFile): readonly [number, number] {
  const count = (level: Remark['level']) => remarks.filter((one) => one.level === level).length;
  return [count('refused'), count('caution')];
}

/** What was changed, and what is left for the maker or stands in another file; after the fixes were made. */
export function describeFixes(path: string, made: readonly MadeFix[], { remarks }: SolvedFile): string {
  const lines =
    made.length === 0
      ? [`Nothing changed in ${path}.`]
      : [`Changed ${path}:`, ...made.map(({ fix }) => `  ${fixWords(fix)}`)];
  const left = remarks.filter(({ level }) => level !== 'ok');
  const choices = left.filter(({ fixes }) => fixes.some(({ ask }) => ask)).length;
  const others = [...new Set(left.filter(({ file }) => file !== path).map(({ file }) => file))];
  return [
    ...lines,
    ...(choices === 0
      ? []
      : ['Some fixes are left for you to choose, since they ask for other wood or guess.']),
    ...others.map((file) => `${file} is left as it is: --fix changes the job file alone.`),
  ]
    .map(shown)
    .join('\n');
}
