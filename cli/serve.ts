import { randomBytes, timingSafeEqual } from 'node:crypto';
import { readFileSync, realpathSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { basename, dirname, extname, resolve, sep } from 'node:path';
import { readTextFile } from './input.js';
import { writeAll } from './output.js';

/**
 * Serves the drawing-board page with one job, on the loopback address alone. Every address holds a random token
 * that only whoever started the command has seen; a request must name this very host and port, and one that
 * comes from another page is refused. Only text files in the job's folder can be read, only the job written.
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
  const server = createServer((request, response) => {
    void respond({ job, html, token }, hostOf(server), request, response).catch(() => {
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

interface Served {
  readonly job: string;
  readonly html: Buffer;
  readonly token: string;
}

async function respond(
  served: Served,
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

function sendJob({ job }: Served, response: ServerResponse): void {
  const read = readTextFile(job);
  if (read.ok) {
    send(response, 200, 'application/json', JSON.stringify({ name: basename(job), text: read.text }));
  } else {
    send(response, 404, 'text/plain', `${basename(job)}: ${read.problem}`);
  }
}

/** A job's shop file, or another text beside it: inside the job's folder also once every link is followed. */
function sendBeside({ job }: Served, path: string, response: ServerResponse): void {
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

/** Writes the job whole or not at all, and only over the text that the page was given. */
async function saveJob({ job }: Served, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const asked = savingOf(await bodyOf(request));
  if (!asked) return refuse(response, 400);
  const now = readTextFile(job);
  if (!now.ok || now.text !== asked.before) {
    return send(
      response,
      409,
      'text/plain',
      `${basename(job)} was changed by another program meanwhile; load it again, or save under another name`,
    );
  }
  const written = await writeAll(dirname(job), [{ path: basename(job), content: asked.text }], {
    force: true,
  });
  if (!written.ok) return send(response, 500, 'text/plain', written.problems.join('; '));
  return send(response, 200, 'text/plain', 'saved');
}

interface Saving {
  readonly text: string;
  readonly before: string;
}

function savingOf(body: string | undefined): Saving | undefined {
  try {
    const { text, before } = JSON.parse(body ?? '') as Partial<Saving>;
    return typeof text === 'string' && typeof before === 'string' ? { text, before } : undefined;
  } catch {
    return undefined;
  }
}

/** A job's text twice and its quotes; anything longer is no job. */
const MOST_BYTES = 8 * 1024 * 1024;

async function bodyOf(request: IncomingMessage): Promise<string | undefined> {
  if (request.headers['content-type'] !== 'application/json') return undefined;
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > MOST_BYTES) return undefined;
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
