import { nested } from '../geometry/regions/nesting.js';
import type { Outline, Path } from '../geometry/types.js';
import { type Layer, layers } from './model.js';

/**
 * The order in which a machine should take the lines of a drawing, since many work from the top of the file down and
 * nothing may be worked on after it has come loose: lettering, scored lines, then what is cut through from the inside
 * outward: a hole before the part around it, and what lies in a hole before the hole. REF and STOCK, which no
 * machine should do at all, come after everything that it should: whoever forgets to switch them off has a finished
 * part by then, and not a line across it. Lines of one rank keep their order.
 */
export function inCutOrder<T extends { readonly layer: Layer; readonly line: Outline | Path }>(
  lines: readonly T[],
): readonly T[] {
  return layers.flatMap((layer) => {
    const own = lines.filter((one) => one.layer === layer);
    return layer === 'CUT' ? inward(own) : own;
  });
}

function inward<T extends { readonly line: Outline | Path }>(lines: readonly T[]): readonly T[] {
  const outlines = lines.flatMap(({ line }) => (line.closed ? [line] : []));
  const depths = nested(outlines).map(({ depth }) => depth);
  const ranked = lines.filter(({ line }) => line.closed).map((one, i) => ({ one, depth: depths[i] ?? 0 }));
  return [
    ...lines.filter(({ line }) => !line.closed),
    ...ranked.sort((a, b) => b.depth - a.depth).map(({ one }) => one),
  ];
}
