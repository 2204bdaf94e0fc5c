/** Bundles the long run into one file. */
export function bundleSoak(outfile: string): Promise<unknown>;
