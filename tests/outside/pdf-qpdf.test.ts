import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hatched, options, plate, printed } from '../writers/pdf-samples.js';

const atHand = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;

/** qpdf reads the syntax, streams and cross references of the whole file. Left out where it is not installed. */
describe.skipIf(!atHand('qpdf'))('qpdf finds no fault', () => {
  test.each([
    ['one page', plate(150, 110), options({ name: 'a4' })],
    ['map and 30 tiles', hatched(1000, 1150), options({ name: 'a4' }, { scaleX: 1.003 })],
    [
      'a title beyond ASCII',
      { ...plate(60, 60), title: 'Käfer, Größe 3, Ω → ⅛' },
      options({ name: 'letter' }),
    ],
  ] as const)('%s', async (_, drawing, wanted) => {
    const folder = mkdtempSync(join(tmpdir(), 'halfpin-'));
    try {
      const file = join(folder, 'drawing.pdf');
      writeFileSync(file, await printed(drawing, wanted));
      // Exit status 0: neither errors (2) nor warnings (3).
      expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain('No syntax or stream');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
