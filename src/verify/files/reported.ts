import type { Assembly, Lip, WantedWaste } from '../../joints/contract.js';
import type { LaidSpan } from '../cut/unreached.js';

export type { Assembly, Lip, Placed, Placement, Uncut } from '../../joints/contract.js';

/** What the test cut reads: a joint's report, and its templates as they were written. */

/** What the test cut takes from report.json: millimetres and degrees. */
export interface ReportedJoint {
  readonly joint: string;
  readonly kind: string;
  readonly width: number;
  /** How the boards come together; left out of a joint that has no test cut. */
  readonly assembly?: Assembly;
  /** Left out for files that hold the plate itself. */
  readonly holds?: { readonly width: number };
  readonly layout?: readonly LaidSpan[];
  /** Of each board, mm. */
  readonly thickness?: Readonly<Record<string, number>>;
  readonly lip?: Lip;
  /** What the joint wants away from each board, where a test cut looks for it. */
  readonly wanted?: Readonly<Record<string, WantedWaste>>;
  readonly plate?: { readonly leastFinger: number; readonly thickness?: number };
  readonly cuts: readonly {
    readonly board: string;
    /** Name of the template's files, without their extension. */
    readonly template: string;
    /** The files that a long template was written as instead: a point (x, y) of each is the template's (x + shift, y). */
    readonly parts?: readonly { readonly template: string; readonly shift: number }[];
    readonly bit: { readonly diameter: number; readonly angle?: number; readonly height?: number };
    readonly bushing: number;
    readonly depth: number;
    /** Least thickness of the backing behind a board on end. */
    readonly backing?: number;
    /** A point (x′, y′) of this cut is drawn at (x − x′, y − y′) in the file; left out where it is drawn as it is. */
    readonly placed?: { readonly x: number; readonly y: number };
    /** x of the board's reference edge at each stop; left out where 0 is the only one. */
    readonly stops?: readonly number[];
    /** From and to, along x, of an opening that is used at the first stop only. */
    readonly leaveOut?: readonly [number, number];
    /** Rectangles of the boards under the template. */
    readonly boards: readonly {
      readonly board: string;
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
      /** Of a board that lies flat and is cut right through; otherwise the rectangle's height. */
      readonly thickness?: number;
    }[];
  }[];
}

/** A written template: `finger-template-tails.dxf` and its text. */
export interface WrittenFile {
  readonly name: string;
  readonly text: string;
}
