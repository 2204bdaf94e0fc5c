import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Command, InvalidArgumentError } from 'commander';
import { type ExitCode, exit, type Finish } from '../exit.js';
import { readTextFile } from '../input.js';
import { isSystemError, print, reasonOf, tell } from '../terminal.js';

interface Options {
  readonly port: number;
  readonly open: boolean;
  readonly json?: boolean;
}

export function addBoard(program: Command, finish: Finish): void {
  program
    .command('board')
    .summary('open a job on the drawing board, in a browser')
    .description(
      'Open the drawing-board page with a job: see the joint while you shape it. It is served to this computer only,\n' +
        'at an address with a secret word in it, until you press Ctrl-C. The job file is written when you ask the page to save.',
    )
    .argument('<job>', 'job file')
    .option('--port <number>', 'port on the loopback address; any that is free when left out', portOf, 0)
    .option('--no-open', 'only print the address')
    .option('--json', 'print the address as JSON')
    .addHelpText('after', '\nExample:\n  $ halfpin board tray.yaml')
    .action(async (job: string, options: Options) => finish(await board(job, options)));
}

async function board(job: string, { port, open, json }: Options): Promise<ExitCode> {
  if (job === '-') {
    tell('halfpin: the board saves the job back, so it needs a file and not standard input');
    return exit.misuse;
  }
  const read = readTextFile(job);
  if (!read.ok) {
    tell(`${job}: cannot read it: ${read.problem}`);
    return exit.misuse;
  }
  const page = fileURLToPath(new URL('./board.html', pageFolder()));
  if (!existsSync(page)) {
    tell(`halfpin: the page is not built (${page} is missing); npm run build makes it`);
    return exit.fault;
  }
  const { serveBoard } = await import('../serve.js');
  try {
    const server = await serveBoard({ job, page, port });
    print(json ? `${JSON.stringify({ address: server.address })}\n` : `${server.address}\n`);
    tell('Ctrl-C ends it; the job file is written only when you save.');
    if (open) openInBrowser(server.address);
    await untilEnded();
    server.close();
    return exit.done;
  } catch (error) {
    if (!isSystemError(error)) throw error;
    tell(`halfpin: cannot serve the board: ${reasonOf(error)}`);
    return exit.refused;
  }
}

/** The command is built into dist/, in one file or in parts one folder down; the page lies in dist/ itself. */
function pageFolder(): URL {
  const here = new URL('.', import.meta.url);
  return here.pathname.endsWith('/command/') ? new URL('..', here) : here;
}

function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new InvalidArgumentError('It takes a whole number from 0 to 65535.');
}

/** Each system's own way to open an address; where there is none, the address was printed. */
function openInBrowser(address: string): void {
  const [program, ...args] = openers[process.platform] ?? ['xdg-open'];
  const child = spawn(program ?? '', [...args, address], { stdio: 'ignore', detached: true });
  child.on('error', () => tell('Open the address above in a browser.'));
  child.unref();
}

const openers: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  darwin: ['open'],
  win32: ['cmd', '/c', 'start', ''],
};

function untilEnded(): Promise<void> {
  return new Promise((done) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => done());
  });
}
