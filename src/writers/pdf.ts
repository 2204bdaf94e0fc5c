import { PDFContext, PDFHexString, PDFWriter } from '@cantoo/pdf-lib';
import { type PaperChoice, paperSize } from '../../shared/paper.js';
import type { Drawing, Writer, WriterOptions } from '../drawing/model.js';
import { tileDrawing } from '../drawing/tiling.js';
import type { PrintOptions } from '../drawing/tiling-types.js';
import { firstContent, pageContent, points } from './pdf-content.js';

export interface PdfOptions extends WriterOptions, PrintOptions {
  readonly paper: PaperChoice;
}

/**
 * PDF 1.7 at true size, on as many pages as it takes (see `tileDrawing`), asking for print at 100 %. Only lines:
 * no fonts, as lettering is single strokes. No dates, no random ids. The paper must be known and have room
 * (see `judgePaper`); throws if not.
 */
export const pdfWriter: Writer<PdfOptions> = { format: 'pdf', extension: 'pdf', write: writePdf };

/** Objects are written without letting other work in between. */
const WITHOUT_PAUSE = Number.MAX_SAFE_INTEGER;

async function writePdf(drawing: Drawing, options: PdfOptions): Promise<Uint8Array> {
  const size = paperSize(options.paper);
  if (!size)
    throw new Error(`paper without a size: ${JSON.stringify(options.paper)}; judgePaper comes first`);
  const { frame, onEveryPage, pages } = tileDrawing(drawing, size, options);
  const file = PDFContext.create();
  const tree = file.nextRef();
  const content = (text: string) => file.register(file.stream(text));
  const first = content(firstContent(frame, onEveryPage, options.colours));
  const kids = pages.map((page) =>
    file.register(
      file.obj({
        Type: 'Page',
        Parent: tree,
        MediaBox: [0, 0, points(frame.width), points(frame.height)],
        Resources: {},
        Contents: [first, content(pageContent(page.marks, options.colours))],
      }),
    ),
  );
  file.assign(tree, file.obj({ Type: 'Pages', Kids: kids, Count: kids.length }));
  file.trailerInfo.Root = file.register(
    file.obj({
      Type: 'Catalog',
      Pages: tree,
      // ISO 32000-1, Table 150: presets the print dialogue only, hence the printed instruction.
      ViewerPreferences: { PrintScaling: 'None', DisplayDocTitle: true },
    }),
  );
  file.trailerInfo.Info = file.register(
    file.obj({
      Title: PDFHexString.fromText(drawing.title),
      Subject: PDFHexString.fromText(drawing.notes.join(' ')),
      Producer: PDFHexString.fromText('halfpin'),
    }),
  );
  return PDFWriter.forContext(file, WITHOUT_PAUSE).serializeToBuffer();
}
