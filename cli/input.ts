import { closeSync, openSync, readSync } from 'node:fs';
import { isSystemError, reasonOf } from './terminal.js';

export type ReadText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problem: string };

/** No job file comes near this size; it keeps a mistyped path such as /dev/zero from filling the memory. */
const mostBytes = 16 * 1024 * 1024;
const tooLong = unread(`it is over ${mostBytes / 1024 / 1024} MB, too long for a job`);

/** Reads a whole text file. UTF-8; a byte order mark stays, so that a file can be written back as it was. */
export function readTextFile(path: string): ReadText {
  try {
    const file = openSync(path, 'r');
    try {
      return textFrom(chunksOf(file));
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return unread(reasonOf(error));
  }
}

/** Reads standard input to its end. */
export async function readStandardInput(): Promise<ReadText> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for await (const chunk of process.stdin) {
    chunks.push(chunk);
    bytes += chunk.length;
    if (bytes > mostBytes) break;
  }
  return textFrom(chunks);
}

/** The name of a job file in messages. */
export function displayName(path: string): string {
  return path === '-' ? '<stdin>' : path;
}

function* chunksOf(file: number): Generator<Uint8Array> {
  for (;;) {
    const chunk = Buffer.alloc(64 * 1024);
    const length = readSync(file, chunk);
    if (length === 0) return;
    yield chunk.subarray(0, length);
  }
}

function textFrom(source: Iterable<Uint8Array>): ReadText {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for (const chunk of source) {
    chunks.push(chunk);
    bytes += chunk.length;
    if (bytes > mostBytes) return tooLong;
  }
  try {
    return {
      ok: true,
      text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(Buffer.concat(chunks)),
    };
  } catch {
    return unread('it is not UTF-8 text; save it as UTF-8 in your editor');
  }
}

function unread(problem: string): ReadText {
  return { ok: false, problem };
}
