/** Where something stands in a file that was read; lines and columns are counted from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** Finds the key that a finding's `at` names, or the nearest key above it that is in a file. */
export type Locator = (at: string) => Place | undefined;
