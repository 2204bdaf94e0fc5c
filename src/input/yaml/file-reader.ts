import { diagnostic, ok } from '../../diagnostics/diagnostic.js';
import { quoted, refusal, unfit, type ValueReader } from '../fields/read-value.js';
import type { TextFile } from '../types.js';

/** Gives the text of a file that the job names, with the path at which it was looked for; no text when there is none. */
export type OpenFile = (
  path: string,
) => { readonly at: string; readonly text: string | undefined } | undefined;

/** The path of a text file; gives the file. */
export function fileReader(example: string, open: OpenFile): ValueReader<TextFile> {
  const what = 'the path of a file';
  return {
    what,
    example,
    json: { type: 'string', description: 'The path of a file, as seen from the folder of the job.' },
    read: (value) => {
      if (typeof value !== 'string') return unfit(value, { what, example });
      const path = value.trim();
      const opened = path === '' || path.includes('\0') ? undefined : open(path);
      if (opened?.text !== undefined) return ok({ path, text: opened.text });
      const data = { read: quoted(value), opened: opened?.at ?? path };
      return refusal(diagnostic('text-file-unreadable', 'refused', '', data));
    },
  };
}
