import { contoursOf, drawnExtents, fileDecimals } from '../drawing/contours.js';
import { type Drawing, layers, type Writer, type WriterOptions } from '../drawing/model.js';
import { type ArcStyle, pathData } from '../drawing/path-data.js';
import { dashes, FILE_STROKE } from '../drawing/styles.js';
import { escaped } from '../drawing/xml.js';
import { decimal } from '../units/decimal.js';
import { svgDocument, svgGroup } from './svg-document.js';

export interface SvgOptions extends WriterOptions {
  readonly arcs?: ArcStyle;
  /** Width of the lines, mm; 0.1 when left out. */
  readonly strokeWidth?: number;
}

/**
 * SVG 1.1 for machines: one user unit is 1 mm, the page is as large as what is drawn. One path a contour with its own
 * plain attributes, grouped by layer in groups named as the layers; no transforms, styles, clips or uses.
 */
export const svgWriter = { format: 'svg', extension: 'svg', write: writeSvg } satisfies Writer<SvgOptions>;

function writeSvg(
  drawing: Drawing,
  { colours, arcs = 'arcs', strokeWidth = FILE_STROKE }: SvgOptions,
): string {
  const contours = contoursOf(drawing);
  const width = decimal(strokeWidth, fileDecimals);
  const body = layers.flatMap((name) =>
    svgGroup(
      name,
      contours
        .filter(({ layer }) => layer === name)
        .map(
          ({ line, dashed }) =>
            `<path d="${pathData(line, { digits: fileDecimals, arcs })}" fill="none" ` +
            `stroke="${escaped(colours[name])}" stroke-width="${width}"${dashed ? DASHED : ''}/>`,
        ),
    ),
  );
  return svgDocument(drawing, drawnExtents(drawing), body);
}

const DASHED = ` stroke-dasharray="${dashes.drawing.join(' ')}"`;
