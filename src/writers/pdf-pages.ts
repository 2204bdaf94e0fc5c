import { PDFContext, PDFHexString, PDFWriter } from '@cantoo/pdf-lib';
import { linesOf } from '../drawing/drawing.js';
import type { Item, Layer, WriterOptions } from '../drawing/model.js';
import type { Dash, Mark } from '../drawing/tiling-types.js';
import { firstContent, pageContent, points } from './pdf-content.js';

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
  const file = PDFContext.create();
  const tree = file.nextRef();
  const kids = pages.map(({ width, height, items }) => {
    const sheet = { width, height, factorX: 1, factorY: 1 };
    const marks = items.flatMap(marksOf);
    return file.register(
      file.obj({
        Type: 'Page',
        Parent: tree,
        MediaBox: [0, 0, points(width), points(height)],
        Resources: {},
        Contents: [
          file.register(file.stream(firstContent(sheet, [], colours))),
          file.register(file.stream(pageContent(marks, colours))),
        ],
      }),
    );
  });
  file.assign(tree, file.obj({ Type: 'Pages', Kids: kids, Count: kids.length }));
  file.trailerInfo.Root = file.register(
    file.obj({
      Type: 'Catalog',
      Pages: tree,
      ViewerPreferences: { PrintScaling: 'None', DisplayDocTitle: true },
    }),
  );
  file.trailerInfo.Info = file.register(
    file.obj({
      Title: PDFHexString.fromText(title),
      Subject: PDFHexString.fromText(subject),
      Producer: PDFHexString.fromText('halfpin'),
    }),
  );
  return PDFWriter.forContext(file, Number.MAX_SAFE_INTEGER).serializeToBuffer();
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
