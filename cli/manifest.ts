import { createHash } from 'node:crypto';
import { lstatSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Job } from '../src/input/types.js';
import type { OutFile } from './output.js';

/**
 * `manifest.json` of an output folder: every file that halfpin wrote there and that still belongs to it, with a hash
 * of its content, the job file that it came from, and a hash of what it was made of. By it a later `make` knows
 * which files are of an older layout, and which of them nobody has changed since.
 */
export const MANIFEST = 'manifest.json';

interface ManifestEntry {
  /** Below the folder, with `/` between parts. */
  readonly path: string;
  /** Of the content, SHA-256, hexadecimal. */
  readonly sha256: string;
  /** Name of the job file, so that the files of another job in the same folder are left alone. */
  readonly job: string;
  /** SHA-256 of the joint, or the job, and of the shop that the file was made of. */
  readonly of: string;
}

export interface Filed {
  /** To be written with the files, last of all. */
  readonly manifest: OutFile;
  /** Paths that halfpin wrote for an older layout, as it wrote them. */
  readonly stale: readonly string[];
  /** The same, but changed since: nobody's but the user's. */
  readonly changed: readonly string[];
}

export interface FiledFrom {
  readonly job: Job;
  /** Path of the job file. */
  readonly jobPath: string;
  /** Where one joint alone is made, the files of others are not looked at. */
  readonly joint?: string;
  /** Whether stale files go, and so leave the manifest. */
  readonly removes: (path: string) => boolean;
}

/** What the manifest says when these files are written, and what an older one tells of files beside them. */
export function filed(folder: string, files: readonly OutFile[], from: FiledFrom): Filed {
  const name = from.jobPath === '-' ? '-' : basename(from.jobPath);
  const now = files.map(
    ({ path, content }): ManifestEntry => ({
      path,
      sha256: hashOf(content),
      job: name,
      of: sourceOf(path, from.job) ?? '',
    }),
  );
  const written = new Set(files.map(({ path }) => path));
  const others = (entriesOf(folder) ?? []).filter(({ path }) => !written.has(path));
  const there = others.flatMap((one) => {
    const found = contentHash(join(folder, one.path));
    return found === undefined
      ? []
      : [{ ...one, isOurs: found === one.sha256, isOld: isOld(one, name, from) }];
  });
  const stale = there.filter(({ isOurs, isOld: old }) => old && isOurs).map(({ path }) => path);
  const changed = there.filter(({ isOurs, isOld: old }) => old && !isOurs).map(({ path }) => path);
  const left = there.filter(
    ({ path }) => !changed.includes(path) && !(stale.includes(path) && from.removes(path)),
  );
  const kept = left.map(({ path, sha256, job, of }): ManifestEntry => ({ path, sha256, job, of }));
  return { manifest: { path: MANIFEST, content: textOf([...now, ...kept]) }, stale, changed };
}

/** Whether the folder's file of that name is one of ours, and so may be written anew. */
export const hasManifest = (folder: string): boolean => entriesOf(folder) !== undefined;

const isOld = (one: ManifestEntry, name: string, { job, joint }: FiledFrom): boolean =>
  one.job === name &&
  (joint === undefined || one.path.startsWith(`${joint}/`)) &&
  one.of !== sourceOf(one.path, job);

/** In the order of their paths, so that one state of a folder has one manifest. */
function textOf(entries: readonly ManifestEntry[]): string {
  const files = [...entries].sort((a, b) => (a.path < b.path ? -1 : 1));
  return `${JSON.stringify({ writer: WRITER, files }, null, 2)}\n`;
}

const WRITER = 'halfpin';

/**
 * What a file hangs on: its joint with the one that it is lined up with, or all joints for what is no joint's own;
 * title, pieces and shop. Printer and colours don't change a layout: only a PDF hangs on the printer.
 */
function sourceOf(path: string, job: Job): string | undefined {
  const [top = '', ...below] = path.split('/');
  const joint = job.joints.find(({ name }) => name === top);
  if (below.length > 0 && !joint) return undefined;
  const joints =
    below.length > 0 ? job.joints.filter(({ name }) => name === top || name === joint?.align) : job.joints;
  const { printer, colours: _, ...shop } = job.shop;
  const made = { ...job, joints, shop: { ...shop, ...(path.endsWith('.pdf') && { printer }) } };
  return hashOf(JSON.stringify(made));
}

/** The entries of a manifest of ours; undefined where there is none, or one of somebody else. */
function entriesOf(folder: string): readonly ManifestEntry[] | undefined {
  try {
    const read: unknown = JSON.parse(readFileSync(join(folder, MANIFEST), 'utf8'));
    if (!isRecord(read) || read.writer !== WRITER || !Array.isArray(read.files)) return undefined;
    return read.files.filter(isEntry);
  } catch {
    return undefined; // not there, or not JSON: nothing is known of older files
  }
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** A path that leads out of the folder is none that was written. */
const isEntry = (value: unknown): value is ManifestEntry =>
  isRecord(value) &&
  ['path', 'sha256', 'job', 'of'].every((key) => typeof value[key] === 'string') &&
  !String(value.path)
    .split(/[\\/]/)
    .some((part) => part === '..' || part === '');

/** Of a plain file; a link or anything else of that name is not what was written. */
function contentHash(path: string): string | undefined {
  try {
    return lstatSync(path).isFile() ? hashOf(readFileSync(path)) : undefined;
  } catch {
    return undefined;
  }
}

const hashOf = (content: string | Uint8Array): string => createHash('sha256').update(content).digest('hex');
