import type { Colours } from '../../shared/operations.js';
import type { LengthUnit } from '../units/length.js';

/** A job as halfpin works with it: checked once where it enters, lengths in mm, angles in radians. */

export type BitKind = 'dovetail' | 'straight';

export interface Bit {
  readonly name: string;
  readonly kind: BitKind;
  /** Diameter at the tip, where a dovetail bit is widest. */
  readonly diameter: number;
  /** Angle of the cutting edge from the bit's axis; 0 for a straight bit. */
  readonly angle: number;
  /** Cutting height above the tip. */
  readonly height: number;
  readonly shank?: number;
}

export interface Bushing {
  readonly name: string;
  readonly outside: number;
  readonly bore?: number;
  /** How far the barrel reaches below the router's base. */
  readonly barrel?: number;
}

/** The sheet that templates are made of. */
export interface PlateStock {
  readonly material: string;
  readonly thickness: number;
  /** The narrowest finger that this material still holds safely. */
  readonly leastFinger: number;
  readonly sheet?: readonly [number, number];
  /** Left free between plates that are cut out of one sheet. */
  readonly spacing?: number;
  /** Left free along the edges of a sheet. */
  readonly edge?: number;
  /** By how much a seam's key is narrower than its notch, in a plate that comes in parts. */
  readonly keyClearance?: number;
  /** What cuts plates, if their files are to hold its path; nominal outlines when left out. */
  readonly cutFor?: 'laser' | 'cnc';
}

/** A paper size by name (see shared/paper) or of one's own, in mm. */
export type Paper = { readonly name: string } | { readonly width: number; readonly height: number };

export interface Printer {
  readonly paper: Paper;
  /** No ink nearer to the edge of the paper than this. */
  readonly margin: number;
  /** nominal ÷ measured length of the printed scale bar, per axis of the paper as it leaves the printer. */
  readonly scaleX: number;
  readonly scaleY: number;
}

export interface Laser {
  readonly kerf?: number;
  readonly bed?: readonly [number, number];
  /** mm per minute, cutting through. */
  readonly speed?: number;
  /** What the machine's S word takes, cutting through. */
  readonly power?: number;
  readonly scoreSpeed?: number;
  readonly scorePower?: number;
  /** How far beside the line the beam starts; 0 or left out, it starts on the line. */
  readonly leadIn?: number;
}

export interface Cnc {
  readonly cutter?: number;
  readonly bed?: readonly [number, number];
  readonly rpm?: number;
  /** mm per minute. */
  readonly feed?: number;
  readonly plunge?: number;
  readonly pass?: number;
  readonly safeHeight?: number;
  /** How far below the sheet the last pass goes. */
  readonly through?: number;
  /** Steepness of ramps and helices, radians. */
  readonly ramp?: number;
  readonly direction?: 'climb' | 'conventional';
  /** What is done at inside corners that the cutter is too wide for. */
  readonly relief?: 'corner' | 'edge' | 'none';
  /** Bridges left in each contour that hold what it cuts out. */
  readonly tabs?: { readonly count?: number; readonly width?: number; readonly height?: number };
  /** What cuts scores and lettering, by the width of its tip. */
  readonly engraver?: { readonly tip: number; readonly depth?: number };
}

/** How plates are 3D printed. */
export interface Print {
  /** How much wider, in diameter, holes are drawn than they should come out. */
  readonly holeGrowth?: number;
  /** How far the arris at the bed is taken off. */
  readonly ease?: number;
  /** Thickness of a marker. */
  readonly marker?: number;
}

/** What a shop may ask of the formats, for readers that want them otherwise than usual. */
export interface Files {
  readonly svg?: {
    /** Elliptical arc commands, or cubic béziers for readers without arcs. */
    readonly arcs?: 'arcs' | 'beziers';
    /** Width of every line, mm. */
    readonly strokeWidth?: number;
  };
  readonly dxf?: {
    readonly version?: 'r12' | 'r2000' | 'r2007';
    /** One polyline a contour with bulges, loose lines and arcs, or polylines without arcs. */
    readonly entities?: 'polylines' | 'lines-and-arcs' | 'flattened';
  };
  readonly pdf?: {
    /** What neighbouring pages share, mm. */
    readonly overlap?: number;
  };
}

export interface Shop {
  readonly bits: Readonly<Record<string, Bit>>;
  readonly bushings: Readonly<Record<string, Bushing>>;
  readonly plate: PlateStock;
  readonly printer: Printer;
  readonly laser?: Laser;
  readonly cnc?: Cnc;
  readonly print?: Print;
  /** How files are written for the programs that read them; each writer's own usual way where left out. */
  readonly files?: Files;
  readonly colours: Colours;
}

