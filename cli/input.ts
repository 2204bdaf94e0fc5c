import { createReadStream } from 'node:fs';
import { isSystemError, reasonOf } from './terminal.js';

export type ReadText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problem: string };

/** No job file comes near this size; it keeps a mistyped path such as /dev/zero from filling the memory. */
const mostBytes = 16 * 1024 * 1024;

/** Reads a whole text file, or standard input for `-`. UTF-8, with or without a byte order mark. */
export async function readText(path: string): Promise<ReadText> {
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  try {
    for await (const chunk of path === '-' ? process.stdin : createReadStream(path)) {
      chunks.push(chunk);
      bytes += chunk.length;
      if (bytes > mostBytes) return unread(`it is over ${mostBytes / 1024 / 1024} MB, too long for a job`);
    }
  } catch (error) {
    if (!isSystemError(error)) throw error;
    return unread(reasonOf(error));
  }
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(chunks)) };
  } catch {
    return unread('it is not UTF-8 text; save it as UTF-8 in your editor');
  }
}

/** The name of a file in messages. */
export function displayName(path: string): string {
  return path === '-' ? '<stdin>' : path;
}

function unread(problem: string): ReadText {
  return { ok: false, problem };
}
