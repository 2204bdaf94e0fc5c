import type { Manifold, ManifoldToplevel } from 'manifold-3d';

/** The library of solids, read when a solid is asked for: half a megabyte that nothing else needs. */
export type Kernel = ManifoldToplevel;

/** A solid of the library's own. It lives outside of the script's memory: see `atBench`. */
export type SolidBody = Manifold;

/** What solids are made with: the library, and `keep`, by which a body is thrown away when the work is done. */
export interface Keeper {
  readonly kernel: Kernel;
  readonly keep: (body: SolidBody) => SolidBody;
}

/** Does the work at a bench, and frees every body that was kept there. What it gives must be plain data. */
export async function atBench<T>(work: (bench: Keeper) => T): Promise<T> {
  const kernel = await loadKernel();
  const bodies: SolidBody[] = [];
  try {
    return work({
      kernel,
      keep: (body) => {
        bodies.push(body);
        return body;
      },
    });
  } finally {
    for (const body of bodies) body.delete();
  }
}

async function loadKernel(): Promise<Kernel> {
  const { default: start } = await import('manifold-3d');
  const kernel = await start();
  kernel.setup();
  return kernel;
}
