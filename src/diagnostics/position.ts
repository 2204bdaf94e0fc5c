/** Where something stands in a file that was read; lines and columns are counted from 1. */
export interface Position {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** Finds the key that a diagnostic's `at` names, or the nearest key above it that is in a file. */
export type Locator = (at: string) => Position | undefined;
