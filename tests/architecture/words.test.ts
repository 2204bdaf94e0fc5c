import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from './imports.js';

/** What must not stand in a file that others clone: places on one machine (not `/home/a`), where packages come from. */
const unwanted: readonly RegExp[] = [
  /(^|[\s"'`(=])\/(work|home|root|Users)\/[\w.-]{2,}/m,
  /[A-Z]:\\Users\\/i,
  /registry\.[a-z0-9-]+\.[a-z]+/i,
  /\b(localhost|127\.0\.0\.1):\d+/,
  /"resolved":\s*"https?:/,
];

const tracked = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((file) => file !== '' && !/\.(png|jpg|pdf|woff2?|3mf|stl|glb)$/.test(file));

test('tracked files name no machine and no package registry', () => {
  expect(tracked.length).toBeGreaterThan(20);
  const found = tracked
    .filter((file) => file !== 'tests/architecture/words.test.ts' && existsSync(join(root, file)))
    .flatMap((file) => {
      const text = readFileSync(join(root, file), 'utf8');
      return unwanted.flatMap((one) => one.exec(text)?.[0] ?? []).map((words) => `${file}: ${words.trim()}`);
    });
  expect(found).toEqual([]);
});

test('the patterns find what they are for', () => {
  const bad = ['see /home/someone/x', 'C:\\Users\\x', '"resolved": "https://a"'];
  for (const text of bad) expect(unwanted.some((one) => one.test(text))).toBe(true);
});
