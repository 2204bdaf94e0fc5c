import { randomBytes, timingSafeEqual } from 'node:crypto';
import { existsSync, lstatSync, readFileSync, realpathSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { basename, dirname, extname, resolve, sep } from 'node:path';
import { readTextFile } from './input.js';
import { writeAll } from './output.js';

/**
 * Serves the drawing-board page with one job, on the loopback address alone. Every address holds a random token
 * that only whoever started the command has seen; a request must name this very host and port, and one that
 * comes from another page is refused. Only text files in the job's folder can be read. The job can be written, and
 * jobs beside it: only over a text that the page says it knows, and one save after the other.
 */
export interface BoardServer {
  /** The page's address, token and all. */
  readonly address: string;
  readonly close: () => void;
}

export interface BoardOptions {
  /** The job file. */
  readonly job: string;
  /** The page: one HTML file. */
  readonly page: string;
  /** 0 for any that is free. */
  readonly port: number;
}

/** Throws the operating system's error where the page or the port cannot be had. */
export async function serveBoard({ job, page, port }: BoardOptions): Promise<BoardServer> {
  const html = readFileSync(page);
  const token = randomBytes(24).toString('base64url');
  const inTurn = oneByOne();
  const server = createServer((request, response) => {
    void respond({ job, html, token, inTurn }, hostOf(server), request, response).catch(() => {
      send(response, 500, 'text/plain', 'this could not be answered');
    });
  });
  await new Promise<void>((done, failed) => {
    server.once('error', failed);
    server.listen({ port, host: LOOPBACK }, done);
  });
  return {
    address: `http://${hostOf(server)}/${token}/`,
    close: () => {
      server.close();
      server.closeAllConnections();
    },
  };
}

const LOOPBACK = '127.0.0.1';

interface ServedPage {
  readonly job: string;
  readonly html: Buffer;
  readonly token: string;
  readonly inTurn: InTurn;
}

type InTurn = <T>(work: () => Promise<T>) => Promise<T>;

/** Runs what it is given when all that it was given before has ended, well or not. */
function oneByOne(): InTurn {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = last.then(work, work);
    last = next;
    return next;
  };
}

async function respond(
  served: ServedPage,
  host: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  // Another name for this host (DNS rebinding), another page (cross-origin): neither may ask anything.
  if (request.headers.host !== host) return refuse(response, 421);
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${host}`) return refuse(response, 403);
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return refuse(response, 403);

  const { pathname, searchParams } = new URL(request.url ?? '/', `http://${host}`);
  const [, given = '', what = ''] = /^\/([^/]+)\/([a-z]*)$/.exec(pathname) ?? [];
  if (!isSame(given, served.token)) return refuse(response, 404);

  const asked = `${request.method} ${what}`;
  if (asked === 'GET ') return send(response, 200, 'text/html; charset=utf-8', served.html);
  if (asked === 'GET job') return sendJob(served, response);
  if (asked === 'GET beside') return sendBeside(served, searchParams.get('path') ?? '', response);
  if (asked === 'PUT job') return saveJob(served, request, response);
  return refuse(response, 404);
}

function sendJob({ job }: ServedPage, response: ServerResponse): void {
  const read = readTextFile(job);
  if (read.ok) {
    send(response, 200, 'application/json', JSON.stringify({ name: basename(job), text: read.text }));
  } else {
    send(response, 404, 'text/plain', `${basename(job)}: ${read.problem}`);
  }
}

/** A job's shop file, or another text beside it: inside the job's folder also once every link is followed. */
function sendBeside({ job }: ServedPage, path: string, response: ServerResponse): void {
  const inside = path === '' ? undefined : insideFolder(dirname(job), path);
  const isText = inside !== undefined && textKinds.has(extname(inside).toLowerCase());
  const read = isText ? readTextFile(inside) : undefined;
  if (read?.ok) send(response, 200, 'text/plain; charset=utf-8', read.text);
  else refuse(response, 404);
}

const textKinds: ReadonlySet<string> = new Set(['.yaml', '.yml', '.json', '.svg']);