export interface Board {
  readonly thickness: number;
  readonly length?: number;
  readonly material?: string;
}

export type Spacing = 'even' | 'graduated' | 'mirrored' | 'list' | 'varied';

/** What the maker said about the layout; every blank field is solved. Widths are at the baseline. */
export interface LayoutRequest {
  readonly spacing: Spacing;
  /** Number of tails. */
  readonly tails?: number;
  readonly pitch?: number;
  readonly pin?: number;
  readonly endPin?: number;
  readonly leastPin?: number;
  /** Growth from one tail to the next, graduated spacing. */
  readonly ratio?: number;
  readonly seed?: number;
  /** How far widths may stray from even, as a share of it, varied spacing. */
  readonly spread?: number;
  readonly spans?: readonly number[];
  /** Finger width, box joints. */
  readonly finger?: number;
  /** Number of fingers and slots together, box joints. */
  readonly fingers?: number;
  readonly start?: 'one' | 'two';
  readonly groove?: { readonly from: number; readonly width: number };
}

/** A text file that the job names: the path as written there, and what the file holds. */
export interface TextFile {
  readonly path: string;
  readonly text: string;
}

export interface TemplateOptions {
  /** How far fingers run on past the operator's face of the board. */
  readonly nose?: number;
  /** Depth of the plate behind the openings, over the fence. */
  readonly spine?: number;
  /** Plate left and right of the board. */
  readonly margin?: number;
  /** Diameter of the screw holes to the fence; 0 for none. */
  readonly hole?: number;
  /** Both boards' edges on one plate, back to back. */
  readonly plate?: 'one';
  /** Only every second slot; the board is cut twice, moved by one pitch in between. */
  readonly slots?: 'every-second';
  /** How many of each plate are laid on the sheets; 1 when left out. */
  readonly copies?: number;
}

/** The whole clearance of one mating pair, and who says so. */
export interface Fit {
  readonly slack: number;
  readonly from: 'job' | 'default';
}

/** How the marker for marking out by hand is made. */
export interface MarkerOptions {
  /** Width of the pencil's line, mm; 0 for a knife whose flat side runs along the marker. */
  readonly line?: number;
  /** Folded over the arris, of card; or flat, of sheet, with a strip glued under it that hooks on the arris. */
  readonly form?: 'fold' | 'hook';
}

/** What every kind of joint has. A family's own joint type adds its boards and cutters. */
export interface Joint {
  readonly name: string;
  readonly kind: string;
  /** Joint width W: across the board, from the reference edge. */
  readonly width: number;
  readonly layout: LayoutRequest;
  readonly bushing?: Bushing;
  /** The whole clearance wanted in one mating pair. */
  readonly slack: number;
  /** Whether the job says it; else it is the usual one of its kind. The job when left out. */
  readonly slackFrom?: Fit['from'];
  readonly template: TemplateOptions;
  readonly marker?: MarkerOptions;
  /** Name of the joint whose pitch, pins and half-pins this one takes, so that the two line up. */
  readonly align?: string;
}

/** What is made with the joints: a drawer, a box or a case with its finished outside size, mm. */
export interface Piece {
  readonly name: string;
  readonly kind: PieceKind;
  /** Outside, along the boards that carry tails (or board one): a drawer's depth, a box's length, a case's height. */
  readonly sides: number;
  /** Outside, along the boards that carry pins (or board two): the width of any of them. */
  readonly ends: number;
  /** Along the joint: a drawer's or a box's height, a case's depth. */
  readonly across: number;
  /** Name of the joint at the corners, or at the two front corners where `back` is another. */
  readonly corners: string;
  /** Name of the joint at the back corners; of a drawer without one the back stands between the sides. */
  readonly back?: string;
  /** How many of them are made. */
  readonly count: number;
  /** How deep the groove for a bottom goes. */
  readonly grooveDepth?: number;
  /** How much smaller than the room between its grooves a bottom is, each way. */
  readonly bottomClearance: number;
  /** What is sanded off each outside face once the piece is together, and added to its parts before. */
  readonly sanding?: number;
}

export type PieceKind = 'drawer' | 'box' | 'case';

export interface Job {
  readonly title: string;
  readonly units: LengthUnit;
  readonly shop: Shop;
  /** In the order of the file. */
  readonly joints: readonly Joint[];
  /** Drawers, boxes and cases that are made with the joints, in the order of the file. */
  readonly pieces: readonly Piece[];
}
