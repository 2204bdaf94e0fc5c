import type { Texts } from './model.js';

/**
 * The page's talk with `halfpin board`, which serves it on the loopback address: the job in, the job back on
 * request, files beside it. A page opened by itself talks with nobody. Addresses are below the page's own, which
 * holds the token.
 */
export async function servedTexts(): Promise<Texts | undefined> {
  if (!location.protocol.startsWith('http')) return undefined;
  const response = await fetch('job');
  if (!response.ok) return undefined;
  const { name, text } = (await response.json()) as { readonly name: string; readonly text: string };
  return { name, text, others: {} };
}

/** A file that the job names, where it lies in the job's folder. */
export async function servedBeside(path: string): Promise<string | undefined> {
  const response = await fetch(`beside?path=${encodeURIComponent(path)}`);
  return response.ok ? response.text() : undefined;
}

/** Writes the job back. `before` is what the page was given: a file that was changed since is left alone. */
export async function saveServed(
  text: string,
  before: string,
): Promise<{ readonly ok: boolean; readonly problem: string }> {
  const response = await fetch('job', {
    method: 'PUT',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ text, before }),
  });
  return { ok: response.ok, problem: response.ok ? '' : await response.text() };
}
