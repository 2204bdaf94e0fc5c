import { type Colours, type Operation, operations } from '../../shared/operations.js';
import type { Outline, Path, Point, Region } from '../geometry/types.js';
import type { StyleName } from './styles.js';

/**
 * What every writer of drawings takes. Millimetres, x right, y up; writers that draw downward turn y over once.
 * Layers are the operations, in the order in which a machine should take them (see cut-order.ts).
 */
export const layers = operations;
export type Layer = Operation;

/** What every item has: what is done to the sheet, and how it looks where that isn't the look of its operation. */
interface ItemBase {
  readonly layer: Layer;
  readonly style?: StyleName;
}

/** A closed outline; on CUT and STOCK nothing else stands. */
export interface ClosedItem extends ItemBase {
  readonly kind: 'closed';
  readonly outline: Outline;
}

export interface OpenItem extends ItemBase {
  readonly kind: 'open';
  readonly path: Path;
  /** Writers that can draw this as dashes; the others draw it whole. */
  readonly dashed?: boolean;
  /** How far into the pattern of the dashes the line starts, mm: a part of a longer line. */
  readonly phase?: number;
}

/** Filled, for pictures: files for machines have its outlines as lines. */
export interface AreaItem extends ItemBase {
  readonly kind: 'area';
  readonly region: Region;
}

/** What words on a page are set in (see lettering/typeface.ts). */
export type Face = 'sans' | 'bold';

/** Lettering in single strokes (see lettering.ts), or words on a page to be read; `height` is that of a capital. */
export interface TextItem extends ItemBase {
  readonly kind: 'text';
  /** What pages that are read set it in; writers of drawings have strokes alone. */
  readonly face?: Face;
  readonly text: string;
  readonly at: Point;
  readonly height: number;
  /** Radians, counter-clockwise from +x. */
  readonly angle: number;
  readonly align: 'start' | 'middle' | 'end';
}

export type Item = ClosedItem | OpenItem | AreaItem | TextItem;

export interface Drawing {
  /** For the file's metadata: `Specimen cabinet: tray-corner, finger template, tails`. */
  readonly title: string;
  /** Sentences for the file's metadata: what compensation it holds, cautions. */
  readonly notes: readonly string[];
  readonly items: readonly Item[];
  /** Where no seam between the pages of a print should stand if another place will do, such as across a finger. */
  readonly keepClear?: KeepClear;
  /** The sheet that all of it is cut from, its lower left corner at the drawing's zero; absent for a plate alone. */
  readonly sheet?: { readonly width: number; readonly height: number };
}

/** Stretches of a drawing's x and y, mm. */
export interface KeepClear {
  readonly x?: readonly Interval[];
  readonly y?: readonly Interval[];
}

export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** What every writer of drawings is told beside them. */
export interface WriterOptions {
  readonly colours: Colours;
}

/**
 * One file format: what it is written from, and what may be asked of it. `write` gives the whole file: text, or bytes.
 * The same input gives the same bytes.
 */
export interface Writer<Options = WriterOptions, Input = Drawing> {
  readonly format: string;
  readonly extension: string;
  readonly write: (input: Input, options: Options) => string | Uint8Array | Promise<string | Uint8Array>;
}
