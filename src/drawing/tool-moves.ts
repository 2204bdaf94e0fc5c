import type { Point, Segment } from '../geometry/types.js';

/**
 * What a machine's tool does, step by step, before any machine's language: mm, mm per minute, z up from the
 * top of the sheet, x and y from the lower left corner of the blank. Travel is level and cuts nothing; a tool
 * goes up alone, then across, then down.
 */
export type ToolMove =
  /** Straight up to a height over the sheet, not cutting. */
  | { readonly kind: 'lift'; readonly z: number }
  /** Level at the height the tool has, over the sheet, not cutting. */
  | { readonly kind: 'travel'; readonly to: Point }
  /** Straight down, or up within what is cut. */
  | { readonly kind: 'plunge'; readonly z: number; readonly feed: number }
  /** Along a line or arc, from the height that the tool has to `z`, evenly: level, a ramp or part of a helix. */
  | { readonly kind: 'cut'; readonly along: Segment; readonly z: number; readonly feed: number }
  /** A laser's power from here on; 0 is off. */
  | { readonly kind: 'beam'; readonly power: number }
  /** A remark for whoever reads the program. */
  | { readonly kind: 'say'; readonly text: string };

export interface ToolProgram {
  /** What whoever runs it must know: the tool, where zero is, what is compensated, cautions. */
  readonly remarks: readonly string[];
  readonly tool:
    | { readonly kind: 'spindle'; readonly rpm: number; readonly safeHeight: number }
    | { readonly kind: 'beam' };
  /** Size of the smallest sheet that it can be cut from, mm, from the program's zero. */
  readonly blank: { readonly width: number; readonly height: number };
  readonly moves: readonly ToolMove[];
}
