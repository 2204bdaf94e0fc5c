import {
  existsSync,
  linkSync,
  lstatSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { mkdir, open } from 'node:fs/promises';
import { dirname, isAbsolute, join, resolve } from 'node:path';
import { type ExitCode, exit } from './exit.js';
import { isSystemError, reasonOf } from './terminal.js';

export interface OutFile {
  /** Relative to the folder, with `/` between parts. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

export interface WriteOptions {
  /** Replace files that exist. */
  readonly force: boolean;
  /** Paths (as this function gave them) that may be replaced all the same: what this run wrote before. */
  readonly ours?: ReadonlySet<string>;
  /** Files to be removed with it, relative to the folder: just before the last file gets its name. */
  readonly remove?: readonly string[];
}

export type WrittenFiles =
  | { readonly ok: true; readonly paths: readonly string[] }
  | {
      readonly ok: false;
      readonly problems: readonly string[];
      /** What the command ends with: misuse where something stands in the way that is no file to be replaced. */
      readonly code: ExitCode;
    };

/**
 * Writes all files or none. Each is staged whole beside its final name (temporary file, fsync) and renamed
 * when all are staged, so that no final name ever holds half a file, whenever the process ends. What was
 * staged is taken back on an error or a signal; after a kill that nobody can catch, the next run sweeps it.
 */
export async function writeAll(
  folder: string,
  files: readonly OutFile[],
  options: WriteOptions,
): Promise<WrittenFiles> {
  const scratch = scratchSpace();
  try {
    const targets = files.map((file) => outputTarget(folder, file));
    const noFiles = targets.flatMap((target) => noFileInTheWay(target) ?? []);
    if (noFiles.length > 0) return { ok: false, problems: noFiles, code: exit.misuse };
    const inTheWay = [
      ...targets.flatMap((target) => folderInTheWay(target) ?? []),
      ...unaskedFor(targets, options),
    ];
    if (inTheWay.length > 0) return { ok: false, problems: inTheWay, code: exit.refused };
    for (const place of new Set(targets.map((target) => dirname(target.final)))) {
      await scratch.makeFolder(place);
      sweep(place);
    }
    await scratch.stageAll(targets);
    publish(
      targets,
      options,
      (options.remove ?? []).map((path) => join(folder, path)),
    );
    scratch.keep();
    return { ok: true, paths: targets.map((target) => target.path) };
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return { ok: false, problems: [`cannot write in ${folder}: ${reasonOf(error)}`], code: exit.refused };
  } finally {
    scratch.end();
  }
}

interface OutputTarget {
  readonly path: string;
  /** Where the file really goes: a link is followed, so that it stays a link. */
  readonly final: string;
  readonly temporary: string;
  readonly content: string | Uint8Array;
  /** Rights of the file that is replaced, to be kept. */
  readonly mode?: number;
}

let staged = 0;

function outputTarget(folder: string, { path, content }: OutFile): OutputTarget {
  if (isAbsolute(path) || path.split(/[\\/]/).includes('..')) {
    throw new Error(`an output path leads out of its folder: ${path}`);
  }
  const full = join(folder, path);
  const final = followed(full);
  staged += 1;
  const temporary = join(dirname(final), temporaryName(process.pid, staged));
  const there = statSync(final, { throwIfNoEntry: false });
  return { path: full, final, temporary, content, ...(there && { mode: there.mode & 0o777 }) };
}

/** Where a path leads through links, also where the file at the end of the last one is not there yet. */
function followed(path: string): string {
  if (existsSync(path)) return realpathSync(path);
  const isLink = lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;
  return isLink ? resolve(dirname(path), readlinkSync(path)) : resolve(path);
}

function folderInTheWay({ path, final }: OutputTarget): string | undefined {
  const there = lstatSync(final, { throwIfNoEntry: false });
  return there?.isDirectory() ? `${path} is a folder; a file of that name is to be written` : undefined;
}

/** A device, a pipe or a socket, mostly at the end of a link: to put a file in its place could harm the whole machine. */
function noFileInTheWay({ path, final }: OutputTarget): string | undefined {
  const there = statSync(final, { throwIfNoEntry: false });
  if (!there || there.isFile() || there.isDirectory()) return undefined;
  const what = there.isFIFO() ? 'a pipe' : there.isSocket() ? 'a socket' : 'a device';
  const where = resolve(path) === final ? path : `${path} leads to ${final}, which`;
  return `${where} is ${what}, not a file: it is never replaced; move it away or write into another folder`;
}

/** One sentence for all that would be replaced unasked: a second make is in the way of every one of its files. */
function unaskedFor(targets: readonly OutputTarget[], { force, ours }: WriteOptions): readonly string[] {
  const there = targets.filter(({ path, final }) => {
    const found = lstatSync(final, { throwIfNoEntry: false });
    return found && !found.isDirectory() && !force && !ours?.has(path);
  });
  const [first] = there;
  if (!first) return [];
  const more = there.length - 1;
  return more === 0
    ? [`${first.path} exists already; use --force to replace it`]
    : [`${first.path} exists already, and ${more} more of these files; use --force to replace them`];
}

/** Files that are being staged at one time: a big job has more files than a process may hold open. */
const atOnce = 16;

/**
 * Temporary files and new folders of one batch, cleared at its end. A signal that would end the process is
 * heeded when the files in hand are closed, so that none is left behind.
 */
function scratchSpace() {
  const temporaries: string[] = [];
  const folders: string[] = [];
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  let heard: NodeJS.Signals | undefined;
  const hear = (signal: NodeJS.Signals) => {
    heard = signal;
  };
  for (const signal of signals) process.on(signal, hear);

  return {
    async makeFolder(folder: string) {
      // One at a time: where a folder can't be made at all, as under /proc, Node's `recursive` never ends.
      const missing: string[] = [];
      for (let each = folder; !existsSync(each); each = dirname(each)) missing.unshift(each);
      for (const each of missing) if (await makeOne(each)) folders.push(each);
    },
    async stageAll(targets: readonly OutputTarget[]) {
      const waiting = [...targets];
      const stageSome = async () => {
        for (let next = waiting.shift(); next && !heard; next = waiting.shift()) {
          temporaries.push(next.temporary);
          await writeWhole(next);
        }
      };
      // All have to come to their end, well or not, before anything is cleared.
      const ends = await Promise.allSettled(Array.from({ length: atOnce }, stageSome));
      for (const end of ends) if (end.status === 'rejected') throw end.reason;
      if (heard) throw Object.assign(new Error(`ended by ${heard}`), { syscall: 'kill' });
    },
    /** Folders stay: files were published in them. */
    keep() {
      folders.length = 0;
    },
    /** Clears, then lets a signal that was heard do what it is for. */
    end() {
      for (const file of temporaries) rmSync(file, { force: true });
      for (const folder of folders.reverse()) removeIfEmpty(folder);
      for (const signal of signals) process.off(signal, hear);
      if (heard && process.listenerCount(heard) === 0) process.kill(process.pid, heard);
    },
  };
}

/** Whether a folder was made; false where somebody else has made it meanwhile. */
async function makeOne(folder: string): Promise<boolean> {
  try {
    await mkdir(folder);
    return true;
  } catch (error) {
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return false;
    throw error;
  }
}

async function writeWhole({ temporary, content, mode }: OutputTarget): Promise<void> {
  const file = await open(temporary, 'wx', mode);
  try {
    if (mode !== undefined) await file.chmod(mode);
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

/**
 * Gives staged files their final names, without a break in which a signal could be heard. Where one of them
 * fails, the ones that took no older file's place go again.
 */
function publish(
  targets: readonly OutputTarget[],
  { force, ours }: WriteOptions,
  remove: readonly string[],
): void {
  const fresh: string[] = [];
  try {
    for (const [i, { path, final, temporary }] of targets.entries()) {
      if (i === targets.length - 1) for (const stale of remove) rmSync(stale, { force: true });
      const replaces = existsSync(final);
      if (force || ours?.has(path)) renameSync(temporary, final);
      else renameToNew(temporary, final);
      if (!replaces) fresh.push(final);
    }
  } catch (error) {
    for (const file of fresh) rmSync(file, { force: true });
    throw error;
  }
}

/** Rename that fails when the name is taken in the meantime, on disks that know hard links. */
function renameToNew(temporary: string, final: string): void {
  try {
    linkSync(temporary, final);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') throw error;
    renameSync(temporary, final); // memory cards and some network disks have no links
    return;
  }
  rmSync(temporary);
}

const temporaryPattern = /^\.halfpin-(\d+)-\d+\.part$/;

function temporaryName(processId: number, count: number): string {
  return `.halfpin-${processId}-${count}.part`;
}

/** Removes what a killed run left staged in a folder. */
function sweep(folder: string): void {
  for (const name of readdirSync(folder)) {
    const owner = temporaryPattern.exec(name)?.[1];
    if (owner === undefined) continue;
    const isLeft = Number(owner) === process.pid || !isAlive(Number(owner));
    if (isLeft) rmSync(join(folder, name), { force: true });
  }
}

function isAlive(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // something else was put there meanwhile: it stays
  }
}
