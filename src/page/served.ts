import type { Texts } from './model.js';
import type { SaveAnswer } from './saving.js';

/**
 * The page's talk with `halfpin board`, which serves it on the loopback address: the job in, jobs back on request,
 * files beside them. A page opened by itself talks with nobody. Addresses are below the page's own, which holds the
 * token.
 */
export type Served =
  | { readonly by: 'nobody' }
  | { readonly by: 'command'; readonly texts: Texts }
  /** The command serves the page and cannot read the job. */
  | { readonly by: 'command'; readonly problem: string };

export async function servedJob(): Promise<Served> {
  if (!location.protocol.startsWith('http')) return { by: 'nobody' };
  const response = await fetch('job').catch(() => undefined);
  if (!response) return { by: 'command', problem: 'halfpin board does not answer' };
  if (!response.ok) return { by: 'command', problem: await response.text() };
  const { name, text } = (await response.json()) as { readonly name: string; readonly text: string };
  return { by: 'command', texts: { name, text, others: {} } };
}

/** A file that the job names, where it lies in the job's folder. */
export async function servedBeside(path: string): Promise<string | undefined> {
  const response = await fetch(`beside?path=${encodeURIComponent(path)}`).catch(() => undefined);
  return response?.ok ? response.text() : undefined;
}

/** A save as the server takes it. */
export interface Saving {
  /** The file's bare name, in the folder of the job that is served. */
  readonly name: string;
  readonly text: string;
  /** Texts that may be replaced; none where there must be no such file yet. */
  readonly before: readonly string[];
}

/** Writing a few kB takes milliseconds; a server that has not answered by then has stopped, ms. */
const PATIENCE = 15_000;

export async function saveServed(saving: Saving): Promise<SaveAnswer> {
  try {
    const response = await fetch('job', {
      method: 'PUT',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(saving),
      signal: AbortSignal.timeout(PATIENCE),
    });
    if (response.ok) return { ok: true };
    if (response.status !== CONFLICT) {
      return { ok: false, why: 'not-written', problem: await response.text() };
    }
    const { theirs } = (await response.json()) as { readonly theirs?: string };
    return { ok: false, why: 'changed', ...(theirs === undefined ? {} : { theirs }) };
  } catch {
    return { ok: false, why: 'no-answer' };
  }
}

/** 409 Conflict (RFC 9110, 15.5.10): the file holds another text than the page knows of. */
const CONFLICT = 409;
