import { main } from '../../cli/program.js';

/** How a command ended, and what it said. */
export interface Ended {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process: nothing is built or started for it, so that thousands can be tried. */
export async function inProcess(args: readonly string[]): Promise<Ended> {
  const [out, err] = [caught(process.stdout), caught(process.stderr)];
  try {
    const status = await main(args);
    return { status, out: out.text(), err: err.text() };
  } finally {
    out.end();
    err.end();
    // What the command hangs on its process, which it takes for its own.
    process.removeAllListeners('uncaughtException');
    process.stdout.removeAllListeners('error');
    process.stderr.removeAllListeners('error');
  }
}

function caught(stream: NodeJS.WriteStream) {
  const parts: string[] = [];
  const write = stream.write;
  stream.write = ((part: string | Uint8Array) => {
    parts.push(typeof part === 'string' ? part : Buffer.from(part).toString());
    return true;
  }) as typeof stream.write;
  return {
    text: () => parts.join(''),
    end: () => {
      stream.write = write;
    },
  };
}
