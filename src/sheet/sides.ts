import type { Cut } from '../joints/family.js';
import type { FingerTemplate } from '../template/finger-template.js';
import type { Plate, PlateSide } from '../template/plate.js';
import { templateOf } from '../template/side-of.js';

/** The plate, and the working edge of it, under which a cut is made. */
export function sideOf(
  templates: readonly FingerTemplate[],
  cut: Cut,
): { readonly plate: Plate; readonly side: PlateSide } | undefined {
  const found = templateOf(templates, cut);
  return found && { plate: found.template.plate, side: found.side };
}
