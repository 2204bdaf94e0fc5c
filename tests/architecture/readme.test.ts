import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readText, root, solveOnly } from '../support/jobs.js';

/** Every command, job and message that the README shows is run here as it stands there. */
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'readme-'));
afterAll(() => rmSync(folder, { recursive: true }));

const blocks = (language: string): readonly string[] =>
  [...readme.matchAll(new RegExp(`\`\`\`${language}\\n(.*?)\`\`\``, 'gs'))].map(([, text]) => text ?? '');

const halfpin = (words: readonly string[], cwd: string) =>
  spawnSync(process.execPath, [join(root, 'dist/halfpin.js'), ...words], { cwd, encoding: 'utf8' });

describe('the README', () => {
  const commands = blocks('sh')
    .flatMap((block) => block.split('\n'))
    .filter((line) => line.startsWith('npx halfpin '))
    .map((line) => line.replace('npx halfpin ', ''));

  it('shows commands', () => expect(commands.length).toBeGreaterThanOrEqual(3));

  // In the README's order: the later ones use what the earlier ones wrote.
  it.each(commands)('halfpin %s', (command) => {
    const { status, stderr } = halfpin(command.split(' '), folder);
    expect(stderr).not.toMatch(/ at .*\.js:\d/);
    expect(status).toBe(0);
  });

  it.each(blocks('yaml'))('shows a job that can be made', (text) => {
    expect(solveOnly(readText(text)).made).toBeDefined();
  });

  it('names the files that make writes', () => {
    const written = readdirSync(join(folder, 'tray/corner'));
    const named = [...readme.matchAll(/^ {4}tray\/tray-corner\/(\S+)\.(\w+)((?: \.\w+)*)$/gm)].flatMap(
      ([, name, first, more]) => [first, ...(more ?? '').split(' .').slice(1)].map((as) => `${name}.${as}`),
    );
    expect([...named].sort()).toEqual([...written].sort());
  });

  it('quotes the message of the job that is refused', () => {
    const [, sample, message] = /<!-- message: (\S+) -->\n```\n(.*?)\n```/s.exec(readme) ?? [];
    const { status, stderr } = halfpin(['check', sample ?? ''], root);
    expect(status).toBe(1);
    expect(stderr).toContain(message);
  });

  it('links to files that are there', () => {
    const links = [...readme.matchAll(/\]\(([^)]+)\)/g)].map(([, link]) => link ?? '');
    for (const link of links.filter((one) => !one.startsWith('http'))) {
      expect(existsSync(join(root, link)), link).toBe(true);
    }
  });
});
