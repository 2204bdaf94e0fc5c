import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { request } from 'node:http';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { type BoardServer, serveBoard } from '../../cli/serve.js';
import { builtCommand, endOf } from '../cli/command.js';

/** The page is served to the person who asked for it: nobody else may read the folder or write the job. */

const top = mkdtempSync(join(tmpdir(), 'halfpin-serve-'));
const folder = join(top, 'cabinet');
const job = join(folder, 'tray.yaml');
const text = 'title: Tray\nunits: in # inches\n';
mkdirSync(folder);
writeFileSync(join(top, 'page.html'), '<!doctype html><title>the page</title>');
writeFileSync(join(top, 'secret.yaml'), 'secret: 1');
writeFileSync(join(folder, 'shop.yaml'), 'units: in\n');
writeFileSync(join(folder, 'notes.txt'), 'private');
symlinkSync(join(top, 'secret.yaml'), join(folder, 'link.yaml'));
afterAll(() => rmSync(top, { recursive: true, force: true }));

const servers: BoardServer[] = [];
afterEach(() => {
  for (const server of servers.splice(0)) server.close();
});

async function serve(): Promise<BoardServer> {
  writeFileSync(job, text);
  const server = await serveBoard({ job, page: join(top, 'page.html'), port: 0 });
  servers.push(server);
  return server;
}

interface Answer {
  readonly status: number;
  readonly body: string;
  readonly headers: Readonly<Record<string, unknown>>;
}

interface Asked {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
  readonly host?: string;
}

/** Node's own client, since fetch does not let a Host or an Origin be chosen. */
function ask(
  address: string,
  path: string,
  { method = 'GET', headers = {}, body, host }: Asked = {},
): Promise<Answer> {
  const { hostname, port, pathname } = new URL(address);
  return new Promise((resolve, reject) => {
    const asked = request(
      { hostname: host ?? hostname, port, path: `${pathname}${path}`, method, headers },
      (response) => {
        const chunks: Buffer[] = [];
        response.on('data', (chunk: Buffer) => chunks.push(chunk));
        response.on('end', () =>
          resolve({
            status: response.statusCode ?? 0,
            body: Buffer.concat(chunks).toString(),
            headers: response.headers,
          }),
        );
      },
    );
    asked.on('error', reject);
    asked.end(body);
  });
}

const saving = (body: object): Asked => ({
  method: 'PUT',
  headers: { 'Content-Type': 'application/json' },
  body: JSON.stringify({ name: 'tray.yaml', ...body }),
});

