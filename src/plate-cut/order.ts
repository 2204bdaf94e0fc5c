import type { Item, Layer } from '../drawing/model.js';
import { nested } from '../geometry/nesting.js';

/**
 * The order in which a machine should take the items of a drawing, so that nothing is worked on after it has
 * come loose: lettering, scored lines, then what is cut through from the inside outward: a hole before the
 * part around it, and what lies in a hole before the hole. Items of one rank keep their order.
 */
export function inCutOrder(items: readonly Item[]): readonly Item[] {
  const cut = items.flatMap((item) => (item.kind === 'closed' && item.layer === 'CUT' ? [item] : []));
  const depths = nested(cut.map(({ outline }) => outline)).map(({ depth }) => depth);
  const inward = cut
    .map((item, i) => ({ item, depth: depths[i] ?? 0 }))
    .sort((a, b) => b.depth - a.depth)
    .map(({ item }) => item);
  const on = (layer: Layer): readonly Item[] => items.filter((item) => item.layer === layer);
  const others = on('CUT').filter((item) => item.kind !== 'closed');
  return [...on('ENGRAVE'), ...on('SCORE'), ...others, ...inward, ...on('REF'), ...on('STOCK')];
}
