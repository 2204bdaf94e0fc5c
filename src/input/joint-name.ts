import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import type { NameProblem } from '../diagnostics/wording/job.js';
import { quoted } from './fields/read-value.js';
import { LONGEST_NAME } from './limits.js';

/**
 * What keeps a joint's name from naming a folder that every system can hold and that stays inside the output
 * folder: diagnostics at the joint. Letters of any script will do.
 */
export function nameDiagnostics(name: string, at: string): readonly Diagnostic[] {
  const trouble = nameProblem(name);
  if (trouble === undefined) return [];
  return [diagnostic('name-unfit', 'refused', at, { read: quoted(name), trouble, instead: likeName(name) })];
}

/** Names that would share a folder where capitals or the make-up of accented letters do not count. */
export function alikeDiagnostics(names: readonly string[], base: string): readonly Diagnostic[] {
  const first = new Map<string, string>();
  return names.flatMap((name) => {
    const folded = name.normalize('NFC').toLowerCase();
    const other = first.get(folded);
    if (other === undefined) {
      first.set(folded, name);
      return [];
    }
    return [diagnostic('name-alike', 'refused', `${base}.${name}`, { name, other, instead: `${name}-2` })];
  });
}

function nameProblem(name: string): NameProblem | undefined {
  if (name.trim() === '') return 'empty';
  if (name.length > LONGEST_NAME) return 'long';
  if (/[/\\]|^\.\.?$|^[a-z]:/i.test(name)) return 'path';
  if (/[. ]$/.test(name)) return 'end';
  if (!/^[\p{L}\p{N}]/u.test(name)) return 'start';
  if (!/^[\p{L}\p{M}\p{N} ._-]+$/u.test(name)) return 'character';
  return isDevice(name) ? 'device' : undefined;
}

/** Names that Windows keeps for devices, with any extension (Microsoft, "Naming Files, Paths, and Namespaces"). */
function isDevice(name: string): boolean {
  const stem = (name.split('.')[0] ?? '').trim();
  return /^(con|prn|aux|nul|(com|lpt)[0-9¹²³])$/i.test(stem);
}

/** A name near the one read that will do. */
function likeName(name: string): string {
  const kept = name
    .slice(0, 200)
    .replace(/[^\p{L}\p{M}\p{N}_-]+/gu, '-')
    .replace(/^[^\p{L}\p{N}]+|[-_]+$/gu, '')
    .slice(0, LONGEST_NAME / 2);
  const plain = kept === '' ? 'joint' : kept;
  return isDevice(plain) ? `${plain}-joint` : plain;
}
