import type { Texts } from './model.js';

/** What the page asks of the browser: files in, files out. */

/** Hands the person a file; it goes where the browser puts downloads. */
export function download(name: string, content: string | Uint8Array): void {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  const address = URL.createObjectURL(new Blob([bytes.slice()], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), A_MINUTE);
}

const A_MINUTE = 60_000;

/** Files picked by hand: the one that holds joints is the job, the others lie beside it. */
export async function textsOf(files: readonly File[]): Promise<Texts | undefined> {
  const read = await Promise.all(files.map(async (file) => ({ name: file.name, text: await file.text() })));
  const job =
    read.find(({ text }) => /^\s*["']?joints["']?\s*:/m.test(text) || /"joints"\s*:/.test(text)) ?? read[0];
  if (!job) return undefined;
  const others = Object.fromEntries(read.filter((one) => one !== job).map(({ name, text }) => [name, text]));
  return { ...job, others };
}
