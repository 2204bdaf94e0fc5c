import { box } from './box/box.js';
import { edge } from './edge/edge.js';
import type { JointFamily } from './family.js';
import { halfBlindDovetail } from './half-blind/half-blind-dovetail.js';
import { throughDovetail } from './through-dovetail/through-dovetail.js';

/** Every joint family, by the word that stands behind `kind:`. Adding a joint is adding a line here. */
export const families: readonly JointFamily[] = [throughDovetail, halfBlindDovetail, box, edge];

export function familyOf(kind: string): JointFamily | undefined {
  return families.find((family) => family.kind === kind);
}