function insideFolder(folder: string, path: string): string | undefined {
  try {
    const home = realpathSync(folder);
    const real = realpathSync(resolve(home, path));
    return real.startsWith(home.endsWith(sep) ? home : home + sep) ? real : undefined;
  } catch {
    return undefined;
  }
}

async function saveJob(
  { job, inTurn }: ServedPage,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const asked = savingOf(await bodyOf(request));
  const target = asked && savedTarget(job, asked.name);
  if (!target) return refuse(response, 400);
  const saved = await inTurn(() => saveOver(target, asked));
  if (saved.ok) return send(response, 200, 'text/plain', 'saved');
  if ('problem' in saved) return send(response, 500, 'text/plain', saved.problem);
  return send(response, 409, 'application/json', JSON.stringify({ theirs: saved.theirs }));
}

type Saved =
  | { readonly ok: true }
  | { readonly ok: false; readonly problem: string }
  /** What the file holds, in place of what the page knows; undefined where it is gone. */
  | { readonly ok: false; readonly theirs: string | undefined };

/** Writes whole or not at all, and only over a text that the page knows. What stands there already is saved. */
async function saveOver(target: string, { text, before }: SaveRequest): Promise<Saved> {
  const there = existsSync(target);
  const now = there ? readTextFile(target) : undefined;
  if (now && !now.ok) return { ok: false, problem: `${basename(target)}: ${now.problem}` };
  if (now?.text === text) return { ok: true };
  if (now ? !before.includes(now.text) : before.length > 0) return { ok: false, theirs: now?.text };
  const files = [{ path: basename(target), content: text }];
  const written = await writeAll(dirname(target), files, { force: there });
  return written.ok ? { ok: true } : { ok: false, problem: written.problems.join('; ') };
}

/** The job itself, or a plain file of that name beside it: no link is followed to write somewhere else. */
function savedTarget(job: string, name: string): string | undefined {
  if (name === basename(job)) return job;
  const isName = name === basename(name) && !/^\.|[\\/:\0]/.test(name);
  if (!isName || !jobKinds.has(extname(name).toLowerCase())) return undefined;
  const path = resolve(dirname(job), name);
  const there = lstatSync(path, { throwIfNoEntry: false });
  return there && !there.isFile() ? undefined : path;
}

const jobKinds: ReadonlySet<string> = new Set(['.yaml', '.yml', '.json']);

interface SaveRequest {
  /** Bare name of the job's file. */
  readonly name: string;
  readonly text: string;
  /** Texts that may be replaced; none where there must be no such file yet. */
  readonly before: readonly string[];
}

function savingOf(body: string | undefined): SaveRequest | undefined {
  try {
    const { name, text, before } = JSON.parse(body ?? '') as Partial<Record<keyof SaveRequest, unknown>>;
    if (typeof name !== 'string' || typeof text !== 'string' || !Array.isArray(before)) return undefined;
    const known = before.filter((one) => typeof one === 'string');
    return known.length === before.length ? { name, text, before: known } : undefined;
  } catch {
    return undefined;
  }
}

/** A job's text a few times and its quotes; anything longer is no job. */
const MAX_BYTES = 8 * 1024 * 1024;

async function bodyOf(request: IncomingMessage): Promise<string | undefined> {
  if (request.headers['content-type'] !== 'application/json') return undefined;
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > MAX_BYTES) return undefined;
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString('utf8');
}

function hostOf(server: Server): string {
  return `${LOOPBACK}:${(server.address() as AddressInfo | null)?.port ?? 0}`;
}

function isSame(given: string, token: string): boolean {
  const [one, other] = [Buffer.from(given), Buffer.from(token)];
  return one.length === other.length && timingSafeEqual(one, other);
}

function refuse(response: ServerResponse, status: number): void {
  send(response, status, 'text/plain', 'not here');
}

function send(response: ServerResponse, status: number, type: string, body: string | Buffer): void {
  response.writeHead(status, {
    'Content-Type': type,
    'Cache-Control': 'no-store',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Referrer-Policy': 'no-referrer',
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
  });
  response.end(body);
}
