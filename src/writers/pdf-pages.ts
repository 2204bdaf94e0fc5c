import { linesOf } from '../drawing/drawing.js';
import type { Item, Layer, WriterOptions } from '../drawing/model.js';
import type { Dash, Mark } from '../drawing/tiling-types.js';
import { firstContent, pageContent } from './pdf-content.js';
import { pdfFile } from './pdf-file.js';

/** A page that is composed already, mm from the lower left corner of its paper, x right, y up. */
export interface ComposedPage {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/**
 * PDF 1.7 of pages to be read, not cut: at true size and with lettering in black single strokes, no fonts, no
 * dates, no random ids. For drawings that are spread over pages see `pdfWriter`.
 */
export async function writePages(
  pages: readonly ComposedPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  { colours }: WriterOptions,
): Promise<Uint8Array> {
  return pdfFile(
    pages.map(({ width, height, items }) => {
      const sheet = { width, height, factorX: 1, factorY: 1 };
      const marks = items.flatMap(marksOf);
      return { width, height, contents: [firstContent(sheet, [], colours), pageContent(marks, colours)] };
    }),
    { title, subject },
  );
}

/** Letters are heavier than lines: they are read from further away. */
const letterPen = (height: number): number => Math.max(0.2, height * 0.11);

const pens: Readonly<Record<Layer, number>> = {
  CUT: 0.4,
  SCORE: 0.25,
  ENGRAVE: 0.18,
  REF: 0.15,
  STOCK: 0.3,
};

const dash: Dash = { pattern: [2, 1.2], phase: 0 };

function marksOf(item: Item): readonly Mark[] {
  const lines = linesOf(item).filter((line) => line.segments.length > 0);
  if (item.kind === 'text') {
    return lines.map((line) => ({ line, ink: 'black', pen: letterPen(item.height) }));
  }
  const dashed = item.kind === 'open' && item.dashed === true;
  return lines.map((line) => ({ line, ink: item.layer, pen: pens[item.layer], ...(dashed && { dash }) }));
}
