import { plainText } from '../src/diagnostics/plain-text.js';
import { exit } from './exit.js';

/** Data and results, on standard output. */
export function print(text: string | Uint8Array): void {
  process.stdout.write(text);
}

/** One value as JSON on standard output; on a single line where more values will follow. */
export function printJson(value: unknown, onOneLine = false): void {
  print(`${JSON.stringify(value, null, onOneLine ? 0 : 2)}\n`);
}

/** Messages, on standard error; names and paths that they quote can do nothing to the terminal. */
export function tell(text: string, style?: keyof typeof styles): void {
  const words = shown(text);
  process.stderr.write(`${style === undefined ? words : paint(style, words, process.stderr)}\n`);
}

/** Lines that can only be read, whatever names and paths they quote. */
export function shown(text: string): string {
  return text.split('\n').map(plainText).join('\n');
}

/**
 * A reader that closes early (`| head`) ends the command quietly; output that cannot be written any other
 * way (`> /dev/full`) is said. Neither is a success.
 */
export function watchStandardStreams(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(exit.readerGone);
    tell(`halfpin: cannot write to standard output: ${reasonOf(error)}`);
    process.exit(exit.refused);
  });
  process.stderr.on('error', () => process.exit(exit.readerGone));
}

const styles = { bold: '1', dim: '2', red: '31', yellow: '33', green: '32' } as const;

/** Text with terminal colour where the stream is a terminal and NO_COLOR is not set. */
export function paint(
  style: keyof typeof styles,
  text: string,
  stream: NodeJS.WriteStream = process.stdout,
): string {
  const plain = !stream.isTTY || Boolean(process.env.NO_COLOR) || process.env.TERM === 'dumb';
  return plain ? text : `\u001b[${styles[style]}m${text}\u001b[0m`;
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EACCES: 'you are not allowed to',
  EPERM: 'you are not allowed to',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'the file would be too large for this disk',
  ENOTDIR: 'a part of the path is a file, not a folder',
  EISDIR: 'it is a folder',
  EEXIST: 'it exists already',
  ENAMETOOLONG: 'the name is too long for this disk',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open',
  EBUSY: 'it is in use',
};

/** Why the operating system refused, in words. */
export function reasonOf(error: unknown): string {
  const { code, message, syscall } = error as NodeJS.ErrnoException;
  if (code === 'EEXIST' && syscall === 'mkdir') return `${reasons.ENOTDIR}`;
  return (code !== undefined && reasons[code]) || message || String(error);
}

/** true for an error that the operating system gave, as against a fault in halfpin. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && typeof (error as NodeJS.ErrnoException).syscall === 'string';
}
