import type { Diagnostic } from '../diagnostics/diagnostic.js';
import type { Product } from './ask.js';

/** A file to be written: its path below the output folder, with forward slashes, and all of its content. */
export interface MadeFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** A file that can be made. */
export interface Artifact {
  /** Below the output folder, with forward slashes. */
  readonly path: string;
  /** What it shows; `report` and `index` come with the others. */
  readonly product: Product | 'report' | 'index';
  /** The joint that it belongs to; absent where it belongs to all of them. */
  readonly joint?: string;
  /** What is to be said about this file alone. */
  readonly diagnostics: readonly Diagnostic[];
  /** All of its content; worked out once, however often it is asked for. */
  readonly render: () => Promise<MadeFile['content']>;
}

/** What there is of a product, and all that is to be said of it: of its artifacts, and of what can't be made. */
export interface Outputs {
  readonly artifacts: readonly Artifact[];
  readonly diagnostics: readonly Diagnostic[];
}

export function together(all: readonly Outputs[]): Outputs {
  return {
    artifacts: all.flatMap(({ artifacts }) => artifacts),
    diagnostics: all.flatMap(({ diagnostics }) => diagnostics),
  };
}

/** The same value every time, worked out when it is first asked for. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** What a file belongs to. */
export interface Owner extends Pick<Artifact, 'product' | 'joint'> {
  /** Where it lies below the output folder: empty, or `NAME/`. */
  readonly folder: string;
}

export const ownerOf = (product: Artifact['product'], joint: string): Owner => ({
  product,
  joint,
  folder: `${joint}/`,
});

/** An artifact whose content is worked out when it is first asked for. */
export function artifact(
  { folder, ...of }: Owner,
  name: string,
  content: () => MadeFile['content'] | Promise<MadeFile['content']>,
  diagnostics: readonly Diagnostic[] = [],
): Artifact {
  return { ...of, path: `${folder}${name}`, diagnostics, render: once(async () => content()) };
}

export const outputs = (
  artifacts: readonly Artifact[],
  diagnostics: readonly Diagnostic[] = [],
): Outputs => ({
  artifacts,
  diagnostics,
});
