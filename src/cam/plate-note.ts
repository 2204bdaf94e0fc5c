import type { Formatter } from '../diagnostics/formatter.js';
import type { Cutting } from './compensated.js';

/** What a plate's file holds, in words: short for the label on the plate, whole for the file's metadata. */
export interface PlateNote {
  readonly label: string;
  readonly note: string;
}

export function plateNote(cutting: Cutting, fmt: Formatter): PlateNote {
  switch (cutting.for) {
    case 'nominal':
      return {
        label: 'nominal outline: no kerf, no cutter',
        note: 'Nominal outline in mm: the kerf or cutter that makes the plate is not compensated.',
      };
    case 'laser':
      return {
        label: `outline for a laser kerf of ${fmt.length(cutting.kerf)}`,
        note: `Outlines in mm for a laser with a kerf of ${fmt.length(cutting.kerf)}: they are the path of the middle of its beam, half a kerf outside of the plate and inside of its holes. Do not compensate them again.`,
      };
    case 'cnc':
      return {
        label: `outline for an end mill of ${fmt.length(cutting.cutter)}`,
        note: `Outlines in mm for an end mill of ${fmt.length(cutting.cutter)}: they are the path of its middle, half its diameter outside of the plate and inside of its holes. Do not compensate them again.`,
      };
  }
}

/** What a file for a 3D printer holds. */
export function printNote(
  { holeGrowth = 0, ease = 0 }: { holeGrowth?: number; ease?: number },
  fmt: Formatter,
  grooves: { readonly width: number; readonly depth: number },
): string {
  const holes = holeGrowth > 0 ? `holes are ${fmt.length(holeGrowth)} wider` : 'holes are as drawn';
  const foot = ease > 0 ? `, the arris on the print bed is taken off by ${fmt.length(ease)}` : '';
  return `Nominal outline in mm for a 3D printer: ${holes}${foot}. Scores are grooves ${fmt.length(grooves.width)} wide and ${fmt.length(grooves.depth)} deep; lettering is left out.`;
}
