/** What the readers use of two libraries: one brings no types, the other's would bring in Node's. */

declare module 'dxf-parser' {
  interface Vertex {
    x: number;
    y: number;
    bulge?: number;
  }

  /** The fields of the entities that halfpin reads; which ones are set depends on `type`. */
  interface Entity {
    type: string;
    layer?: string;
    /** Polylines and lines. */
    vertices?: Vertex[];
    /** Polylines: closed. */
    shape?: boolean;
    center?: { x: number; y: number };
    radius?: number;
    /** Radians. */
    startAngle?: number;
    endAngle?: number;
    inPaperSpace?: boolean;
    /** INSERT: the block, where it goes, degrees. */
    name?: string;
    position?: { x: number; y: number };
    rotation?: number;
    xScale?: number;
    yScale?: number;
    columnCount?: number;
    rowCount?: number;
  }

  interface Block {
    entities?: Entity[];
    /** Its base point. */
    position?: { x: number; y: number };
  }

  interface Dxf {
    header: Record<string, unknown>;
    entities: Entity[];
    blocks?: Record<string, Block>;
  }

  export default class DxfParser {
    parseSync(source: string): Dxf | null;
  }
}

declare module 'svg-path-parser' {
  interface PathCommand {
    code: string;
    command: string;
    relative?: boolean;
    x: number;
    y: number;
    x0: number;
    y0: number;
    x1?: number;
    y1?: number;
    x2?: number;
    y2?: number;
    rx?: number;
    ry?: number;
    xAxisRotation?: number;
    largeArc?: boolean;
    sweep?: boolean;
  }

  export function parseSVG(d: string): PathCommand[];
  export function makeAbsolute(commands: PathCommand[]): PathCommand[];
}
