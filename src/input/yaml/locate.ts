import type { Locator, Position } from '../../diagnostics/position.js';

/** The places of a job's keys, in its own file and in the shop file that it names. */
export interface Places {
  readonly job: { readonly name: string; readonly places: ReadonlyMap<string, Position> };
  readonly shop?: { readonly name: string; readonly places: ReadonlyMap<string, Position> };
}

/**
 * Finds the key that a path names. A key that is not in a file is answered with the nearest one above it; a
 * path that ends in `@line:column` with just that place in the file that it belongs to.
 */
export function locator({ job, shop }: Places): Locator {
  return (at) => {
    const exact = /^(.*)@(\d+):(\d+)$/s.exec(at);
    const inShop = shop !== undefined && /^shop[.@]/.test(at);
    const file = inShop ? shop : job;
    if (exact !== null) return { file: file.name, line: Number(exact[2]), column: Number(exact[3]) };
    for (let path = at; path !== ''; path = above(path)) {
      if (inShop && path === 'shop') break;
      const place = file.places.get(path);
      if (place !== undefined) return place;
    }
    return { file: file.name, line: 1, column: 1 };
  };
}

function above(path: string): string {
  const dot = path.lastIndexOf('.');
  return dot < 0 ? '' : path.slice(0, dot);
}
