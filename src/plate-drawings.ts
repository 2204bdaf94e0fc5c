import type { Drawing } from './drawing/model.js';
import { finding, given, type Result, refused } from './findings/finding.js';
import type { Say } from './findings/say.js';
import type { Shop } from './job/types.js';
import { PLATE_CAUTIONS } from './plate-cut/cautions.js';
import { type Cutting, compensated } from './plate-cut/compensated.js';
import { holdingOf } from './plate-cut/holding.js';
import type { Mill } from './template/holes.js';

/** Drawings of plates as their files hold them: nominal, or the path of what cuts them, as the shop asks. */

/** What the shop wants its plates' files to hold, or the size that is missing for it. */
export function cuttingOf({ plate, laser, cnc }: Shop): Result<Cutting> {
  const at = 'shop.plate.cut-for';
  if (plate.cutFor === undefined) return given({ for: 'nominal' });
  if (plate.cutFor === 'laser') {
    return laser?.kerf === undefined
      ? refused([finding('kerf-missing', 'refused', at, {})])
      : given({ for: 'laser', kerf: laser.kerf });
  }
  return cnc?.cutter === undefined
    ? refused([finding('cutter-missing', 'refused', at, {})])
    : given({ for: 'cnc', cutter: cnc.cutter, relief: cnc.relief ?? 'none' });
}

/** What mills the plates of a shop: the end mill whose path they hold, or the one that programs are written for. */
export function millOf(cutting: Cutting, { cnc }: Shop): Mill | undefined {
  if (cutting.for === 'cnc') return { cutter: cutting.cutter, asked: true };
  return cutting.for === 'nominal' && cnc?.cutter !== undefined
    ? { cutter: cnc.cutter, asked: false }
    : undefined;
}

/** A plate's drawing as its files hold it, which its notes say, with the cautions for who cuts it. */
export function plateDrawing(name: string, drawing: Drawing, cutting: Cutting, say: Say): Result<Drawing> {
  const at = cutting.for === 'laser' ? 'shop.laser.kerf' : 'shop.cnc.cutter';
  const made = compensated(drawing, cutting, { name, at });
  if (!made.ok) return made;
  const notes = [holdingOf(cutting, say).note, ...drawing.notes, ...PLATE_CAUTIONS];
  return given({ ...made.value, notes: [...new Set(notes)] }, made.findings);
}
