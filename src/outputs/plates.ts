import { PLATE_CAUTIONS } from '../cam/cautions.js';
import { type CutPath, type Cutting, cutPathOf, withCuts } from '../cam/compensated.js';
import { plateNote } from '../cam/plate-note.js';
import { type Diagnostic, diagnostic, err, ok, type Result } from '../diagnostics/diagnostic.js';
import type { Formatter } from '../diagnostics/formatter.js';
import type { Drawing } from '../drawing/model.js';
import type { Shop } from '../input/types.js';
import type { Mill } from '../template/holes.js';

/** Plates as their files hold them: nominal, or the path of what cuts them, as the shop asks. */

/** A plate that is prepared once, for every file that shows it. Lengths in mm. */
export interface PreparedPlate {
  /** Of its files, without an ending. */
  readonly name: string;
  /** With nominal outlines. */
  readonly nominal: Drawing;
  readonly path: CutPath;
  /** As files hold it: the path in place of the outlines, and notes that say so. */
  readonly filed: Drawing;
}

/** What the shop wants its plates' files to hold, or the size that is missing for it. */
export function cuttingOf({ plate, laser, cnc }: Shop): Result<Cutting> {
  const at = 'shop.plate.cut-for';
  if (plate.cutFor === undefined) return ok({ for: 'nominal' });
  if (plate.cutFor === 'laser') {
    return laser?.kerf === undefined
      ? err([diagnostic('kerf-missing', 'refused', at, {})])
      : ok({ for: 'laser', kerf: laser.kerf });
  }
  return cnc?.cutter === undefined
    ? err([diagnostic('cutter-missing', 'refused', at, {})])
    : ok({ for: 'cnc', cutter: cnc.cutter, relief: cnc.relief ?? 'none' });
}

/** What mills the plates of a shop: the end mill whose path they hold, or the one that programs are written for. */
export function millOf(cutting: Cutting, { cnc }: Shop): Mill | undefined {
  if (cutting.for === 'cnc') return { cutter: cutting.cutter, asked: true };
  return cutting.for === 'nominal' && cnc?.cutter !== undefined
    ? { cutter: cnc.cutter, asked: false }
    : undefined;
}

/** A plate compensated, or the places where the tool is too wide for it. */
export function preparePlate(
  { name, drawing }: { readonly name: string; readonly drawing: Drawing },
  cutting: Cutting,
  fmt: Formatter,
): Result<PreparedPlate> {
  const at = cutting.for === 'laser' ? 'shop.laser.kerf' : 'shop.cnc.cutter';
  const made = cutPathOf(drawing, cutting, { name, at });
  return made.ok ? ok(plateAlong(name, drawing, made.value, cutting, fmt), made.diagnostics) : made;
}

/** A plate whose path is known; its notes say what its files hold, with the cautions for who cuts it. */
export function plateAlong(
  name: string,
  nominal: Drawing,
  path: CutPath,
  cutting: Cutting,
  fmt: Formatter,
): PreparedPlate {
  const notes = [plateNote(cutting, fmt).note, ...nominal.notes, ...PLATE_CAUTIONS];
  const filed = { ...withCuts(nominal, path.path), notes: [...new Set(notes)] };
  return { name, nominal, path, filed };
}

/** Those that can be prepared, and what is said of all. */
export function preparePlates(
  drawings: readonly { readonly name: string; readonly drawing: Drawing }[],
  cutting: Cutting,
  fmt: Formatter,
): { readonly plates: readonly PreparedPlate[]; readonly diagnostics: readonly Diagnostic[] } {
  const all = drawings.map((one) => preparePlate(one, cutting, fmt));
  return {
    plates: all.flatMap((one) => (one.ok ? [one.value] : [])),
    diagnostics: all.flatMap(({ diagnostics }) => diagnostics),
  };
}
