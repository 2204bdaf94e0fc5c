import { expect, test } from 'vitest';
import { progressOf } from '../../cli/progress.js';

function stream(isTTY: boolean) {
  const written: string[] = [];
  const write = (text: string) => written.push(text) > 0;
  return { written, stream: { isTTY, write } as unknown as NodeJS.WriteStream };
}

test('a long batch is counted on a terminal, and the line is gone at the end', () => {
  const { written, stream: terminal } = stream(true);
  const progress = progressOf(terminal);
  progress.onJoint(3, 8, 'drawer-3');
  progress.end();
  expect(written.join('')).toContain('3 of 8 joints: drawer-3');
  expect(written.at(-1)).toBe('\r\u001b[K');
});

test('nothing is counted for a pipe or for few joints', () => {
  const piped = stream(false);
  const progress = progressOf(piped.stream);
  progress.onJoint(3, 8, 'drawer-3');
  progress.end();
  const few = stream(true);
  progressOf(few.stream).onJoint(1, 2, 'lid');
  expect([...piped.written, ...few.written]).toEqual([]);
});
