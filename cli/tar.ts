import type { OutFile } from './output.js';

/**
 * Files as one tar archive (POSIX.1-2017, pax interchange format, ustar headers). Owner and time are zero, so
 * the same files give the same bytes.
 */
export function tarOf(files: readonly OutFile[]): Uint8Array {
  const entries = files.flatMap(({ path, content }) => {
    const bytes = typeof content === 'string' ? Buffer.from(content) : content;
    return fitsInHeader(path)
      ? entry(path, 'file', bytes)
      : [...entry('pax-header', 'pax', paxPath(path)), ...entry('file', 'file', bytes)];
  });
  return Buffer.concat([...entries, Buffer.alloc(2 * block)]);
}

const block = 512;
const types = { file: '0', pax: 'x' } as const;

/** A ustar header has 100 bytes for a name and knows no encoding. */
function fitsInHeader(path: string): boolean {
  return path.length <= 100 && !/[^ -~]/.test(path);
}

function entry(path: string, type: keyof typeof types, bytes: Uint8Array): readonly Uint8Array[] {
  const header = Buffer.alloc(block);
  header.write(path, 0);
  header.write(octal(0o644, 8), 100); // mode
  header.write(octal(0, 8), 108); // user
  header.write(octal(0, 8), 116); // group
  header.write(octal(bytes.length, 12), 124);
  header.write(octal(0, 12), 136); // time
  header.write(types[type], 156);
  header.write('ustar\u000000', 257);
  header.fill(' ', 148, 156); // the checksum counts as spaces while it is worked out
  const sum = header.reduce((total, byte) => total + byte, 0);
  header.write(`${sum.toString(8).padStart(6, '0')}\u0000 `, 148);
  return [header, bytes, Buffer.alloc((block - (bytes.length % block)) % block)];
}

function octal(value: number, width: number): string {
  return `${value.toString(8).padStart(width - 1, '0')}\u0000`;
}

/** `25 path=...\n`, where the number counts the whole record, itself included. */
function paxPath(path: string): Uint8Array {
  const rest = Buffer.byteLength(` path=${path}\n`);
  let length = rest;
  while (length !== rest + String(length).length) length = rest + String(length).length;
  return Buffer.from(`${length} path=${path}\n`);
}
