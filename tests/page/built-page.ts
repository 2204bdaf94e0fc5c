import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inject } from 'vitest';

export interface BuiltPage {
  /** The page as one file, built once for all tests. */
  readonly file: string;
  /** A folder of the test's own. */
  readonly folder: string;
  readonly remove: () => void;
}

export function builtPage(): BuiltPage {
  const folder = mkdtempSync(join(tmpdir(), 'halfpin-board-'));
  return {
    file: join(inject('built'), 'board.html'),
    folder,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