describe('the board’s server', () => {
  test('gives the page, the job and what lies beside it', async () => {
    const { address } = await serve();
    expect((await ask(address, '')).body).toContain('the page');
    expect(JSON.parse((await ask(address, 'job')).body)).toEqual({ name: 'tray.yaml', text });
    expect((await ask(address, 'beside?path=./shop.yaml')).body).toBe('units: in\n');
  });

  test('listens on the loopback address alone', async () => {
    const { address } = await serve();
    expect(new URL(address).hostname).toBe('127.0.0.1');
    const others = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ family, internal }) => family === 'IPv4' && !internal);
    for (const other of others) {
      await expect(ask(address, '', { host: other.address })).rejects.toThrow();
    }
  });

  test('answers nobody who does not know the word in the address; each time another word', async () => {
    const { address } = await serve();
    const { origin, pathname } = new URL(address);
    const again = new URL((await serve()).address);
    expect(again.pathname).not.toBe(pathname);
    expect(pathname.length).toBeGreaterThan(30);
    for (const path of ['/', '/job', `${pathname.slice(0, -2)}/job`, `${again.pathname}job`]) {
      expect((await ask(`${origin}${path}`, '')).status).toBe(404);
    }
  });

  test('refuses another host’s name, another page’s origin, and a browser that says so', async () => {
    const { address } = await serve();
    const { port } = new URL(address);
    expect((await ask(address, 'job', { headers: { Host: `evil.example:${port}` } })).status).toBe(421);
    expect((await ask(address, 'job', { headers: { Host: 'localhost' } })).status).toBe(421);
    expect((await ask(address, 'job', { headers: { Origin: 'https://evil.example' } })).status).toBe(403);
    expect((await ask(address, 'job', { headers: { Origin: 'null' } })).status).toBe(403);
    expect((await ask(address, 'job', { headers: { 'Sec-Fetch-Site': 'cross-site' } })).status).toBe(403);
    const { headers } = await ask(address, 'job', { headers: { Origin: `http://127.0.0.1:${port}` } });
    expect(headers).not.toHaveProperty('access-control-allow-origin');
    expect(headers['x-frame-options']).toBe('DENY');
  });

  test('gives no path outside the job’s folder, by dots, links or a whole path, and no other kind of file', async () => {
    const { address } = await serve();
    const paths = [
      '../secret.yaml',
      'link.yaml',
      join(top, 'secret.yaml'),
      '..%2Fsecret.yaml',
      'notes.txt',
      '.',
      '',
      'none.yaml',
    ];
    for (const path of paths) {
      expect((await ask(address, `beside?path=${encodeURIComponent(path)}`)).status, path).toBe(404);
    }
    expect((await ask(address, 'secret.yaml')).status).toBe(404);
    expect((await ask(address, '../secret.yaml')).status).toBe(404);
  });

  test('writes the job on request, whole, and never over what another program wrote meanwhile', async () => {
    const { address } = await serve();
    const changed = text.replace('Tray', 'Larger tray');
    expect((await ask(address, 'job', saving({ text: changed, before: [text] }))).status).toBe(200);
    expect(readFileSync(job, 'utf8')).toBe(changed);
    const late = await ask(address, 'job', saving({ text: 'title: Other\n', before: [text] }));
    expect(late.status).toBe(409);
    expect(JSON.parse(late.body)).toEqual({ theirs: changed });
    expect(readFileSync(job, 'utf8')).toBe(changed);
    // What was sent and not answered may have come through: it is known to the page, and so is no conflict.
    const known = saving({ text: 'title: Other\n', before: [text, changed] });
    expect((await ask(address, 'job', known)).status).toBe(200);
    expect((await ask(address, 'job', saving({ text: 'title: Other\n', before: [text] }))).status).toBe(200);
    rmSync(job);
    const gone = await ask(address, 'job', saving({ text, before: ['title: Other\n'] }));
    expect([gone.status, JSON.parse(gone.body)]).toEqual([409, {}]);
    expect((await ask(address, 'job', saving({ text, before: [] }))).status).toBe(200);
    expect(readFileSync(job, 'utf8')).toBe(text);
  });

  test('of two saves at once upon the same text one succeeds and the other hears of it, thirty times', async () => {
    const { address } = await serve();
    for (let i = 0; i < 30; i++) {
      writeFileSync(job, text);
      const texts = ['one', 'two'].map((word) => `title: ${word} ${i}\n`);
      const answers = await Promise.all(
        texts.map((each) => ask(address, 'job', saving({ text: each, before: [text] }))),
      );
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
      const winner = texts[answers.findIndex(({ status }) => status === 200)];
      expect(readFileSync(job, 'utf8')).toBe(winner);
      const loser = answers.find(({ status }) => status === 409);
      expect(JSON.parse(loser?.body ?? '')).toEqual({ theirs: winner });
    }
  });

  test('writes another job beside the first, never over a file that is there', async () => {
    const { address } = await serve();
    const box = join(folder, 'box.yaml');
    rmSync(box, { force: true });
    const first = saving({ name: 'box.yaml', text: 'title: Box\n', before: [] });
    expect((await ask(address, 'job', first)).status).toBe(200);
    expect(readFileSync(box, 'utf8')).toBe('title: Box\n');
    expect(readFileSync(job, 'utf8')).toBe(text);
    const other = await ask(address, 'job', saving({ name: 'box.yaml', text: 'title: New\n', before: [] }));
    expect([other.status, JSON.parse(other.body)]).toEqual([409, { theirs: 'title: Box\n' }]);
    expect(readFileSync(box, 'utf8')).toBe('title: Box\n');
  });

  test('writes nothing under a name that leads elsewhere or is no job’s', async () => {
    const { address } = await serve();
    mkdirSync(join(folder, 'folder.yaml'), { recursive: true });
    const names = ['../out.yaml', 'sub/out.yaml', '..', '', '.hidden.yaml', 'notes.txt', 'link.yaml'];
    for (const name of [
      ...names,
      'folder.yaml',
      'a\\b.yaml',
      'c:d.yaml',
      'x\0.yaml',
      join(top, 'out.yaml'),
    ]) {
      const answer = await ask(address, 'job', saving({ name, text: 'title: X\n', before: ['secret: 1'] }));
      expect(answer.status, name).toBe(400);
    }
    expect(readFileSync(join(top, 'secret.yaml'), 'utf8')).toBe('secret: 1');
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('private');
    expect(existsSync(join(top, 'out.yaml'))).toBe(false);
  });

  test('takes nothing else for a saving', async () => {
    const { address } = await serve();
    const bad: readonly Asked[] = [
      { ...saving({ text: 'x', before: [text] }), headers: { 'Content-Type': 'text/plain' } },
      saving({ text: 'x' }),
      { ...saving({}), body: 'no JSON' },
      saving({ text: 'x', before: text }),
      saving({ text: 'x', before: [text, 1] }),
      saving({ name: 1, text: 'x', before: [text] }),
      { ...saving({ text: 'x', before: [text] }), method: 'POST' },
    ];
    for (const one of bad) expect((await ask(address, 'job', one)).status).toBeGreaterThanOrEqual(400);
    expect(readFileSync(job, 'utf8')).toBe(text);
  });
});

describe('halfpin board', () => {
  const command = builtCommand();

  test('prints the address, serves the page that lies beside it, and ends on Ctrl-C', async () => {
    writeFileSync(job, text);
    const child = command.start(['board', job, '--no-open', '--json']);
    const ended = endOf(child);
    const line = await new Promise<string>((resolve) => {
      child.stdout?.once('data', (chunk: Buffer) => resolve(chunk.toString()));
    });
    const { address } = JSON.parse(line) as { address: string };
    expect((await ask(address, '')).body).toContain('<title>halfpin</title>');
    child.kill('SIGINT');
    expect((await ended).status).toBe(0);
  });

  test('says what is wrong with a job that cannot be read', async () => {
    const { status, err } = await command.run(['board', join(folder, 'none.yaml')]);
    expect(status).toBe(2);
    expect(err).toContain('no such file');
    expect((await command.run(['board', '-'])).status).toBe(2);
    expect((await command.run(['board', job, '--port', 'x'])).status).toBe(2);
  });
});
