import type { Colours } from '../../../shared/operations.js';
import { lettersSet } from '../../drawing/lettering/lettering.js';
import type { ClosedItem, Item, OpenItem, TextItem, WriterOptions } from '../../drawing/model.js';
import { dashes, letterPen, styleOf } from '../../drawing/styles.js';
import type { LineMark } from '../../drawing/tiling/types.js';
import { firstContent, type PageMark, pageContent } from './content.js';
import { pdfFile } from './file.js';
import { letterForms } from './letters.js';

/** A page that is composed already, mm from the lower left corner of its paper, x right, y up. */
export interface ComposedPage {
  readonly width: number;
  readonly height: number;
  readonly items: readonly Item[];
}

/**
 * PDF 1.7 of pages to be read, not cut: at true size and with lettering in black single strokes, no fonts, no
 * dates, no random ids. A letter's shape stands in the file once and is set as often as it is read. For drawings that are spread over pages see `pdfWriter`.
 */
export async function writePages(
  pages: readonly ComposedPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  { colours }: WriterOptions,
): Promise<Uint8Array> {
  const letters = letterForms();
  const lettersOf = (item: TextItem): readonly PageMark[] =>
    lettersSet(item).map((letter) => letters.set(letter, 'black', letterPen(item.height)));
  const drawn = pages.map(({ width, height, items }) => {
    const sheet = { width, height, factorX: 1, factorY: 1 };
    const marks = items.flatMap((item) => (item.kind === 'text' ? lettersOf(item) : marksOf(item, colours)));
    return { width, height, contents: [firstContent(sheet, [], colours), pageContent(marks, colours)] };
  });
  return pdfFile(drawn, { title, subject }, letters.forms());
}

function marksOf(item: ClosedItem | OpenItem, colours: Colours): readonly LineMark[] {
  const line = item.kind === 'closed' ? item.outline : item.path;
  if (line.segments.length === 0) return [];
  const dashed = item.kind === 'open' && item.dashed === true;
  const ink = item.style ?? item.layer;
  const { width: pen } = styleOf(ink, 'paper', colours);
  return [{ line, ink, pen, ...(dashed && { dash: { pattern: dashes.sheet, phase: 0 } }) }];
}
