import { type PaperChoice, paperSize } from '../../../shared/paper.js';
import { lettersSet } from '../../drawing/lettering/lettering.js';
import type { Drawing, Item, Writer, WriterOptions } from '../../drawing/model.js';
import { type Medium, styleOf } from '../../drawing/styles.js';
import { tileDrawing } from '../../drawing/tiling/tiling.js';
import type { PrintOptions } from '../../drawing/tiling/types.js';
import { firstContent, type PageMark, pageContent } from './content.js';
import { pdfFile } from './file.js';
import { letterForms } from './letters.js';
import { lineMarks } from './marks.js';

export interface PdfOptions extends WriterOptions, PrintOptions {
  readonly paper: PaperChoice;
}

/**
 * PDF 1.7 at true size, on as many pages as it takes (see `tileDrawing`), asking for print at 100 %. Only lines:
 * no fonts, as lettering is single strokes. No dates, no random ids. The paper must be known and have room
 * (see `judgePaper`); throws if not.
 */
export const pdfWriter: Writer<PdfOptions> = { format: 'pdf', extension: 'pdf', write: writePdf };

async function writePdf(drawing: Drawing, options: PdfOptions): Promise<Uint8Array> {
  const size = paperSize(options.paper);
  if (!size)
    throw new Error(`paper without a size: ${JSON.stringify(options.paper)}; judgePaper comes first`);
  const { frame, onEveryPage, pages } = tileDrawing(drawing, size, options);
  const { width, height } = frame;
  const letters = letterForms();
  const marksOf = (items: readonly Item[], medium: Medium): readonly PageMark[] =>
    items.flatMap((item): readonly PageMark[] => {
      if (item.kind !== 'text') return lineMarks(item, medium, options.colours);
      const { colour, width: pen } = styleOf(item.style ?? item.layer, medium, options.colours);
      return lettersSet(item).map((letter) => letters.set(letter, colour, pen));
    });
  const first = firstContent(frame, marksOf(onEveryPage, 'print'));
  const drawn = pages.map(({ kind, items }) => pageContent(marksOf(items, kind === 'map' ? 'map' : 'print')));
  return pdfFile(
    drawn.map((content) => ({ width, height, contents: [first, content] })),
    { title: drawing.title, subject: drawing.notes.join(' ') },
    { forms: letters.forms() },
  );
}
