import type { Cut } from '../joints/family.js';
import type { FingerTemplate } from '../template/finger-template.js';
import type { Plate, PlateSide } from '../template/plate.js';

/** The plate, and the working edge of it, under which a cut is made. */
export function sideOf(
  templates: readonly FingerTemplate[],
  cut: Cut,
): { readonly plate: Plate; readonly side: PlateSide } | undefined {
  for (const { plate } of templates) {
    const side = plate.sides.find((one) => one.cut === cut);
    if (side) return { plate, side };
  }
  return undefined;
}
