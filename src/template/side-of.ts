import type { Cut } from '../joints/family.js';
import type { FingerTemplate } from './finger-template.js';
import type { PlateSide } from './plate.js';

/** The template, and the working edge of it, under which a cut is made. */
export function templateOf(
  templates: readonly FingerTemplate[],
  cut: Cut,
): { readonly template: FingerTemplate; readonly side: PlateSide } | undefined {
  for (const template of templates) {
    const side = template.plate.sides.find((one) => one.cut === cut);
    if (side) return { template, side };
  }
  return undefined;
}
