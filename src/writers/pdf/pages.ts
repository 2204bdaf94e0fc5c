import type { Item, WriterOptions } from '../../drawing/model.js';
import type { ComposedPage, PagePart } from '../../drawing/page.js';
import { firstContent, type PageMark, pageContent } from './content.js';
import { pdfFile } from './file.js';
import { pageFonts } from './fonts.js';
import { lineMarks } from './marks.js';

/**
 * PDF 1.7 of pages to be read, not cut: at true size, with words as text that can be searched, copied and read aloud, with
 * headings, lists, tables and pictures marked as what they are. No dates, no random ids. For drawings that are spread over
 * pages see `pdfWriter`.
 */
export async function writePages(
  pages: readonly ComposedPage[],
  { title, subject }: { readonly title: string; readonly subject: string },
  { colours }: WriterOptions,
): Promise<Uint8Array> {
  const fonts = pageFonts();
  const marksOf = (item: Item): readonly PageMark[] =>
    item.kind === 'text' ? [{ raw: fonts.text(item), isText: true }] : lineMarks(item, 'paper', colours);
  const drawn = pages.map(({ width, height, parts }) => {
    const sheet = { width, height, factorX: 1, factorY: 1 };
    const tagged = parts.filter(isTagged);
    const marks = parts.flatMap((part): readonly PageMark[] => [
      { raw: isTagged(part) ? `/${part.tag.role} <</MCID ${tagged.indexOf(part)}>> BDC` : '/Artifact BMC' },
      ...part.items.flatMap(marksOf),
      { raw: 'EMC' },
    ]);
    return {
      width,
      height,
      contents: [firstContent(sheet, []), pageContent(marks)],
      tags: tagged.map(({ tag, items }) => ({ tag, top: topOf(items) })),
    };
  });
  return pdfFile(drawn, { title, subject }, { fonts: fonts.register });
}

const isTagged = (part: PagePart): part is PagePart & Required<Pick<PagePart, 'tag'>> =>
  part.tag !== undefined;

/** Where the words of a heading begin, from the foot of the page, mm, with some room above. */
const topOf = (items: readonly Item[]): number =>
  Math.max(0, ...items.flatMap((item) => (item.kind === 'text' ? [item.at.y + 3 * item.height] : [])));
