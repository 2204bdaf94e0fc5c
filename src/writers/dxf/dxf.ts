import { drawnExtents } from '../../drawing/contours.js';
import type { Drawing, Writer, WriterOptions } from '../../drawing/model.js';
import { type DxfEntityStyle, dxfEntities } from './entities.js';
import { dxfR12 } from './r12.js';
import { dxfRelease } from './release.js';
import { comments, type DxfContent, dxfText } from './tags.js';

export interface DxfOptions extends WriterOptions {
  /**
   * `r2000` (AC1015, when left out), `r2007` (AC1021: the same with true colours beside the numbered ones), or
   * `r12` (AC1009) for old readers.
   */
  readonly version?: 'r2000' | 'r2007' | 'r12';
  /** One polyline a contour with bulges (when left out), loose lines and arcs, or polylines without arcs. */
  readonly entities?: DxfEntityStyle;
}

/**
 * DXF in millimetres, x and y as in the drawing, in ASCII. Every layer is declared, its colour stands on it and
 * on each of its entities; the title and notes of the drawing are comments at the head. No splines, blocks or
 * font text. Formats: Autodesk's DXF Reference for the release.
 */
export const dxfWriter: Writer<DxfOptions> = { format: 'dxf', extension: 'dxf', write: writeDxf };

function writeDxf(drawing: Drawing, options: DxfOptions): string {
  const content: DxfContent = {
    entities: dxfEntities(drawing, options.entities ?? 'polylines'),
    extents: drawnExtents(drawing),
    colours: options.colours,
  };
  const version = options.version ?? 'r2000';
  const notes = dxfText(comments([drawing.title, ...drawing.notes]));
  return notes + (version === 'r12' ? dxfText(dxfR12(content)) : dxfRelease(content, version));
}
