import { lettersSet } from '../../drawing/lettering/lettering.js';
import type { Item, Writer, WriterOptions } from '../../drawing/model.js';
import { type Medium, styleOf } from '../../drawing/styles.js';
import type { TiledPages } from '../../drawing/tiling/types.js';
import { firstContent, type PageMark, pageContent } from './content.js';
import { pdfFile } from './file.js';
import { letterForms } from './letters.js';
import { lineMarks } from './marks.js';

/**
 * PDF 1.7 of a drawing's pages at true size, asking for print at 100 %. Only lines: no fonts, as lettering is single
 * strokes. No dates, no random ids.
 */
export const pdfWriter = { format: 'pdf', extension: 'pdf', write: writePdf } satisfies Writer<
  WriterOptions,
  TiledPages
>;

async function writePdf(
  { title, notes, frame, onEveryPage, pages }: TiledPages,
  { colours }: WriterOptions,
): Promise<Uint8Array> {
  const { width, height } = frame;
  const letters = letterForms();
  const marksOf = (items: readonly Item[], medium: Medium): readonly PageMark[] =>
    items.flatMap((item): readonly PageMark[] => {
      if (item.kind !== 'text') return lineMarks(item, medium, colours);
      const { colour, width: pen } = styleOf(item.style ?? item.layer, medium, colours);
      return lettersSet(item).map((letter) => letters.set(letter, colour, pen));
    });
  const first = firstContent(frame, marksOf(onEveryPage, 'print'));
  const drawn = pages.map(({ kind, items }) => pageContent(marksOf(items, kind === 'map' ? 'map' : 'print')));
  return pdfFile(
    drawn.map((content) => ({ width, height, contents: [first, content] })),
    { title, subject: notes.join(' ') },
    { forms: letters.forms() },
  );
}
