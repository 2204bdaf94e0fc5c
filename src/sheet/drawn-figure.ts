import type { Item } from '../drawing/model.js';
import type { Extents } from '../geometry/types.js';
import type { Figure } from './document.js';
import { boxOf } from './items.js';

interface Drawn {
  readonly items: readonly Item[];
  readonly box: Extents;
}

/** A figure is tried at many scales, for each density of the page and for the screen: it is drawn once at each. */
export function drawnAt(draw: Figure['draw'], scale: number): Drawn {
  const scales = drawnFigures.get(draw) ?? new Map<number, Drawn>();
  const known = scales.get(scale);
  if (known) return known;
  const items = draw(scale);
  const drawn = { items, box: boxOf(items) };
  drawnFigures.set(draw, scales.set(scale, drawn));
  return drawn;
}

const drawnFigures = new WeakMap<Figure['draw'], Map<number, Drawn>>();
