import { type Diagnostic, diagnostic } from '../diagnostics/diagnostic.js';
import { MAX_HOLE } from '../input/limits.js';
import type { Joint } from '../input/types.js';

/** How wide the round holes of a plate are: for the screws to its fence, and for the pins beside a seam. */

/** Diameter of a screw hole, mm; common practice, no source. */
const SCREW_HOLE = 5;

/** What mills the plates, mm. */
export interface Mill {
  readonly cutter: number;
  /** true where the plates' files hold its path; else they may be cut by other means as well. */
  readonly asked: boolean;
}

export interface Holes {
  /** Diameter of the screw holes, mm; 0 for none. */
  readonly screw: number;
  /** Diameter of what pins go through, mm. */
  readonly pin: number;
}

/** As asked for, or wide enough for a screw and for the end mill that makes them. */
export function holesOf({ template }: Joint, mill: Mill | undefined): Holes {
  const cutter = mill?.cutter ?? 0;
  const usual = cutter <= MAX_HOLE ? Math.max(SCREW_HOLE, cutter) : SCREW_HOLE;
  const screw = template.hole ?? usual;
  return { screw, pin: screw > 0 ? screw : usual };
}

/** Holes that the end mill cannot make, and that it has made wider than a screw wants. */
export function holeDiagnostics(joint: Joint, mill: Mill | undefined): readonly Diagnostic[] {
  if (!mill) return [];
  const { cutter, asked } = mill;
  const { screw } = holesOf(joint, mill);
  const at = `joints.${joint.name}.template`;
  const none = cutter > MAX_HOLE;
  if (asked && screw > 0 && screw < cutter - 1e-9) {
    return [diagnostic('hole-under-mill', 'refused', `${at}.hole`, { hole: screw, cutter, none })];
  }
  if (joint.template.hole !== undefined || screw <= SCREW_HOLE) return [];
  return [diagnostic('holes-for-mill', 'ok', at, { hole: screw, usual: SCREW_HOLE, cutter })];
}
