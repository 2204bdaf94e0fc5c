import type { PaperChoice } from '../../../shared/paper.js';
import type { Extents, Point } from '../../geometry/types.js';
import type { Drawing, Item } from '../model.js';

/** Pages of a drawing at true size. Millimetres on the printed paper, x right, y up. */

/** How a drawing is put on paper. */
export interface PrintOptions {
  /** No ink nearer to the edge of the paper than this, mm. */
  readonly margin: number;
  /** What neighbouring pages share, mm; 10 when left out. */
  readonly overlap?: number;
  /** nominal ÷ measured length of a printed scale bar along the short (x) and the long (y) edge of the paper. */
  readonly scaleX: number;
  readonly scaleY: number;
}

/** The same, and the paper itself. */
export interface PaperOptions extends PrintOptions {
  readonly paper: PaperChoice;
}

/** mm that neighbouring pages share when nobody says otherwise. */
export const defaultOverlap = 10;

export interface ScaleBar {
  /** Between the outer edges of the end ticks, mm. */
  readonly length: number;
  /** Where it starts on the page. */
  readonly at: Point;
}

/**
 * A sheet of paper as it is read, with its room. Places are in mm from the page's lower left corner as they
 * shall come out on paper; the file holds them scaled about the page's middle by the factors.
 */
export interface Frame {
  /** true when the long edge lies along x. */
  readonly turned: boolean;
  readonly width: number;
  readonly height: number;
  /** Printer factors of the page's own x and y: on a turned page x runs along the paper's long edge. */
  readonly factorX: number;
  readonly factorY: number;
  /** Where ink may lie. */
  readonly usable: Extents;
  /** Where the drawing may lie: what title, instructions and scale bars leave. */
  readonly area: Extents;
  /** Along the page's x and y; absent where the page is too short for any. */
  readonly barX?: ScaleBar;
  readonly barY?: ScaleBar;
  /** What is written below the drawing, in lines that fit. */
  readonly titleLines: readonly string[];
  readonly instructionLines: readonly string[];
}

/** A page as a scene: what it has besides what is on every page. */
export interface Page {
  readonly kind: 'map' | 'tile';
  readonly items: readonly Item[];
}

/** One part of the drawing and the page that it is on. Rows and columns count from 1 at the top left. */
export interface Tile extends Page {
  readonly kind: 'tile';
  readonly row: number;
  readonly column: number;
  /** From seam to seam, in the drawing's coordinates. */
  readonly cell: Extents;
  /** What of the drawing is shown. */
  readonly shown: Extents;
  /** Page = drawing + offset. */
  readonly offset: Point;
  /** Crosses that at least one neighbour has too, in the drawing's coordinates. */
  readonly crosses: readonly Point[];
}

export interface TiledPages extends Pick<Drawing, 'title' | 'notes'> {
  readonly frame: Frame;
  /** Of the drawing. */
  readonly extents: Extents;
  readonly rows: number;
  readonly columns: number;
  /** Tiles that hold something of the drawing, row by row. */
  readonly tiles: readonly Tile[];
  /** Scale bars, title and instructions. */
  readonly onEveryPage: readonly Item[];
  /** In the order of printing: the map first when there is more than one tile. */
  readonly pages: readonly Page[];
}
