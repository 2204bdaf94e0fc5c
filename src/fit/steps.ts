import type { Diagnostic } from '../diagnostics/diagnostic.js';

/** One thing to change, mm. Depth: above 0 is deeper. Shift: above 0 sets the fence back. */
export type Step =
  | {
      readonly do: 'depth';
      /** From where the bit stands now. */
      readonly by: number;
      /** Absent where nobody measured how deep it cuts now. */
      readonly from?: number;
      readonly to?: number;
    }
  | { readonly do: 'shift'; readonly by: number }
  | { readonly do: 'board-depth'; readonly board: string; readonly by: number }
  | { readonly do: 'template'; readonly by: number; readonly alone: boolean }
  | {
      readonly do: 'shim';
      readonly board: string;
      readonly by: number;
      /** The stop of the plate, and the corner that showed it; absent where the joint makes no corner. */
      readonly side?: 'left' | 'right';
      readonly corner?: number;
      /** Set where the plate's mirror image is laid on. */
      readonly mirrored?: true;
    }
  | { readonly do: 'size'; readonly size: NewSize }
  /** The next plates' openings are cut so much narrower than these came out. */
  | { readonly do: 'openings'; readonly by: number; readonly measured: boolean }
  /** The next plates are cut larger by this factor. */
  | { readonly do: 'scale'; readonly by: number };

/** A tool's size for the shop file. It takes effect with the next plate. */
export interface NewSize {
  readonly tool: string;
  /** Path below the shop, e.g. `bits`, `half-8`, `diameter`. */
  readonly path: readonly [string, string, string];
  readonly from: number;
  readonly to: number;
  /** false for a size worked out from the trial piece: what the tool cuts like, whatever a caliper says. */
  readonly measured: boolean;
}

/** Some of an advice. */
export interface Part {
  readonly steps: readonly Step[];
  readonly diagnostics: readonly Diagnostic[];
}

export const NOTHING: Part = { steps: [], diagnostics: [] };

export function joined(...parts: readonly Part[]): Part {
  return {
    steps: parts.flatMap(({ steps }) => steps),
    diagnostics: parts.flatMap(({ diagnostics }) => diagnostics),
  };
}
