import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { area, areaOfRegion, extents, rectangle } from '../geometry/outline.js';
import { difference, intersection } from '../geometry/regions/boolean.js';
import type { Extents } from '../geometry/types.js';
import type { TemplateOptions } from '../input/types.js';
import type { Cut } from '../joints/family.js';
import { overhang } from '../joints/nose.js';

/**
 * A bit that is wider than its bushing reaches under the plate. Where the bushing runs along the plate from outside, at
 * the fingers' tips or past an arm, a plate that ends too near the board lets the bit into wood that is to stay.
 */
export function besideWood(
  frame: Extents,
  cut: Cut,
  options: TemplateOptions,
  at: string,
): readonly Diagnostic[] {
  const reach = overhang(cut.bit, cut.bushing);
  if (reach <= 0) return [];
  const boards = cut.stock.map(({ outline }) => outline);
  const box = extents(...boards);
  const [left, right, near] = [frame.minX + reach, frame.maxX - reach, frame.minY + reach];
  const besides = [
    { key: 'nose', strip: rectangle(box.minX - 1, box.minY - 1, box.maxX + 1, near) },
    { key: 'margin', strip: rectangle(box.minX - 1, box.minY - 1, left, box.maxY + 1) },
    { key: 'margin', strip: rectangle(right, box.minY - 1, box.maxX + 1, box.maxY + 1) },
  ] as const;
  const reached = besides.filter(({ strip }) => area(strip) > 0);
  if (reached.length === 0) return [];
  const kept = difference(boards, cut.waste);
  return reached.flatMap(({ key, strip }) => {
    const asked = options[key];
    const cutAway = intersection(kept, [strip]);
    if (areaOfRegion(cutAway) <= SCRAP) return [];
    const reached = extents(...cutAway);
    const by = key === 'nose' ? near - reached.minY : Math.max(left - reached.minX, reached.maxX - right);
    const where = asked === undefined ? at : `${at}.template.${key}`;
    const least = (asked ?? 0) + by;
    return [
      diagnostic('plate-beside-wood', 'refused', where, {
        key,
        by,
        bit: cut.bit.name,
        bushing: cut.bushing.name,
        least,
      }),
    ];
  });
}

/** A scrap of wood smaller than this is what decimals leave, mm². */
const SCRAP = 0.01;
