import { LAYOUT_ROUNDING } from './rules.js';
import type { Layout } from './types.js';

/** A row that misses its mirror image by less than this (mm) can be turned end for end: a thousand roundings. */
const MIRRORED = 1000 * LAYOUT_ROUNDING;

/** Whether the layout read from the far edge is the same layout, parts and widths. */
export function isMirrorImage(layout: Layout): boolean {
  const { spans, width } = layout;
  return spans.every((span, index) => {
    const mate = spans[spans.length - 1 - index];
    return mate !== undefined && mate.part === span.part && Math.abs(width - mate.to - span.from) < MIRRORED;
  });
}
